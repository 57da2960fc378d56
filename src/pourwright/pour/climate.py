"""The shop's air by the hour of the day."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import cached_property
from math import floor, isnan, nan
from zoneinfo import ZoneInfo

HOURS = 24
HOUR = 3600.0
DAY = HOURS * HOUR


@dataclass(frozen=True)
class Climate:
    """Temperature of the shop as a function of elapsed time.

    Parameters
    ----------
    zero : datetime
        Aware datetime of time 0.
    zone : ZoneInfo
        Time zone of the shop: the hours below are its wall clock.
    hourly : tuple of float, 24
        Temperature at each full hour of the day [K]; straight lines between.

    Examples
    --------
    >>> noon = datetime(2026, 12, 1, 12, tzinfo=UTC)
    >>> shop = Climate(noon, ZoneInfo("UTC"), (291.15,) * 12 + (293.15,) * 12)
    >>> shop.temperature(0.0), shop.temperature(11.5 * 3600.0)
    (293.15, 292.15)
    """

    zero: datetime
    zone: ZoneInfo
    hourly: tuple[float, ...]

    def temperature(self, time: float) -> float:
        """Temperature of the air [K] at ``time`` seconds after zero."""
        hour = self._wall_clock(time)
        before = floor(hour)
        share = hour - before
        return (1.0 - share) * self.hourly[before % HOURS] + share * self.hourly[(before + 1) % HOURS]

    @cached_property
    def warmest(self) -> float:
        """Highest hourly temperature [K]."""
        return max(self.hourly)

    @cached_property
    def mean(self) -> float:
        """Mean of the hourly temperatures [K]."""
        return sum(self.hourly) / HOURS

    @property
    def typical(self) -> tuple[float, ...]:
        """Temperatures at which films are tabulated [K]: a shop's air stays near its mean."""
        return (self.mean,)

    def shifted(self, kelvin: float) -> Climate:
        """Return the same shop, warmer by ``kelvin`` at every hour."""
        return Climate(self.zero, self.zone, tuple(value + kelvin for value in self.hourly))

    def moment(self, time: float) -> datetime:
        """Return the wall clock of the shop ``time`` seconds after zero."""
        return (self.zero.astimezone(UTC) + timedelta(seconds=time)).astimezone(self.zone)

    def seconds(self, moment: datetime) -> float:
        """Return the seconds from zero to an aware datetime."""
        return (moment.astimezone(UTC) - self.zero.astimezone(UTC)).total_seconds()

    def _wall_clock(self, time: float) -> float:
        """Hours since midnight; past 24 where a day after zero runs across it."""
        number = floor(time / DAY)
        begins = self._begins.get(number)
        if begins is None:
            begins = self._begins[number] = self._begin_of(number)
        # the calendar is asked only on days when clocks are changed: it takes longer than a kernel
        return self._read_clock(time) if isnan(begins) else begins + (time - DAY * number) / HOUR

    @cached_property
    def _begins(self) -> dict[int, float]:
        """Wall clock at the beginning of every whole day after zero that was asked for."""
        return {}

    def _begin_of(self, number: int) -> float:
        """Wall clock at a whole day after zero; NaN if clocks are changed before the next."""
        begin, end = (self._read_clock(DAY * whole) for whole in (number, number + 1))
        return begin if abs(end - begin) < 1e-6 else nan

    def _read_clock(self, time: float) -> float:
        local = self.moment(time)
        return local.hour + local.minute / 60 + (local.second + local.microsecond / 1e6) / 3600
