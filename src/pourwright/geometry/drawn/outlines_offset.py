"""Plane regions moved inward and outward, by manifold3d's cross sections."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from pourwright.geometry.drawn.outlines_arcs import chord_count
from pourwright.geometry.mesh import Floats, Integers
from pourwright.geometry.sections import outline_area

# manifold3d keeps its plane regions to a fixed number of decimals, so they are handed over in mm
_SCALE = 1000.0
_DEEPEST = 3.0
_FINER = 4.0


def as_section(loops: Sequence[Floats]) -> Any:
    """Hand outlines over.

    Parameters
    ----------
    loops : sequence of array (n, 2)
        Outer ones counter-clockwise, holes clockwise [m].

    Returns
    -------
    CrossSection
        In mm.
    """
    import manifold3d  # noqa: PLC0415 - a file of shapes alone does not need it

    return manifold3d.CrossSection([np.ascontiguousarray(loop * _SCALE) for loop in loops])


def loops_of(section: Any) -> list[Floats]:
    """Take outlines back.

    Parameters
    ----------
    section : CrossSection
        In mm.

    Returns
    -------
    list of array (n, 2)
        [m]
    """
    return [np.asarray(loop, dtype=np.float64) / _SCALE for loop in section.to_polygons()]


def inset(section: Any, depth: float, tolerance: float) -> Any:
    """Move the rim of a region inward, or outward by a negative depth, round where corners open.

    Parameters
    ----------
    section : CrossSection
        In mm.
    depth : float
        [m]
    tolerance : float
        Farthest a chord may leave the round [m].

    Returns
    -------
    CrossSection
        In mm.

    Examples
    --------
    >>> square = np.array([[0.0, 0.0], [0.2, 0.0], [0.2, 0.1], [0.0, 0.1]])
    >>> round(inset(as_section([square]), 0.01, 1e-5).area(), 6)
    14400.0
    """
    import manifold3d  # noqa: PLC0415 - as above

    around = 4 * max(2, -(-chord_count(abs(depth) or 1.0, 2 * np.pi, tolerance) // 4))
    return section.offset(-depth * _SCALE, manifold3d.JoinType.Round, 2.0, around)


def swallowed(section: Any, radius: float) -> bool:
    """Tell whether a rim of some radius eats up a wall.

    Parameters
    ----------
    section : CrossSection
        In mm.
    radius : float
        [m]

    Returns
    -------
    bool
        Whether moving the rim inward parts the region, loses a hole or loses more than sharp corners do.

    Examples
    --------
    >>> strip = as_section([np.array([[0.0, 0.0], [0.2, 0.0], [0.2, 0.01], [0.0, 0.01]])])
    >>> swallowed(strip, 0.004), swallowed(strip, 0.006)
    (False, True)
    """
    tolerance = radius / 200
    core = inset(section, radius, tolerance)
    if core.is_empty() or _outlines_and_holes(core) != _outlines_and_holes(section):
        return True
    # a corner of 30 degrees reaches 3 radii beyond the disc that fits into it
    near = inset(core, -radius * (1 + _DEEPEST), tolerance)
    lost = section - near
    return bool(lost.area() > 1e-6 * section.area())


def _outlines_and_holes(section: Any) -> tuple[int, int]:
    areas = [outline_area(loop) for loop in loops_of(section)]
    return sum(area > 0 for area in areas), sum(area < 0 for area in areas)


def opened(section: Any, radius: float, tolerance: float) -> Any:
    """Round all outer corners of a region: inward and outward again.

    Parameters
    ----------
    section : CrossSection
        In mm.
    radius : float
        [m]
    tolerance : float
        Farthest a chord may leave the round [m].

    Returns
    -------
    CrossSection
        In mm.

    Examples
    --------
    >>> square = as_section([np.array([[0.0, 0.0], [0.2, 0.0], [0.2, 0.1], [0.0, 0.1]])])
    >>> lost = square.area() - opened(square, 0.02, 1e-6).area()
    >>> bool(abs(lost / ((4 - np.pi) * 400) - 1) < 1e-2)
    True
    """
    # these chords cut off area, unlike those of drawn arcs, so they are finer
    return inset(inset(section, radius, tolerance), -radius, tolerance / _FINER)


def triangulated(loops: Sequence[Floats]) -> Integers:
    """Divide a region into triangles between its corners.

    Parameters
    ----------
    loops : sequence of array (n, 2)
        Outer ones counter-clockwise, holes clockwise [m].

    Returns
    -------
    array (m, 3)
        Corner numbers, counted through all outlines.

    Examples
    --------
    >>> square = np.array([[0.0, 0.0], [0.2, 0.0], [0.2, 0.1], [0.0, 0.1]])
    >>> len(triangulated([square]))
    2
    """
    import manifold3d  # noqa: PLC0415 - as above

    polygons = [np.ascontiguousarray(loop * _SCALE) for loop in loops]
    return np.asarray(manifold3d.triangulate(polygons), dtype=np.int64).reshape(-1, 3)
