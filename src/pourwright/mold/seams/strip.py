"""Straight pieces of a seam, and how hard a liquid at rest drives through them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import floor, inf


@dataclass(frozen=True, slots=True)
class Strip:
    """One straight piece of a seam.

    Parameters
    ----------
    length : float
        Of the seam [m].
    path : float
        Way out through it [m]: thickness of the panel, or of the rubber there.
    low, high : float
        Heights of its ends above the liquid's floor [m]; equal where it lies level.
    """

    length: float
    path: float
    low: float
    high: float


def head_at(height: float, level: float, layer: float = inf) -> float:
    """Depth of liquid over a place.

    Parameters
    ----------
    height : float
        Of the place above the liquid's floor [m].
    level : float
        Of the liquid in the end [m].
    layer : float
        Most liquid that stands over what has gelled below it [m]; each layer gels before the next.

    Returns
    -------
    float
        The most that ever stands there [m]; 0 above the level.

    Examples
    --------
    >>> head_at(0.1, 0.4), round(head_at(0.05, 0.4, 0.15), 6), head_at(0.15, 0.4, 0.15)
    (0.30000000000000004, 0.1, 0.15)
    """
    if height >= level:
        return 0.0
    top = level if layer == inf else min((floor(height / layer + 1e-9) + 1.0) * layer, level)
    return max(top - height, 0.0)


def _heads_below(height: float, level: float, layer: float) -> float:
    """Integral of the depth from the floor up to a height [m2]."""
    z = min(max(height, 0.0), level)
    if layer >= level:
        return level * z - 0.5 * z * z
    full = floor(z / layer + 1e-9)
    begins = full * layer
    top, above = min(begins + layer, level), max(z - begins, 0.0)
    return 0.5 * full * layer * layer + (top - begins) * above - 0.5 * above * above


def mean_head(strip: Strip, level: float, layer: float = inf) -> float:
    """Mean depth of liquid along a strip, its dry part counted as 0.

    Parameters
    ----------
    strip : Strip
        The strip.
    level, layer : float
        As in `head_at` [m].

    Returns
    -------
    float
        [m]

    Examples
    --------
    >>> round(mean_head(Strip(0.5, 0.018, 0.0, 0.5), 0.4), 6)
    0.16
    """
    if strip.high <= strip.low:
        return head_at(strip.low, level, layer)
    below = _heads_below(strip.high, level, layer) - _heads_below(strip.low, level, layer)
    return below / (strip.high - strip.low)


def drive(strips: Iterable[Strip], level: float, layer: float = inf) -> float:
    """Sum of depth over way out along a seam.

    Parameters
    ----------
    strips : iterable of Strip
        The seam.
    level, layer : float
        As in `head_at` [m].

    Returns
    -------
    float
        Integral of depth / path over the length [m]; times the liquid's weight it is what drives through a
        gap that is equally wide all along.

    Examples
    --------
    >>> upright = Strip(0.4, 0.02, 0.0, 0.4)
    >>> round(drive([upright], 0.4), 6), round(drive([upright], 0.4, 0.1), 6)
    (4.0, 1.0)
    """
    return sum(strip.length * mean_head(strip, level, layer) / strip.path for strip in strips)
