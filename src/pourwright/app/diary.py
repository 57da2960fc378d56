"""One person's time: what fits where in working hours."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta

from pourwright.planner.hours import WorkingHours

Slot = tuple[datetime, datetime]
QUARTER = timedelta(minutes=15)
DAY = timedelta(days=1)
MOST_DAYS = 366


@dataclass
class Diary:
    """Working hours of one person, and what is booked in them.

    Parameters
    ----------
    hours : WorkingHours
        When somebody is there; ``closes`` is the end of the day.
    booked : list of (start, end)
        In UTC, where elapsed time is counted.
    """

    hours: WorkingHours
    booked: list[Slot] = field(default_factory=list)

    def book(self, start: datetime, length: timedelta) -> Slot:
        """Take a time as it is.

        Parameters
        ----------
        start : datetime
            Aware.
        length : timedelta
            Elapsed.

        Returns
        -------
        tuple of datetime
            Start and end on the shop's clock.
        """
        begin = start.astimezone(UTC)
        self.booked.append((begin, begin + length))
        return begin.astimezone(self.hours.zone), (begin + length).astimezone(self.hours.zone)

    def before(self, limit: datetime, length: timedelta) -> Slot:
        """Book the last free time that ends by a moment.

        Parameters
        ----------
        limit : datetime
            Aware; the work is done by then.
        length : timedelta
            Work longer than a working day begins when the shop opens.

        Returns
        -------
        tuple of datetime
            Start and end on the shop's clock.

        Raises
        ------
        ValueError
            Where there is none within a year.
        """
        end = limit.astimezone(UTC)
        day = limit.astimezone(self.hours.zone).date()
        for back in range(MOST_DAYS):
            for opens, closes in reversed(self._gaps(day - back * DAY)):
                start = min(closes, end) - self._fitting(length)
                if start >= opens:
                    return self.book(max(opens, _floored(start)), length)
        raise ValueError("no free time within a year before")

    def after(self, moment: datetime, length: timedelta) -> Slot:
        """Book the first free time from a moment on.

        Parameters
        ----------
        moment : datetime
            Aware; the work does not begin earlier.
        length : timedelta
            Work longer than a working day begins when the shop opens.

        Returns
        -------
        tuple of datetime
            Start and end on the shop's clock.

        Raises
        ------
        ValueError
            Where there is none within a year.
        """
        first = moment.astimezone(UTC)
        day = moment.astimezone(self.hours.zone).date()
        for ahead in range(MOST_DAYS):
            for opens, closes in self._gaps(day + ahead * DAY):
                for start in (_raised(max(opens, first)), max(opens, first)):
                    if start + self._fitting(length) <= closes:
                        return self.book(start, length)
        raise ValueError("no free time within a year after")

    def left(self, moment: datetime) -> timedelta:
        """Free time from a moment on, until something is booked or the shop closes."""
        now = moment.astimezone(UTC)
        gaps = self._gaps(moment.astimezone(self.hours.zone).date())
        return next((closes - now for opens, closes in gaps if opens <= now < closes), timedelta())

    def _fitting(self, length: timedelta) -> timedelta:
        return min(length, day_length(self.hours))

    def _gaps(self, day: date) -> list[Slot]:
        """Free times of a day, in UTC and in order."""
        opens, closes = (
            datetime.combine(day, wall, self.hours.zone) for wall in (self.hours.opens, self.hours.closes)
        )
        if not self.hours.is_open(opens):
            return []
        return list(_free(opens.astimezone(UTC), closes.astimezone(UTC), sorted(self.booked)))


def _free(start: datetime, end: datetime, booked: list[Slot]) -> Iterator[Slot]:
    for begins, ends in booked:
        if begins > start:
            yield start, min(begins, end)
        start = max(start, ends)
        if start >= end:
            return
    yield start, end


def _floored(moment: datetime) -> datetime:
    """The quarter of an hour at or before a moment in UTC."""
    past = (moment - datetime.min.replace(tzinfo=UTC)) % QUARTER
    return moment - past


def _raised(moment: datetime) -> datetime:
    """The quarter of an hour at or after a moment in UTC."""
    return _floored(moment + QUARTER - timedelta(microseconds=1))


def day_length(hours: WorkingHours) -> timedelta:
    """Length of a working day on the wall clock.

    Parameters
    ----------
    hours : WorkingHours
        Of the shop.

    Returns
    -------
    timedelta
        From opening to closing.
    """
    return datetime.combine(date.min, hours.closes) - datetime.combine(date.min, hours.opens)
