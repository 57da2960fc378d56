"""From a surface as a file holds it to one closed body: what is mended, and what stands in the way."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace

import numpy as np

from pourwright.foundation.progress import SILENT, Progress
from pourwright.geometry.connectivity import edges_of
from pourwright.geometry.faults import Fault, find_faults
from pourwright.geometry.mesh import Floats, Mesh, joined
from pourwright.geometry.repairs.bodies import bodies_of, checked_union, one_body
from pourwright.geometry.repairs.doubles import without_doubles
from pourwright.geometry.repairs.holes import closed_holes
from pourwright.geometry.repairs.knives import knife_edges
from pourwright.geometry.repairs.mending import Mending
from pourwright.geometry.repairs.nesting import nested
from pourwright.geometry.repairs.numbers import brought_near, without_broken
from pourwright.geometry.repairs.orientation import agreeing
from pourwright.geometry.repairs.remesh import remeshed, remeshing_told
from pourwright.geometry.repairs.seams import closed_seams, compacted
from pourwright.geometry.repairs.shells import Shell, crossing_place, shells_of
from pourwright.geometry.repairs.slivers import without_slivers
from pourwright.geometry.welding import welded

NOTED = ("far", "knife edge", "chosen", "remeshed")
"""Kinds that change no surface, or that the maker has asked for."""


@dataclass(frozen=True, slots=True, eq=False)
class Repair:
    """How far a surface came.

    Parameters
    ----------
    mesh : Mesh
        The body, or what is to be shown of it where there are faults [m].
    mendings : tuple of Mending
        What was done, in its order.
    faults : tuple of Fault
        What stands in the way, the gravest first; empty for a sound body.
    shift : array (3,)
        What has to be added to places to give those of the file [m].
    """

    mesh: Mesh
    mendings: tuple[Mending, ...] = ()
    faults: tuple[Fault, ...] = ()
    shift: Floats = field(default_factory=lambda: np.zeros(3))

    @property
    def mended(self) -> tuple[Mending, ...]:
        """What changed the surface without being asked for."""
        return tuple(mending for mending in self.mendings if mending.kind not in NOTED)

    def then(self, mesh: Mesh, mendings: tuple[Mending, ...] = (), faults: tuple[Fault, ...] = ()) -> Repair:
        """Go one step on."""
        return replace(self, mesh=mesh, mendings=(*self.mendings, *mendings), faults=faults)


def repaired(
    mesh: Mesh, *, body: int | None = None, tolerance: float | None = None, progress: Progress = SILENT
) -> Repair:
    """Mend what can be mended without a guess.

    Parameters
    ----------
    mesh : Mesh
        As read.
    body : int, optional
        The body to take where there are several, from 1 for the largest.
    tolerance : float, optional
        Make a new surface that lies within this distance of the old one [m].
    progress : Progress
        Told what is done; may raise Cancelled.

    Returns
    -------
    Repair
        A sound mesh comes back unchanged.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> whole = box([0.2, 0.2, 0.2])
    >>> [mending.kind for mending in repaired(Mesh(whole.vertices, whole.faces[1:, ::-1])).mendings]
    ['hole', 'inverted']
    """
    state = _numbered(mesh)
    if state.faults:
        return state
    found = find_faults(state.mesh)
    if not found and body in (None, 1) and tolerance is None:
        return state.then(state.mesh, knife_edges(state.mesh))
    if any(fault.kind in {"size", "empty"} for fault in found):
        return state.then(state.mesh, faults=found)
    for step in _SURFACE:
        state = step(state)
        if state.faults:
            return state
    if tolerance is not None:
        new = remeshed(state.mesh, tolerance, progress)
        state = state.then(new, remeshing_told(state.mesh, new, tolerance))
    return _single(state, body)


def _numbered(mesh: Mesh) -> Repair:
    """Keep what has numbers, near the origin."""
    plain = without_broken(mesh)
    if plain.faults or not len(plain.mesh.faces):
        return Repair(plain.mesh, plain.mendings, plain.faults or find_faults(plain.mesh))
    near = brought_near(plain.mesh)
    told = (*plain.mendings, *near.mendings)
    return Repair(near.mesh, told, near.faults, near.shift)


def _unwelded(state: Repair) -> Repair:
    whole = compacted(welded(state.mesh))
    return state.then(whole, faults=() if len(whole.faces) else find_faults(whole))


def _undoubled(state: Repair) -> Repair:
    mesh, told = without_doubles(state.mesh)
    if not len(mesh.faces):
        return state.then(state.mesh, faults=(_flat(state.mesh),))
    return state.then(mesh, told)


def _flat(mesh: Mesh) -> Fault:
    message = "the shape encloses no volume"
    return Fault("flat", message, mesh.bounds.mean(axis=0), todo="give it a thickness")


def _seamed(state: Repair) -> Repair:
    mesh, told = closed_seams(state.mesh)
    # what lay beside each other may lie on each other now
    return _undoubled(state.then(mesh, told)) if told else state


def _oriented(state: Repair) -> Repair:
    found = agreeing(state.mesh)
    return state.then(found.mesh, found.mendings, found.faults)


def _closed(state: Repair) -> Repair:
    found = closed_holes(state.mesh)
    return state.then(found.mesh, found.mendings, found.faults)


def _smoothed(state: Repair) -> Repair:
    mesh, told = without_slivers(state.mesh)
    return state.then(mesh, told)


def _manifold(state: Repair) -> Repair:
    """Refuse edges that more than two triangles share, unless each surface there is closed by itself."""
    edges = edges_of(state.mesh)
    crowded = edges.uses > 2
    if not crowded.any() or _closed_apart(state.mesh):
        return state
    middles = state.mesh.vertices[edges.ends[crowded]].mean(axis=1)
    count = int(crowded.sum())
    said = "1 edge is" if count == 1 else f"{count} edges are"
    message = f"walls meet wrongly: {said} shared by more than two triangles, first"
    fault = Fault("non-manifold", message, middles[0], count, places=middles)
    return state.then(state.mesh, faults=(fault,))


def _closed_apart(mesh: Mesh) -> bool:
    for shell in shells_of(mesh):
        edges = edges_of(shell.mesh)
        if (edges.uses != 2).any() or edges.direction.any():
            return False
    return True


_SURFACE: tuple[Callable[[Repair], Repair], ...] = (
    _unwelded, _undoubled, _seamed, _oriented, _closed, _smoothed, _manifold,
)  # fmt: skip


def _single(state: Repair, body: int | None) -> Repair:
    """Sort the closed surfaces, join what overlaps, take one body."""
    shells = shells_of(state.mesh)
    solid = [shell for shell in shells if not shell.flat]
    if not solid:
        return state.then(state.mesh, faults=(_flat(state.mesh),))
    told = _left_out([shell for shell in shells if shell.flat])
    if crossed := _crossing(solid):
        return state.then(state.mesh, faults=(crossed,))
    order = nested(solid)
    if order.faults:
        return state.then(state.mesh, faults=order.faults)
    bodies = bodies_of(order)
    taken, choice, faults = one_body(bodies, body)
    if taken is None:
        return state.then(state.mesh, faults=faults)
    surface = joined([shell.faced for shell in order.shells])
    if faults := checked_union(taken, surface, len(bodies) == 1):
        return state.then(state.mesh, faults=faults)
    done = state.then(taken.mesh, (*told, *order.mendings, *choice))
    left = tuple(fault for fault in find_faults(taken.mesh) if fault.refused)
    return done.then(taken.mesh, () if left else knife_edges(taken.mesh), left)


def _left_out(flat: list[Shell]) -> tuple[Mending, ...]:
    if not flat:
        return ()
    message = "a surface without thickness encloses nothing and was left out"
    return (Mending("fin", message, np.array([shell.middle for shell in flat])),)


def _crossing(shells: list[Shell]) -> Fault | None:
    for shell in shells:
        place, times = crossing_place(shell)
        if place is not None:
            how = f"a part of it is enclosed {times} times" if times > 1 else "a part of it is inside out"
            message = f"the surface crosses itself: {how}"
            todo = "mend it in the program that made it, or have its surface made anew"
            return Fault("crossing", message, place, todo=todo, places=place[None])
    return None
