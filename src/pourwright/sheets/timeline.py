"""A time axis of whole days on the shop's clock, broken where nothing happens for long."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

Slot = tuple[datetime, datetime]
DAY = timedelta(days=1)
HOUR = timedelta(hours=1)
FEW_DAYS = 10
"""A shorter calendar is never broken."""
LONG = 3
"""So many days on which nothing begins or ends are left out."""
BREAK = 28.0
"""Paper of a break [pt]."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """One day of the axis, or many days that are left out."""

    day: date
    days: int
    start: datetime
    end: datetime
    left: float
    right: float

    @property
    def broken(self) -> bool:
        """Whether days are left out here."""
        return self.days > 1

    @property
    def hours(self) -> float:
        """Elapsed hours [h]: 23 or 25 on a day when the clocks change."""
        return (self.end - self.start) / HOUR


@dataclass(frozen=True, slots=True)
class Timeline:
    """From moments to places on paper; elapsed time, so that a day of 23 hours is narrower."""

    zone: ZoneInfo
    stretches: tuple[Stretch, ...]

    @property
    def left(self) -> float:
        """Where the axis begins [pt]."""
        return self.stretches[0].left

    @property
    def right(self) -> float:
        """Where the axis ends [pt]."""
        return self.stretches[-1].right

    @property
    def shown(self) -> Iterator[Stretch]:
        """The days that are drawn."""
        return (stretch for stretch in self.stretches if not stretch.broken)

    @property
    def breaks(self) -> Iterator[Stretch]:
        """What is left out."""
        return (stretch for stretch in self.stretches if stretch.broken)

    @property
    def day_width(self) -> float:
        """Paper of an ordinary day [pt]."""
        day = next(self.shown)
        return (day.right - day.left) / day.hours * 24.0

    def x(self, moment: datetime) -> float:
        """Place of a moment on paper.

        Parameters
        ----------
        moment : datetime
            Aware.

        Returns
        -------
        float
            Paper place [pt]; the nearer end of the axis for a moment outside it.
        """
        instant = moment.astimezone(UTC)
        found = next((each for each in self.stretches if instant < each.end), self.stretches[-1])
        share = (instant - found.start) / (found.end - found.start)
        return found.left + min(max(share, 0.0), 1.0) * (found.right - found.left)


def time_line(zone: ZoneInfo, slots: Sequence[Slot], left: float, right: float) -> Timeline:
    """Lay out the days that hold all slots.

    Parameters
    ----------
    zone : ZoneInfo
        Of the shop.
    slots : sequence of (start, end)
        Aware; a day on which none begins or ends is one where nothing happens.
    left, right : float
        Paper [pt].

    Returns
    -------
    Timeline
        From the first midnight to the last.

    Examples
    --------
    >>> berlin = ZoneInfo("Europe/Berlin")
    >>> night = datetime(2027, 3, 27, 12, tzinfo=berlin), datetime(2027, 3, 28, 12, tzinfo=berlin)
    >>> [day.hours for day in time_line(berlin, [night], 0.0, 94.0).stretches]
    [24.0, 23.0]
    """
    runs = _runs(_busy_days(zone, slots))
    spans = [(day, count, midnight(day, zone), midnight(day + count * DAY, zone)) for day, count in runs]
    cut = [count > 1 for _, count in runs]
    # many breaks may not take the paper of the days between them
    gap = min(BREAK, 0.4 * (right - left) / max(sum(cut), 1))
    elapsed = sum((end - start) / HOUR for (_, count, start, end) in spans if count == 1)
    scale = (right - left - gap * sum(cut)) / elapsed
    stretches, place = [], left
    for day, count, start, end in spans:
        following = place + (gap if count > 1 else scale * ((end - start) / HOUR))
        stretches.append(Stretch(day, count, start, end, place, following))
        place = following
    return Timeline(zone, tuple(stretches))


def midnight(day: date, zone: ZoneInfo) -> datetime:
    """The moment a day begins.

    Parameters
    ----------
    day : date
        On the shop's calendar.
    zone : ZoneInfo
        Of the shop.

    Returns
    -------
    datetime
        In UTC.
    """
    return datetime.combine(day, time(), zone).astimezone(UTC)


def _busy_days(zone: ZoneInfo, slots: Sequence[Slot]) -> list[date]:
    return sorted({moment.astimezone(zone).date() for slot in slots for moment in slot})


def _runs(busy: list[date]) -> list[tuple[date, int]]:
    """Days one by one, and long idle runs as one."""
    whole = (busy[-1] - busy[0]).days + 1
    runs: list[tuple[date, int]] = []
    for day in busy:
        following = runs[-1][0] + runs[-1][1] * DAY if runs else day
        idle = (day - following).days
        if idle >= LONG and whole > FEW_DAYS:
            runs.append((following, idle))
        else:
            runs += [(following + i * DAY, 1) for i in range(idle)]
        runs.append((day, 1))
    return runs
