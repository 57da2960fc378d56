"""The bodies of a mold, cut out of one another exactly."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce
from typing import Any

import numpy as np

from pourwright.geometry import Mesh, box
from pourwright.geometry.drawn.joining import as_manifold, as_mesh
from pourwright.mold.blocks.letter import letter
from pourwright.mold.bodies.body import Body, MoldBodies
from pourwright.mold.bodies.panels import panel_bodies
from pourwright.mold.result import MoldResult
from pourwright.mold.space_block import SpaceBlock

LEVEL = 1e-9
"""Corners this close below the open face lie in it [m]: no skin of rubber stays across the mouth."""
_PLACES = {"base": "below"}


@dataclass(frozen=True, slots=True)
class Heights:
    """Where the rubber and the box begin and end, z up as cast [m]."""

    box_low: float
    rubber_low: float
    rubber_high: float
    box_high: float


def mold_bodies(mold: MoldResult, master: Mesh) -> MoldBodies:
    """Make every body of a mold.

    Parameters
    ----------
    mold : MoldResult
        Box, rubber and space blocks.
    master : Mesh
        The body that hangs or stands in the box, in the frame of the pour; one closed surface [m].

    Returns
    -------
    MoldBodies
        A master that is larger than the cavity it leaves stands on the board it is screwed to, or hangs the
        base of rubber above the floor.

    Raises
    ------
    UserError
        Where the master is no closed body.
    """
    standing = _standing(mold, master)
    levels = heights(mold, standing)
    inside = mold.inside[:2]
    blocks = tuple(_block(number, block) for number, block in enumerate(mold.blocks))
    wood, piece = [as_manifold(block.mesh) for block in blocks], as_manifold(standing)
    rubber = _without(_room(inside, levels.rubber_low, levels.rubber_high), [piece, *wood])
    return MoldBodies(
        rubber=Body("rubber", "rubber", as_mesh(rubber)),
        master=Body("master", "master", standing),
        blocks=blocks,
        panels=panel_bodies(mold, levels.box_low, levels.box_high),
        air=_air(inside, levels, [piece, *wood]),
        box=_room(inside, levels.box_low, levels.box_high),
    )


def heights(mold: MoldResult, master: Mesh) -> Heights:
    """Levels of rubber and box around a master that is in its place.

    Parameters
    ----------
    mold : MoldResult
        The mold.
    master : Mesh
        Where it hangs or stands [m].

    Returns
    -------
    Heights
    """
    low, high = (float(z) for z in master.bounds[:, 2])
    free = mold.choices.freeboard
    if mold.method == "hung":
        return Heights(-mold.base, low - mold.base, high, max(mold.rim, high))
    return Heights(min(-mold.base, low - mold.base) - free, low - mold.base, high, high)


def cuboid(lower: Sequence[float], upper: Sequence[float]) -> Mesh:
    """A box between two corners.

    Parameters
    ----------
    lower, upper : sequence of float
        [m]

    Returns
    -------
    Mesh
    """
    low, high = np.asarray(lower, dtype=float), np.asarray(upper, dtype=float)
    unit = box([1.0, 1.0, 1.0])
    upper_side = unit.vertices > [0.0, 0.0, 0.5]
    # corner for corner, so that neighbours share their planes to the last bit
    return Mesh(np.where(upper_side, high, low), unit.faces)


def _standing(mold: MoldResult, master: Mesh) -> Mesh:
    """Move a master to where it hangs or stands, its open face level to the last bit."""
    low, high = master.bounds[:, 2]
    shift = -low if mold.method == "hung" else mold.inside[2] - mold.base - high
    points = master.vertices + np.array([0.0, 0.0, shift])
    top = points[:, 2].max()
    points[points[:, 2] > top - LEVEL, 2] = top
    return Mesh(points, master.faces)


def _block(number: int, block: SpaceBlock) -> Body:
    place = _PLACES.get(block.wall, block.wall)
    return Body("block", f"space block {letter(number)}", cuboid(block.lower, block.upper), place)


def _room(inside: Sequence[float], low: float, high: float) -> Mesh:
    x, y = inside[0] / 2, inside[1] / 2
    return cuboid((-x, -y, low), (x, y, high))


def _without(room: Mesh, bodies: Sequence[Any]) -> Any:
    return reduce(lambda left, body: left - body, bodies, as_manifold(room))


def _air(inside: Sequence[float], levels: Heights, bodies: Sequence[Any]) -> Mesh | None:
    above, below = levels.box_high - levels.rubber_high, levels.rubber_low - levels.box_low
    if max(above, below) <= LEVEL:
        return None
    ends = (levels.rubber_high, levels.box_high) if above > below else (levels.box_low, levels.rubber_low)
    left = _without(_room(inside, *ends), bodies)
    return None if left.is_empty() else as_mesh(left)
