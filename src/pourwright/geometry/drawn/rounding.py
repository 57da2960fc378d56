"""Edges of turned, drawn up and boxed bodies rounded exactly: in the plane of their section."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np
import numpy.typing as npt

from pourwright.foundation.errors import UserError
from pourwright.geometry.drawn.outlines import Step, closed_outline, flattened
from pourwright.geometry.drawn.outlines_arcs import CHORD_TOLERANCE
from pourwright.geometry.drawn.outlines_corners import NoRoomError, largest_that_fits
from pourwright.geometry.drawn.outlines_offset import as_section, inset, loops_of, opened, swallowed
from pourwright.geometry.drawn.outlines_prism import extruded
from pourwright.geometry.mesh import Floats, Mesh
from pourwright.geometry.sections import outline_area

_ON_AXIS = 1e-7


def rounded_box(size: npt.ArrayLike, radius: float, tolerance: float = CHORD_TOLERANCE.value) -> Mesh:
    """Make a box with all edges and corners rounded.

    Parameters
    ----------
    size : array (3,)
        Width, depth and height [m].
    radius : float
        [m]
    tolerance : float
        Farthest a flat strip may leave the round [m].

    Returns
    -------
    Mesh
        Standing on z = 0, centred in x and y.

    Raises
    ------
    NoRoomError
        Where the radius is more than half of a side.

    Examples
    --------
    >>> from pourwright.geometry.solid import measure
    >>> side, r = 0.1, 0.01
    >>> inner = side - 2 * r
    >>> steiner = inner**3 + 6 * inner**2 * r + 3 * np.pi * inner * r**2 + 4 / 3 * np.pi * r**3
    >>> bool(abs(measure(rounded_box([side] * 3, r)).volume / steiner - 1) < 1e-5)
    True
    """
    sides = np.asarray(size, dtype=np.float64)
    most = float(sides.min()) / 2
    if radius > most * (1 - 1e-9):
        raise NoRoomError.of(None, radius, most)
    x, y = sides[:2] / 2
    corners = [(-x, -y), (x, -y), (x, y), (-x, y)]
    outline = closed_outline([Step(corner, radius=radius) for corner in corners])
    return extruded([flattened(outline, tolerance)], float(sides[2]), radius, radius, tolerance)


def rounded_outline(
    loops: Sequence[Floats],
    radius: float = 0.0,
    inner_radius: float = 0.0,
    tolerance: float = CHORD_TOLERANCE.value,
) -> list[Floats]:
    """Round the corners of an outline and of its holes.

    Parameters
    ----------
    loops : sequence of array (n, 2)
        The outer outline, counter-clockwise, then its holes, clockwise [m].
    radius, inner_radius : float
        Of the outer and of the inner corners; 0 leaves them as they are [m].
    tolerance : float
        Farthest a chord may leave the round [m].

    Returns
    -------
    list of array (n, 2)
        In the same order and direction [m].

    Raises
    ------
    NoRoomError
        Where a radius swallows a wall, a gap or a hole.

    Notes
    -----
    Outer corners: all that a disc of this radius reaches inside the outline. Inner corners: the same outside.

    Examples
    --------
    >>> square = np.array([[0.0, 0.0], [0.2, 0.0], [0.2, 0.2], [0.0, 0.2]])
    >>> (found,) = rounded_outline([square], 0.05)
    >>> bool(abs(outline_area(found) - (0.04 - (4 - np.pi) * 0.05**2)) < 1e-5)
    True
    """
    section = as_section(loops)
    if inner_radius:
        section = _outside(section, lambda space: _opened(space, inner_radius, tolerance))
    if radius:
        section = _opened(section, radius, tolerance)
    found = loops_of(section)
    return sorted(found, key=lambda loop: -float(np.ptp(loop[:, 0]) * np.ptp(loop[:, 1])))


def rounded_section(
    section: Floats, radius: float = 0.0, inner_radius: float = 0.0, tolerance: float = CHORD_TOLERANCE.value
) -> Floats:
    """Round the half section of a body of revolution; a tip on its axis too.

    Parameters
    ----------
    section : array (n, 2)
        Radius and height, closed [m].
    radius, inner_radius : float
        Of the outer and of the inner edges; 0 leaves them as they are [m].
    tolerance : float
        Farthest a chord may leave the round [m].

    Returns
    -------
    array (n, 2)
        Closed [m].

    Raises
    ------
    NoRoomError
        Where a radius swallows a wall or a hollow.

    Examples
    --------
    >>> section = np.array([[0.0, 0.0], [0.1, 0.0], [0.1, 0.2], [0.0, 0.2]])
    >>> found = rounded_section(section, 0.02)
    >>> bool(abs(outline_area(found) - (0.02 - (2 - np.pi / 2) * 0.02**2)) < 1e-5)
    True
    """
    if not (section[:, 0] == 0).any():
        return rounded_outline([_counter_clockwise(section)], radius, inner_radius, tolerance)[0]
    # a ball that rolls inside meets both sides of the axis, so both are drawn
    half = as_section([_counter_clockwise(section)])
    whole = half + half.mirror((1.0, 0.0))
    (loop,) = rounded_outline(loops_of(whole), radius, inner_radius, tolerance)
    low, high = loop.min(axis=0) - 1.0, loop.max(axis=0) + 1.0
    right = np.array([[0.0, low[1]], [high[0], low[1]], [high[0], high[1]], [0.0, high[1]]])
    parts = loops_of(as_section([loop]) ^ as_section([right]))
    if len(parts) != 1:
        raise UserError("rounding leaves no single turned body", todo="take a smaller radius")
    points = parts[0]
    points[np.abs(points[:, 0]) < _ON_AXIS, 0] = 0.0
    return points


def _counter_clockwise(loop: Floats) -> Floats:
    return loop if outline_area(loop) > 0 else loop[::-1]


def _opened(section: Any, radius: float, tolerance: float) -> Any:
    if swallowed(section, radius):
        raise NoRoomError.of(
            None, radius, largest_that_fits(lambda tried: not swallowed(section, tried), radius)
        )
    return opened(section, radius, tolerance)


def _outside(section: Any, change: Callable[[Any], Any]) -> Any:
    """Change the space around a region, and give the region that is left."""
    x_low, y_low, x_high, y_high = section.bounds()
    margin = max(x_high - x_low, y_high - y_low)
    frame = np.array(
        [
            [x_low - margin, y_low - margin],
            [x_high + margin, y_low - margin],
            [x_high + margin, y_high + margin],
            [x_low - margin, y_high + margin],
        ]
    )
    around = as_section([frame / 1000.0])
    # the frame's own corners must stay, so it is opened with a frame around it that is cut off again
    wide = inset(around, -margin / 1000.0, 1e-3)
    return around - change(wide - section)
