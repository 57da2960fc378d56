"""Axes of a chart: places on paper, round steps, and days on the shop's clock."""

import math
from dataclasses import dataclass
from datetime import datetime, timedelta

from pourwright.foundation.notation import DAYS, MONTHS, UnitSystem, format_clock
from pourwright.sheets.svg import text_width
from pourwright.sheets.wording import utc

HOUR = timedelta(hours=1)
MOST_POINTS = 500
DAY_ROOM = 46.0
"""Paper that the name of a day takes [pt]."""


@dataclass(frozen=True, slots=True)
class Axes:
    """From hours since the first pour and degC to a place on paper."""

    left: float
    right: float
    top: float
    bottom: float
    start_h: float
    end_h: float
    low: float
    high: float

    def x(self, hours: float) -> float:
        """Paper place of a time [h]."""
        share = (hours - self.start_h) / (self.end_h - self.start_h)
        return self.left + share * (self.right - self.left)

    def y(self, value: float) -> float:
        """Paper place of a value on the upright axis."""
        return self.bottom - (value - self.low) / (self.high - self.low) * (self.bottom - self.top)

    def inside(self, hours: float) -> bool:
        """Whether a time lies on the chart."""
        return self.start_h <= hours <= self.end_h


def hours_between(start: str, end: str) -> float:
    """Elapsed hours from one ISO 8601 moment to another.

    Parameters
    ----------
    start, end : str
        Moments with their offsets.

    Returns
    -------
    float
        Hours [h]; summer time does not shift them.

    Examples
    --------
    >>> hours_between("2026-12-01T09:00:00+01:00", "2026-12-01T10:30:00+02:00")
    0.5
    """
    return (utc(end) - utc(start)).total_seconds() / 3600.0


def nice_step(span: float, most: int) -> float:
    """A round step of an axis.

    Parameters
    ----------
    span : float
        Length of the axis.
    most : int
        No more steps than this.

    Returns
    -------
    float
        1, 2 or 5 times a power of ten.

    Examples
    --------
    >>> nice_step(47.0, 6)
    10.0
    """
    # round-off must not push an exact step to the next one
    rough = span / most
    power = 10.0 ** math.floor(math.log10(rough))
    return next(power * factor for factor in (1.0, 2.0, 5.0, 10.0) if power * factor >= rough * (1 - 1e-9))


def thinned(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Leave out points that no pen could show: at most about 500 stay, the last always.

    Parameters
    ----------
    points : list of (x, y)
        A curve.

    Returns
    -------
    list of (x, y)
        Evenly taken points, the highest and the last.
    """
    stride = math.ceil(len(points) / MOST_POINTS)
    # on paper y runs down: the smallest is the peak, which must not be cut off
    peak = min(range(len(points)), key=lambda i: points[i][1])
    return [p for i, p in enumerate(points) if i % stride == 0 or i in {peak, len(points) - 1}]


@dataclass(frozen=True, slots=True)
class Tick:
    """A mark on the time axis: hours since the first pour, the shop's clock, whether a day begins."""

    hours: float
    moment: datetime
    major: bool

    def words(self, room: float, size: float, system: UnitSystem) -> str:
        """What stands below the mark.

        Parameters
        ----------
        room : float
            Paper between two marks [pt].
        size : float
            Size of the letters [pt].
        system : UnitSystem
            How the shop's clock is read.

        Returns
        -------
        str
            The day, the hour, or nothing where there is no room.
        """
        if not self.major:
            hour = format_clock(self.moment, system).replace(":00", "")
            return hour if text_width(hour, size) + 4.0 < room else ""
        day = f"{DAYS[self.moment.weekday()]} {self.moment.day}"
        return f"{day} {MONTHS[self.moment.month - 1]}" if self.moment.day == 1 or room > 60.0 else day


def time_ticks(first: datetime, span_h: tuple[float, float], width: float) -> list[Tick]:
    """Marks of a time axis at wall-clock hours: every six hours on a short axis, else days.

    Parameters
    ----------
    first : datetime
        Hour zero, on the shop's own clock.
    span_h : tuple of float
        First and last hour of the axis [h].
    width : float
        Paper [pt].

    Returns
    -------
    list of Tick
        In the order of time.
    """
    days = (span_h[1] - span_h[0]) / 24.0
    fine = 6 if days <= 2.5 else 24
    every = max(math.ceil(days / (width / DAY_ROOM)), 1)
    midnight = (first + span_h[0] * HOUR).replace(hour=0, minute=0, second=0, microsecond=0)
    found = []
    for index in range(0, int(days) + 3, every):
        for hour in range(0, 24, fine):
            # wall clock, so that a mark stands at midnight on both sides of a summer-time change
            moment = (midnight + timedelta(days=index)).replace(hour=hour)
            hours = hours_between(first.isoformat(), moment.isoformat())
            if span_h[0] <= hours <= span_h[1]:
                found.append(Tick(hours, moment, hour == 0))
    return found
