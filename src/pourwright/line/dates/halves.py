"""The shop's working time in halves of days, the grid that everything is scheduled on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from functools import cached_property

import numpy as np
import numpy.typing as npt

from pourwright.planner.hours import WorkingHours

Floats = npt.NDArray[np.float64]
MOST_DAYS = 3 * 366
HOUR = timedelta(hours=1)


@dataclass(frozen=True)
class Half:
    """One half of a working day.

    Parameters
    ----------
    start, end : datetime
        Aware, on the shop's clock.
    """

    start: datetime
    end: datetime


@dataclass(frozen=True)
class Halves:
    """Halves of working days, one after another.

    Parameters
    ----------
    first : datetime
        Nothing is done before; hours are counted from here.
    halves : tuple of Half
        From then on.
    """

    first: datetime
    halves: tuple[Half, ...]

    def __len__(self) -> int:
        """How many."""
        return len(self.halves)

    @cached_property
    def starts(self) -> Floats:
        """When each begins [h]."""
        return np.array([_hours(self.first, half.start) for half in self.halves])

    @cached_property
    def ends(self) -> Floats:
        """When each ends [h]."""
        return np.array([_hours(self.first, half.end) for half in self.halves])

    @cached_property
    def lengths(self) -> Floats:
        """Working time of one person in each [h]."""
        return self.ends - self.starts

    def day(self, slot: int) -> date:
        """Day of a half, on the shop's clock."""
        return self.halves[slot].start.date()

    def after_day(self, day: date) -> int:
        """The first half that begins after a day; their number where all begin by then."""
        return sum(half.start.date() <= day for half in self.halves)

    def moment(self, hours: float) -> datetime:
        """Moment so many hours after the first, on the shop's clock."""
        at = self.first.astimezone(UTC) + timedelta(hours=hours)
        return at.astimezone(self.halves[0].start.tzinfo)


def _hours(first: datetime, moment: datetime) -> float:
    """Elapsed hours, also over a change to summer time."""
    return (moment.astimezone(UTC) - first.astimezone(UTC)) / HOUR


def halves_of(hours: WorkingHours, first: datetime, count: int) -> Halves:
    """Cut working days in two, from a moment on.

    Parameters
    ----------
    hours : WorkingHours
        Of the shop.
    first : datetime
        Aware.
    count : int
        How many halves.

    Returns
    -------
    Halves

    Raises
    ------
    ValueError
        Where the shop is not open often enough in three years.
    """
    found: list[Half] = []
    for half in _from(hours, first):
        found.append(half)
        if len(found) == count:
            return Halves(first, tuple(found))
    raise ValueError("the shop is hardly ever open; mend working_days or days_off")


def _from(hours: WorkingHours, first: datetime) -> Iterator[Half]:
    day = first.astimezone(hours.zone).date()
    for later in range(MOST_DAYS):
        today = day + timedelta(later)
        if today.weekday() not in hours.weekdays or today in hours.days_off:
            continue
        opens, closes = (datetime.combine(today, at, hours.zone) for at in (hours.opens, hours.closes))
        noon = opens + (closes - opens) / 2
        for start, end in ((opens, noon), (noon, closes)):
            if start >= first:
                yield Half(start, end)
