"""Levels at which a pour may end, and those at which it must."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from pourwright.pour.site import Bed

METRIC_STEP = 0.025
US_STEP = 0.0254
DIVISIONS = (1, 2, 4, 6, 12, 24, 36, 48, 96)


def candidate_levels(beds: Sequence[Bed], step: float = METRIC_STEP) -> tuple[float, ...]:
    """List the levels of a search: every bed in equal parts.

    Parameters
    ----------
    beds : sequence of Bed
        From the floor to the top.
    step : float
        Widest distance of levels in a bed of glass [m]; neat resin, whose depth is what
        overheats, gets half of it.

    Returns
    -------
    tuple of float
        Ascending [m]; borders, top, halves and, where a bed is deep enough, thirds are among them.

    Examples
    --------
    >>> candidate_levels([Bed(0.0, 0.06, 0.55), Bed(0.06, 0.1, 0.0)])
    (0.015, 0.03, 0.045, 0.06, 0.07, 0.08, 0.09, 0.1)
    """
    return tuple(round(level, 7) for bed in beds for level in _parts(bed, step))


def _parts(bed: Bed, step: float) -> Iterator[float]:
    widest = step / 2 if bed.solid_fraction == 0.0 else step
    depth = bed.upper - bed.lower
    count = next((n for n in DIVISIONS if depth / n <= widest + 1e-9), DIVISIONS[-1])
    yield from (bed.lower + depth * number / count for number in range(1, count + 1))


def compulsory_levels(beds: Sequence[Bed]) -> tuple[float, ...]:
    """List the levels at which a pour must end: glass cannot lie on liquid resin.

    Parameters
    ----------
    beds : sequence of Bed
        From the floor to the top.

    Returns
    -------
    tuple of float
        Upper edge of every neat bed that carries glass [m].

    Examples
    --------
    >>> compulsory_levels([Bed(0.0, 0.06, 0.0), Bed(0.06, 0.1, 0.55), Bed(0.1, 0.11, 0.0)])
    (0.06,)
    """
    pairs = pairwise(beds)
    return tuple(low.upper for low, high in pairs if low.solid_fraction == 0.0 < high.solid_fraction)
