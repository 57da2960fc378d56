"""Where the panels of a box stand on the paper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

MOST_STACKED = 1.5
"""Panels below each other may be so much taller, together, than one row of them."""
MOST_GAP = 60.0
"""Between two in a row [pt]."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where one panel stands: its left lower corner, top of its title [pt], points for a metre."""

    left: float
    foot: float
    top: float
    scale: float

    def at(self, x: float, z: float) -> tuple[float, float]:
        """A place on the panel, from its left lower corner [m], on the paper [pt]."""
        return self.left + x * self.scale, self.foot - z * self.scale


def places_of(
    sizes: Sequence[tuple[float, float]],
    paper: tuple[float, float],
    beside: tuple[float, float],
    around: tuple[float, float],
) -> tuple[list[Place], float]:
    """Put panels side by side where they fit, else below each other, all to one scale.

    Parameters
    ----------
    sizes : sequence of (length, height)
        Of the panels [m].
    paper : (width, height)
        Of the paper, and most for one panel [pt].
    beside : (left, right)
        Room beside each [pt].
    around : (head, foot)
        Room above and below each [pt].

    Returns
    -------
    list of Place, float
        And the height of all [pt].

    Examples
    --------
    >>> places, height = places_of([(0.4, 0.4), (0.4, 0.4)], (500.0, 200.0), (40.0, 40.0), (20.0, 30.0))
    >>> [place.left for place in places], height
    ([40.0, 290.0], 220.0)
    """
    (wide, tall), room = paper, sum(beside)
    longest = sum(length for length, _ in sizes)
    highest = max(height for _, height in sizes)
    together = min((wide - room * len(sizes)) / longest, tall / highest)
    heights = sum(height for _, height in sizes)
    alone = min((wide - room) / max(length for length, _ in sizes), MOST_STACKED * tall / heights)
    # side by side as long as that does not make them much smaller
    if together >= 0.6 * alone:
        return _row(sizes, wide, together, beside, around)
    places, top = [], 0.0
    for length, height in sizes:
        (place,), deep = _row([(length, height)], wide, alone, beside, around)
        places.append(Place(place.left, place.foot + top, top, alone))
        top += deep
    return places, top


def _row(
    sizes: Sequence[tuple[float, float]],
    wide: float,
    scale: float,
    beside: tuple[float, float],
    around: tuple[float, float],
) -> tuple[list[Place], float]:
    highest = max(height for _, height in sizes) * scale
    spare = wide - sum(length * scale + sum(beside) for length, _ in sizes)
    places, x = [], 0.0
    for length, _ in sizes:
        places.append(Place(x + beside[0], around[0] + highest, 0.0, scale))
        x += length * scale + sum(beside) + min(spare / max(len(sizes) - 1, 1), MOST_GAP)
    return places, around[0] + highest + around[1]


def chain(places: Sequence[float], length: float) -> list[tuple[float, float]]:
    """Spans of a chain of dimensions from end to end.

    Parameters
    ----------
    places : sequence of float
        In between, rising [m].
    length : float
        Of the whole [m].

    Returns
    -------
    list of (from, to)
        [m]

    Examples
    --------
    >>> chain([0.07, 0.25], 0.4)
    [(0.0, 0.07), (0.07, 0.25), (0.25, 0.4)]
    """
    return list(pairwise((0.0, *places, length)))
