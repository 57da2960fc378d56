"""Working hours as seconds after a climate's zero."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from pourwright.planner.hours import WorkingHours
from pourwright.planner.model import Starts
from pourwright.pour.climate import Climate

HOUR = timedelta(hours=1)
MONTH = 31 * 86400.0


def working_starts(climate: Climate, hours: WorkingHours) -> Starts:
    """Turn working hours into starts in seconds after the climate's zero.

    Parameters
    ----------
    climate : Climate
        Carries zero and zone.
    hours : WorkingHours
        Of the shop.

    Returns
    -------
    callable
        ``starts(first, last)`` yields every full hour in which somebody is there.
    """

    def starts(first: float, last: float) -> Iterator[float]:
        if first < last < float("inf") or (first < float("inf") and last > first):
            end = min(last, first + MONTH)
            for moment in hours.starts(climate.moment(first), climate.moment(end), HOUR):
                yield climate.seconds(moment)

    return starts
