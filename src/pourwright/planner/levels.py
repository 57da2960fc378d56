"""Levels at which a pour may end: round heights, band borders, the top."""

from __future__ import annotations

from collections.abc import Sequence

from pourwright.pour.site import Bed

METRIC_STEP = 0.025
US_STEP = 0.0254


def candidate_levels(beds: Sequence[Bed], step: float = METRIC_STEP) -> tuple[float, ...]:
    """List the levels of a search.

    Parameters
    ----------
    beds : sequence of Bed
        From the floor to the top.
    step : float
        Distance of levels in a bed of glass [m]; neat resin, whose depth is what overheats,
        gets half of it.

    Returns
    -------
    tuple of float
        Ascending [m]; every border and the top are among them, and a round height nearer
        than a third of a step to a border gives way to it.

    Examples
    --------
    >>> candidate_levels([Bed(0.0, 0.06, 0.55), Bed(0.06, 0.1, 0.0)])
    (0.025, 0.05, 0.06, 0.075, 0.0875, 0.1)
    """
    borders = [bed.upper for bed in beds]
    found = set(borders)
    for bed in beds:
        own = step / 2 if bed.solid_fraction == 0.0 else step
        count = int(beds[-1].upper / own) + 1
        rounds = [round(own * i, 7) for i in range(1, count + 1)]
        found |= {z for z in rounds if bed.lower < z < bed.upper and _free(z, borders, own / 3)}
    return tuple(sorted(found))


def _free(height: float, borders: Sequence[float], distance: float) -> bool:
    return min(abs(height - border) for border in borders) > distance - 1e-9
