"""Outlines drawn up into bodies, with rims rounded to quarter circles."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Any

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.drawn.outlines_arcs import CHORD_TOLERANCE, chords, edge_through
from pourwright.geometry.drawn.outlines_corners import NoRoomError, largest_that_fits
from pourwright.geometry.drawn.outlines_offset import as_section, inset, loops_of, swallowed, triangulated
from pourwright.geometry.mesh import Floats, Integers, Mesh
from pourwright.geometry.welding import welded

Loops = list[Floats]
Level = tuple[float, Loops]


@checked(height=Range(0, unit="m", open_low=True), bottom_rim=Range(0, unit="m"), top_rim=Range(0, unit="m"))
def extruded(
    loops: Sequence[Floats],
    height: float,
    bottom_rim: float = 0.0,
    top_rim: float = 0.0,
    tolerance: float = CHORD_TOLERANCE.value,
) -> Mesh:
    """Draw an outline up into a body that stands on z = 0.

    Parameters
    ----------
    loops : sequence of array (n, 2)
        The outer outline, counter-clockwise, then its holes, clockwise [m].
    height : float
        [m]
    bottom_rim, top_rim : float
        Radius of the rounding along all edges of the bottom and of the top, those of holes too [m].
    tolerance : float
        Farthest a flat strip may leave the round [m].

    Returns
    -------
    Mesh

    Raises
    ------
    NoRoomError
        Where a rim swallows a wall or the height.

    Notes
    -----
    At the depth z below the top the rounded rim lies r - sqrt(r^2 - (r - z)^2) inside the outline. Outlines
    moved inward by that, with round corners where the body has inner ones, are joined level by level.

    Examples
    --------
    >>> from pourwright.geometry.solid import measure
    >>> square = np.array([[0.0, 0.0], [0.2, 0.0], [0.2, 0.1], [0.0, 0.1]])
    >>> round(measure(extruded([square], 0.05)).volume, 9)
    0.001
    """
    _refuse_rims(loops, height, bottom_rim, top_rim)
    rising = list(_levels(loops, height, bottom_rim, top_rim, tolerance))
    parts = [_cap(rising[0], upward=False), *(_between(*both) for both in pairwise(rising))]
    return _stacked([*parts, _cap(rising[-1], upward=True)])


def _refuse_rims(loops: Sequence[Floats], height: float, bottom_rim: float, top_rim: float) -> None:
    largest = max(bottom_rim, top_rim)
    room = height * largest / (bottom_rim + top_rim) if largest else height
    if largest > room * (1 + 1e-12):
        raise NoRoomError.of(None, largest, room)
    section = as_section(loops)
    if largest and swallowed(section, largest):
        found = largest_that_fits(lambda radius: not swallowed(section, radius), largest)
        raise NoRoomError.of(None, largest, found)


def _levels(
    loops: Sequence[Floats], height: float, bottom_rim: float, top_rim: float, tolerance: float
) -> Iterator[Level]:
    """Heights from the bottom up, each with the outline there."""
    section = as_section(loops)
    given = list(loops)
    for depth, rise in reversed(_quarter(bottom_rim, tolerance)):
        yield rise, loops_of(inset(section, depth, tolerance))
    yield bottom_rim, given
    if height - top_rim > bottom_rim:
        yield height - top_rim, given
    for depth, rise in _quarter(top_rim, tolerance):
        yield height - rise, loops_of(inset(section, depth, tolerance))


def _quarter(radius: float, tolerance: float) -> list[tuple[float, float]]:
    """Way inward and distance from the face, along a quarter circle from the wall to the face."""
    if radius == 0:
        return []
    middle = radius * (1 - np.sqrt(0.5))
    points = chords(edge_through([0.0, radius], [middle, middle], [radius, 0.0]), tolerance)
    return [(float(depth), float(max(rise, 0.0))) for depth, rise in points]


def _cap(level: Level, *, upward: bool) -> tuple[Floats, Integers]:
    height, loops = level
    faces = triangulated(loops)
    points = np.concatenate(loops)
    return _raised(points, height), faces if upward else faces[:, ::-1]


def _between(below: Level, above: Level) -> tuple[Floats, Integers]:
    """Join two levels: by a wall where the outline stays, else by a slope that lies flat in plan."""
    (low, first), (high, second) = below, above
    if first is second:
        return _wall(first, low, high)
    outward = _covers(first, second)
    outer, inner = (first, second) if outward else (second, first)
    faces = triangulated([*outer, *(loop[::-1] for loop in inner)])
    heights = np.repeat([low, high] if outward else [high, low], [_size(outer), _size(inner)])
    points = np.concatenate([*outer, *(loop[::-1] for loop in inner)])
    return np.column_stack([points, heights]), faces if outward else faces[:, ::-1]


def _wall(loops: Loops, low: float, high: float) -> tuple[Floats, Integers]:
    points = np.concatenate(loops)
    count = len(points)
    here = np.arange(count)
    ahead = np.concatenate(
        [np.roll(np.arange(len(loop)), -1) + first for loop, first in zip(loops, _starts(loops), strict=True)]
    )
    faces = np.concatenate(
        [np.stack([here, ahead, ahead + count], 1), np.stack([here, ahead + count, here + count], 1)]
    )
    return np.concatenate([_raised(points, low), _raised(points, high)]), faces


def _covers(first: Loops, second: Loops) -> bool:
    return _area(first) > _area(second)


def _area(loops: Loops) -> float:
    return float(as_section(loops).area())


def _size(loops: Loops) -> int:
    return sum(map(len, loops))


def _starts(loops: Loops) -> list[int]:
    return [0, *np.cumsum([len(loop) for loop in loops])[:-1].tolist()]


def _raised(points: Floats, height: float) -> Floats:
    return np.column_stack([points, np.full(len(points), height)])


def _stacked(parts: Sequence[tuple[Any, Any]]) -> Mesh:
    starts = np.cumsum([0, *(len(points) for points, _ in parts)])
    faces = [faces + start for (_, faces), start in zip(parts, starts, strict=False)]
    return welded(Mesh(np.concatenate([points for points, _ in parts]), np.concatenate(faces)))
