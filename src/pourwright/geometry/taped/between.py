"""A curve through readings that never swings beyond them, and how far it may be off between them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.interpolate import CubicHermiteSpline, PchipInterpolator

from pourwright.geometry.mesh import Floats

POINT, DOME = "point", "dome"
ORDER = 2.5
"""Power of the distance between readings that a curve through them is off by; set on invented bodies."""


def squares_between(
    heights: Floats, squares: Floats, ends: tuple[str | None, str | None] = (None, None)
) -> CubicHermiteSpline:
    """Lay a smooth curve through the squares of half-diameters.

    Parameters
    ----------
    heights : array (n,)
        Rising, two or more [m].
    squares : array (n, ...)
        Square of a half-diameter at each [m2]; 0 at an end that closes.
    ends : tuple
        How the bottom and the top close: "point", "dome", or None where they are flat.

    Returns
    -------
    CubicHermiteSpline
        Rises and falls only as the readings do.

    Notes
    -----
    Piecewise cubic with the slopes of Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300
    [fritsch-butland-1984]. Squares, because volume is linear in them: a cylinder and a cap of an ellipsoid
    come out exact. At a dome the slope is that of the ellipsoid that goes on smoothly; at a point it is 0.

    Examples
    --------
    >>> curve = squares_between(np.array([0.0, 1.0]), np.array([1.0, 0.0]), (None, "point"))
    >>> round(float(curve(0.5)), 6)
    0.25
    """
    slopes = _slopes(heights, squares)
    for end, inner, how in ((0, 1, ends[0]), (-1, -2, ends[1])):
        secant = (squares[inner] - squares[end]) / (heights[inner] - heights[end])
        if how is not None and len(heights) == 2:
            slopes[inner] = 2 * secant if how == POINT else 0 * secant
        if how == POINT:
            slopes[end] = 0.0
        elif how == DOME:
            # a parabola of squares is an ellipsoid; turning back would be no dome
            slopes[end] = np.where((2 * secant - slopes[inner]) * secant > 0, 2 * secant - slopes[inner], 0.0)
    return CubicHermiteSpline(heights, squares, slopes)


def _slopes(heights: Floats, values: Floats) -> Floats:
    if len(heights) == 2:
        # nothing but two ends: straight sides, of which the squares are a parabola
        straight = np.sqrt(np.maximum(values, 0.0))
        return np.asarray(2 * straight * (straight[1] - straight[0]) / (heights[1] - heights[0]))
    return np.asarray(PchipInterpolator(heights, values).derivative()(heights))


def left_out(heights: Floats, areas: Floats) -> Floats:
    """How far each inner reading lies off the curve through all the others.

    Parameters
    ----------
    heights : array (n,)
        Rising [m].
    areas : array (n,)
        Of the sections [m2].

    Returns
    -------
    array (n - 2,)
        Reading less curve [m2]; empty for two readings.

    Examples
    --------
    >>> left_out(np.array([0.0, 1.0, 2.0]), np.array([1.0, 1.5, 1.0])).tolist()
    [0.5]
    """
    inner = range(1, len(heights) - 1)
    others = (squares_between(np.delete(heights, i), np.delete(areas, i)) for i in inner)
    return np.array([areas[i] - float(curve(heights[i])) for i, curve in zip(inner, others, strict=True)])


@dataclass(frozen=True, slots=True)
class Wander:
    """How freely bodies wander between two readings, set on invented bodies.

    Parameters
    ----------
    factor : float
        From what a left-out reading shows to what a span may be off [-].
    usual : float
        Wander of a body of which nothing is known, in volumes over the body's height [-].
    weight : float
        How many left-out readings that is worth [-].
    """

    factor: float
    usual: float
    weight: float


def span_doubts(heights: Floats, areas: Floats, noise: Floats, wander: Wander) -> Floats:
    """Standard deviation of what each span between two readings holds.

    Parameters
    ----------
    heights : array (n,)
        Rising [m].
    areas : array (n,)
        Of the sections [m2].
    noise : array (n,)
        Standard deviation of each area from its reading alone [m2].
    wander : Wander
        How freely such bodies wander.

    Returns
    -------
    array (n - 1,)
        [m3]; a span half as long is surer by 2 to the power 3.5.

    Examples
    --------
    >>> steps, even = np.linspace(0.0, 0.4, 5), np.full(5, 0.01)
    >>> doubts = span_doubts(steps, even, 0 * even, Wander(0.2, 3.0, 1.0))
    >>> bool((doubts > 0).all()), bool(doubts.sum() < 0.05 * 0.004)
    (True, True)
    """
    whole, spans = heights[-1] - heights[0], np.diff(heights) / (heights[-1] - heights[0])
    mean = float(np.sum((areas[1:] + areas[:-1]) / 2 * spans))
    off = left_out(heights, areas)
    # a reading's own error shows in what it leaves out; it is counted elsewhere
    free = np.maximum(off**2 - 1.5 * noise[1:-1] ** 2, 0.0) / mean**2
    shown = free / (spans[:-1] + spans[1:]) ** (2 * ORDER)
    weight = wander.weight
    square = (weight * wander.usual**2 + shown.sum()) / (weight + len(shown))
    return np.asarray(wander.factor * np.sqrt(square) * spans ** (ORDER + 1) * mean * whole)
