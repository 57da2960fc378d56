"""Bodies: closed surfaces that hang together, each with its cavities, numbered by size."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.geometry.faults import Fault
from pourwright.geometry.mesh import Floats, Mesh, joined
from pourwright.geometry.repairs.enclosed import enclosed_volume
from pourwright.geometry.repairs.mending import Mending, counted
from pourwright.geometry.repairs.nesting import Nested
from pourwright.geometry.repairs.shells import Shell
from pourwright.geometry.repairs.union import manifold_of, mesh_of
from pourwright.geometry.solid import measure

AGREES = 5e-3
"""How far the volume of a union may lie off that of the column sweep."""
_LISTED = 5


@dataclass(frozen=True, slots=True, eq=False)
class Body:
    """What can be cast alone.

    Parameters
    ----------
    mesh : Mesh
        Closed, with its cavities [m].
    volume : float
        [m3]
    parts : int
        Surfaces that overlapped, now one.
    place : array (3,)
        Where they overlap, or the middle [m].
    """

    mesh: Mesh
    volume: float
    parts: int
    place: Floats

    @property
    def size(self) -> tuple[float, float, float]:
        """Extent along x, y, z [m]."""
        x, y, z = (float(side) for side in self.mesh.bounds[1] - self.mesh.bounds[0])
        return (x, y, z)

    @property
    def middle(self) -> Floats:
        """Middle of its bounding box (3,) [m]."""
        return np.asarray(self.mesh.bounds.mean(axis=0))


def bodies_of(found: Nested) -> list[Body]:
    """Join what overlaps, and give each body with its cavities.

    Parameters
    ----------
    found : Nested
        Without faults.

    Returns
    -------
    list of Body
        The largest first; of equal ones the lower, then as in the file.

    Examples
    --------
    >>> from pourwright.geometry import box, joined
    >>> from pourwright.geometry.repairs.nesting import nested
    >>> from pourwright.geometry.repairs.shells import shells_of
    >>> two = joined([box([1, 1, 1]), box([1, 1, 1]).moved([0.5, 0, 0]), box([1, 1, 1]).moved([5, 0, 0])])
    >>> [(round(body.volume, 6), body.parts) for body in bodies_of(nested(shells_of(two)))]
    [(1.5, 2), (1.0, 1)]
    """
    bodies = [_body(found, group) for group in _groups(found)]
    return sorted(bodies, key=lambda body: -round(body.volume / max(b.volume for b in bodies), 9))


def _groups(found: Nested) -> list[list[int]]:
    """Outward shells that overlap, followed by the cavities that lie in them."""
    owner = list(range(len(found.shells)))

    def root(n: int) -> int:
        while owner[n] != n:
            n = owner[n]
        return n

    cavities = [(n, min(m for m in found.hosts[n] if not found.shells[m].inward)) for n in _inward(found)]
    for one, other in (*found.overlaps, *cavities):
        low, high = sorted((root(one), root(other)))
        owner[high] = low
    groups: dict[int, list[int]] = {}
    for n in range(len(owner)):
        groups.setdefault(root(n), []).append(n)
    return list(groups.values())


def _inward(found: Nested) -> list[int]:
    return [n for n, shell in enumerate(found.shells) if shell.inward]


def _body(found: Nested, group: list[int]) -> Body:
    members = set(group)
    shells = [found.shells[n] for n in group]
    if not any(members & {*pair} for pair in found.overlaps):
        mesh = shells[0].faced if len(shells) == 1 else joined([shell.faced for shell in shells])
        return Body(mesh, measure(mesh).volume, 1, shells[0].middle)
    mesh = _united(shells, [found.hosts[n] for n in group], group)
    pair = next(pair for pair in found.overlaps if members & {*pair})
    place = _shared_middle(*(found.shells[n] for n in pair))
    return Body(mesh, measure(mesh).volume, len(shells), place)


def _united(shells: Sequence[Shell], hosts: Sequence[frozenset[int]], group: Sequence[int]) -> Mesh:
    """Take each surface's cavities out of it, then join all."""
    import manifold3d  # noqa: PLC0415 - a tenth of a second that only joining needs

    add, subtract = manifold3d.OpType.Add, manifold3d.OpType.Subtract
    solids = []
    for n, shell in zip(group, shells, strict=True):
        if shell.inward:
            continue
        inside = [
            other.mesh for other, names in zip(shells, hosts, strict=True) if other.inward and n in names
        ]
        solid = [manifold_of(mesh) for mesh in (shell.mesh, *inside)]
        solids.append(manifold3d.Manifold.batch_boolean(solid, subtract) if inside else solid[0])
    return mesh_of(manifold3d.Manifold.batch_boolean(solids, add))


def _shared_middle(one: Shell, other: Shell) -> Floats:
    lower = np.maximum(one.mesh.bounds[0], other.mesh.bounds[0])
    upper = np.minimum(one.mesh.bounds[1], other.mesh.bounds[1])
    return np.asarray((lower + upper) / 2)


def one_body(
    bodies: Sequence[Body], chosen: int | None
) -> tuple[Body | None, tuple[Mending, ...], tuple[Fault, ...]]:
    """Take the only body, or the one that was chosen.

    Parameters
    ----------
    bodies : sequence of Body
        The largest first.
    chosen : int or None
        Its number, from 1.

    Returns
    -------
    tuple of Body or None, mendings, faults
        A fault lists the bodies where there are several and none was chosen, or that number is not there.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> cubes = [box([1, 1, 1]), box([1, 1, 1]).moved([3, 0, 0])]
    >>> one_body([Body(cube, 1.0, 1, cube.bounds[0]) for cube in cubes], None)[2][0].kind
    'bodies'
    """
    count = len(bodies)
    if chosen is not None and not 1 <= chosen <= count:
        there = "there is one body" if count == 1 else f"there are {count} bodies"
        return None, (), (_listed(f"there is no body {chosen}, {there}", bodies),)
    if count > 1 and chosen is None:
        touching = _touching(bodies)
        if touching is not None:
            message = f"{count} bodies touch only at an edge or a corner, where nothing holds them together,"
            fault = Fault("touching", message, touching, count, places=touching[None])
            return None, (), (fault, _listed(f"there are {count} bodies", bodies))
        return None, (), (_listed(f"there are {count} separate bodies", bodies),)
    body = bodies[(chosen or 1) - 1]
    told = []
    if body.parts > 1:
        told.append(
            Mending("joined", f"{body.parts} surfaces that overlap or touch were joined", body.place[None])
        )
    if count > 1:
        others = counted(count - 1, "other", "others")
        said = f"body {chosen} of {count} was taken and {others} left out"
        message = f"{said}; it is {{0}} x {{1}} x {{2}} {{u}} large"
        told.append(Mending("chosen", message, body.middle[None], body.size))
    return body, tuple(told), ()


def _listed(message: str, bodies: Sequence[Body]) -> Fault:
    """List the bodies by number, size and place of the middle; all lengths go in with the sentence."""
    lengths: list[float] = []
    words = []
    for n, body in enumerate(bodies[:_LISTED]):
        at = len(lengths)
        lengths += [*body.size, *body.middle]
        slots = [f"{{{at + k}}}" for k in range(6)]
        words.append(
            f"{n + 1} is {' x '.join(slots[:3])} {{u}} around x = {slots[3]}, y = {slots[4]}, z = {slots[5]}"
        )
    more = f"; {len(bodies) - _LISTED} more" if len(bodies) > _LISTED else ""
    places = np.array([body.middle for body in bodies])
    said = f"{message}: {'; '.join(words)}{more}"
    todo = "choose one by its number, or join them"
    return Fault("bodies", said, None, len(bodies), True, todo, tuple(lengths), places)


def _touching(bodies: Sequence[Body]) -> Floats | None:
    """Find a corner that two bodies share."""
    corners = [np.unique(body.mesh.vertices, axis=0) for body in bodies]
    points, counts = np.unique(np.concatenate(corners), axis=0, return_counts=True)
    shared = np.flatnonzero(counts > 1)
    return np.asarray(points[shared[0]]) if shared.size else None


def checked_union(body: Body, surface: Mesh, alone: bool) -> tuple[Fault, ...]:
    """Hold the volume of a union against the volume that the surfaces enclose along columns.

    Parameters
    ----------
    body : Body
        Joined.
    surface : Mesh
        What it was joined from.
    alone : bool
        Whether the surface holds nothing else; otherwise they cannot be compared.

    Returns
    -------
    tuple of Fault
        Empty where they agree.
    """
    if body.parts == 1 or not alone:
        return ()
    swept = enclosed_volume(surface)[0]
    if abs(swept / body.volume - 1) <= AGREES:
        return ()
    message = "overlapping parts could not be joined: the volume of the result is not what they enclose"
    return (Fault("overlapping", message, body.place),)
