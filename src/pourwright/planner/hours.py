"""When somebody is in the shop: wall-clock hours, days off, summer time."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

EVERY_DAY = frozenset(range(7))
YEAR = 366


@dataclass(frozen=True)
class WorkingHours:
    """Hours in which a pour may start.

    Parameters
    ----------
    zone : ZoneInfo
        Time zone of the shop; hours are wall clock there.
    opens, closes : datetime.time
        First and last moment of the working day at which a pour may start.
    weekdays : frozenset of int
        Working days, Monday is 0.
    days_off : frozenset of date
        Days on which nobody is there.
    """

    zone: ZoneInfo
    opens: time
    closes: time
    weekdays: frozenset[int] = EVERY_DAY
    days_off: frozenset[date] = field(default_factory=frozenset)

    def is_open(self, moment: datetime) -> bool:
        """Say whether a pour may start at ``moment`` (aware datetime)."""
        local = moment.astimezone(self.zone)
        return self._works(local.date()) and self.opens <= local.time() <= self.closes

    def next_open(self, moment: datetime) -> datetime:
        """Return ``moment`` itself where the shop is open then, else the next opening.

        Parameters
        ----------
        moment : datetime
            Aware datetime.

        Returns
        -------
        datetime
            In the shop's zone.

        Raises
        ------
        ValueError
            Where the shop does not open within a year.

        Examples
        --------
        >>> shop = WorkingHours(ZoneInfo("Europe/Berlin"), time(8), time(17), frozenset(range(5)))
        >>> shop.next_open(datetime(2026, 12, 4, 20, 0, tzinfo=UTC)).isoformat()
        '2026-12-07T08:00:00+01:00'
        """
        if self.is_open(moment):
            return moment.astimezone(self.zone)
        local = moment.astimezone(self.zone)
        for days in range(YEAR):
            opening = datetime.combine(local.date() + timedelta(days), self.opens, self.zone)
            if opening.astimezone(UTC) >= moment.astimezone(UTC) and self._works(opening.date()):
                return opening
        raise ValueError("the shop does not open within a year; mend working_days or days_off")

    def starts(self, first: datetime, last: datetime, step: timedelta) -> Iterator[datetime]:
        """Yield the moments at which a pour may start between two moments.

        Parameters
        ----------
        first, last : datetime
            Aware datetimes, both included.
        step : timedelta
            Spacing on the wall clock, counted from the opening hour.

        Yields
        ------
        datetime
            Every step of each working day that lies between them.
        """
        day = first.astimezone(self.zone).date()
        while datetime.combine(day, time(), self.zone) <= last:
            yield from self._starts_of(day, first, last, step)
            day += timedelta(1)

    def _starts_of(self, day: date, first: datetime, last: datetime, step: timedelta) -> Iterator[datetime]:
        if not self._works(day):
            return
        moment = datetime.combine(day, self.opens)
        while moment.time() <= self.closes and moment.date() == day:
            aware = moment.replace(tzinfo=self.zone)
            if first <= aware <= last:
                yield aware
            moment += step

    def _works(self, day: date) -> bool:
        return day.weekday() in self.weekdays and day not in self.days_off
