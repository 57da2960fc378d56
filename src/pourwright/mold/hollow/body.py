"""The core of a hollow piece as a body, and the room around it that is filled."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from hashlib import sha256
from typing import Any

import numpy as np

from pourwright.geometry import Mesh, measure
from pourwright.geometry.drawn.carrying import carried_on
from pourwright.geometry.drawn.joining import as_manifold, as_mesh
from pourwright.geometry.drawn.rounding_lattice import Lattice
from pourwright.geometry.drawn.rounding_levels import level_surface
from pourwright.mold.hollow.core import has_mouth

STEPS, WIDEST = 4.0, 0.005
"""Lattice steps in one wall, and the widest [m]: docs/decisions/0032."""
MOST_POINTS = 3e5
"""Lattice points at most: thin walls of large pieces take coarser steps."""
SIMPLER = 5e-5
"""The core's faces may move by so much where that spares triangles [m]."""
REACHED = 1e-4
"""What ends so near under the mouth reaches it [m]."""
SMALLEST = 1e-3
"""Bodies below this share of the core are crumbs."""
_MM = 1000.0


@dataclass(frozen=True, eq=False)
class HollowBody:
    """A piece cast hollow.

    Parameters
    ----------
    wall : float
        Least thickness beside and under the core [m].
    cover : bool
        Whether the wall lies over the core too, so that it is drowned; else it ends in the open face.
    core, room : Mesh
        The core, and what is left of the cavity around it, in the pour frame.
    volume : float
        Of the core [m3].
    left_out : float
        Of bodies deeper than the wall that a core through the mouth does not reach [m3].
    """

    wall: float
    cover: bool
    core: Mesh
    room: Mesh
    volume: float
    left_out: float


def hollow_body(mesh: Mesh, wall: float, *, cover: bool = False) -> HollowBody | None:
    """Lay out the largest core that leaves a wall.

    Parameters
    ----------
    mesh : Mesh
        The cavity in the pour frame, mouth at its top [m].
    wall : float
        Least thickness that stays [m].
    cover : bool
        Whether it stays over the core as well.

    Returns
    -------
    HollowBody or None
        None where no place lies so deep, or none that a core hung through the mouth reaches.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> found = hollow_body(box([0.2, 0.2, 0.1]), 0.02)
    >>> bool(abs(found.volume / (0.16 * 0.16 * 0.08) - 1) < 5e-3)
    True
    >>> round(found.volume + measure(found.room).volume, 9)
    0.004
    """
    marks = sha256(mesh.vertices.tobytes() + mesh.faces.tobytes()).hexdigest()
    return _kept(_Order(marks, wall, cover, mesh))


@dataclass(frozen=True)
class _Order:
    """What is to be hollowed, told apart by the numbers: a job is read more than once."""

    digest: str
    wall: float
    cover: bool
    mesh: Mesh = field(compare=False)


@lru_cache(maxsize=8)
def _kept(order: _Order) -> HollowBody | None:
    mesh, wall, cover = order.mesh, order.wall, order.cover
    bodies = _deeper(mesh if cover or not has_mouth(mesh) else carried_on(mesh, 2 * wall), wall)
    top = float(mesh.bounds[1, 2])
    reaching = [body for body in bodies if cover or _reaches(body, top)]
    if not reaching:
        return None
    whole = max(reaching, key=_volume) if cover else _united(reaching)
    core = whole if cover else whole.trim_by_plane([0.0, 0.0, -1.0], -top * _MM)
    if core.is_empty():
        return None
    room, found = as_mesh(as_manifold(mesh) - whole), as_mesh(core)
    used = measure(found).volume
    missed = sum(map(_volume, bodies)) - _volume(whole)
    return HollowBody(wall, cover, found, room, used, max(missed, 0.0))


def deepest(mesh: Mesh, *, cover: bool = False) -> float:
    """Say how thick a wall leaves nothing for a core.

    Parameters
    ----------
    mesh : Mesh
        The cavity in the pour frame [m].
    cover : bool
        Whether the wall stays over the core as well.

    Returns
    -------
    float
        Greatest distance of a place in it from the walls [m], to a fiftieth of its least extent.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> round(deepest(box([0.1, 0.2, 0.3])), 3)
    0.05
    """
    reach = float(min(mesh.bounds[1] - mesh.bounds[0]))
    body = mesh if cover or not has_mouth(mesh) else carried_on(mesh, reach)
    lattice = _lattice(body, 0.0, reach / 25)
    return -float(lattice.distances(body, reach).min())


def _deeper(body: Mesh, wall: float) -> list[Any]:
    """Separate bodies of what lies deeper than a wall, crumbs left out [mm]."""
    lattice = _lattice(body, 0.0, min(wall / STEPS, WIDEST))
    # the field is cut off a little beyond the wall: inside the body it is below that everywhere
    surface = level_surface(lattice.distances(body, wall), lattice.axes, -wall)
    if not len(surface.faces):
        return []
    bodies = [one for one in as_manifold(surface).simplify(SIMPLER * _MM).decompose() if _volume(one) > 0]
    least = SMALLEST * sum(map(_volume, bodies))
    return [one for one in bodies if _volume(one) > least]


def _lattice(body: Mesh, distance: float, step: float) -> Lattice:
    size = np.asarray(body.bounds[1] - body.bounds[0])
    coarser = max(step, float(np.cbrt(np.prod(size) / MOST_POINTS)))
    return Lattice.around(body, distance, coarser)


def _reaches(body: Any, top: float) -> bool:
    return bool(body.bounding_box()[5] > (top - REACHED) * _MM)


def _united(bodies: list[Any]) -> Any:
    whole = bodies[0]
    for body in bodies[1:]:
        whole = whole + body
    return whole


def _volume(body: Any) -> float:
    return float(body.volume()) / _MM**3
