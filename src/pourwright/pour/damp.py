"""Where and when the shop's air wets the mold, the glass in it and the top of a pour."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor, inf, isfinite

import numpy as np
from numpy.typing import NDArray

from pourwright.physics.humidity import dampest_air, dew_point, humidity_elsewhere, saturation_pressure
from pourwright.pour.climate import Climate
from pourwright.pour.defaults import DEFAULTS
from pourwright.pour.faces import FacesSeen
from pourwright.pour.rehearse import PourSeen

Array = NDArray[np.float64]
HOUR, DAY = 3600.0, 86400.0
COLDEST, HOTTEST = 228.15, 333.15
"""Range of the equation of the dew point [K]."""
DRIEST = 0.01
"""A dew point needs some water in the air."""
UNSET = 2 * DAY
"""How long a top is looked at that never stops bonding."""


@dataclass(frozen=True)
class Air:
    """The shop's air and the water in it, which stays the same by day and night.

    Parameters
    ----------
    climate : Climate
        Temperature by the hour.
    humidity : float
        Relative humidity when the shop is warmest [-].
    """

    climate: Climate
    humidity: float

    @property
    def share(self) -> float:
        """Humidity that the equations take [-]."""
        return min(max(self.humidity, DRIEST), 1.0)

    @property
    def dew(self) -> float:
        """Dew point [K], at every hour the same."""
        return float(dew_point(self.climate.warmest, self.share))

    def humidity_at(self, temperature: Array) -> Array:
        """Relative humidity at the shop's temperatures [-]; no more than the air can hold."""
        there = humidity_elsewhere(temperature, held_at=self.climate.warmest, relative_humidity=self.share)
        return np.minimum(there, 1.0)

    def allowed(self, surface: float, air: float) -> float:
        """Humidity when the shop is warmest up to which a surface stays dry [-]."""
        margin, most = DEFAULTS["dew_margin"].value, DEFAULTS["damp_air"].value
        # far above the dew point it does not matter how warm a surface is
        held = min(max(surface, COLDEST + margin), HOTTEST)
        return float(dampest_air(held, air, margin, most) / saturation_pressure(self.climate.warmest))


@dataclass(frozen=True)
class Hours:
    """The shop by the full hour; times are seconds after the climate's zero, temperatures [K].

    Parameters
    ----------
    time, air, humidity : tuple of float
        Of the shop.
    mold : tuple of float
        Mean of the cavity's wall.
    top : tuple of float
        Coolest tenth of the top of the pour that is in; NaN before the first.
    too_close : tuple of bool
        Whether mold or top are too near the dew point, or the air too damp.
    """

    time: tuple[float, ...]
    air: tuple[float, ...]
    humidity: tuple[float, ...]
    mold: tuple[float, ...]
    top: tuple[float, ...]
    too_close: tuple[bool, ...]


@dataclass(frozen=True)
class PourDamp:
    """One pour: what it is poured onto, and its top while it sets.

    Parameters
    ----------
    surface : float
        Coolest of the mold with the glass in it and the top of the pour below, at the start [K].
    humidity : float
        Of the air then [-].
    dry : bool
        Whether it may be poured then.
    dry_from, dry_until : float
        Hours around the start without damp [s], as far as a day is looked at; both the start itself where
        it is damp.
    warm_to : float
        What mold and glass must at least have [K].
    dry_below : float
        Humidity when the shop is warmest, below which it would be dry as it is [-].
    damp_hours : float
        Time for which the top was damp while it could blush [s].
    looked_at : float
        Time for which it could [s].
    blushes : bool
        Whether that is long enough to wash and sand it.
    """

    surface: float
    humidity: float
    dry: bool
    dry_from: float
    dry_until: float
    warm_to: float
    dry_below: float
    damp_hours: float
    looked_at: float
    blushes: bool


@dataclass(frozen=True)
class Damp:
    """Damp of a whole plan: the air, the hours, one entry a pour."""

    air: Air
    hours: Hours
    pours: tuple[PourDamp, ...]


def damp(air: Air, pours: Sequence[PourSeen], empty: FacesSeen) -> Damp:
    """Hold every surface of a plan against the dew point of the shop.

    Parameters
    ----------
    air : Air
        Of the shop.
    pours : sequence of PourSeen
        As rehearsed.
    empty : FacesSeen
        The empty mold in this shop, from a day before the first pour to a day after it.

    Returns
    -------
    Damp
        By the full hour, from a day before the first pour until the last one bonds no more.
    """
    ground = _Ground(air, pours, empty)
    first, last = pours[0].start, pours[-1]
    end = last.bonds_until if isfinite(last.bonds_until) else last.start + UNSET
    count = floor(end / HOUR) - ceil((first - DAY) / HOUR) + 1
    times = _hourly(HOUR * ceil((first - DAY) / HOUR), count, 1)
    temperature = np.array([air.climate.temperature(float(time)) for time in times])
    mold, top = ground.mold(times), ground.top(times)
    close = ground.too_close(times, np.fmin(mold, top))
    hours = Hours(*(tuple(each.tolist()) for each in (
        times, temperature, air.humidity_at(temperature), mold, top, close,
    )))  # fmt: skip
    return Damp(air, hours, tuple(ground.pour(number) for number in range(len(pours))))


def _hourly(first: float, count: int, way: int) -> Array:
    return np.asarray(first + way * HOUR * np.arange(count), dtype=float)


class _Ground:
    """What each pour goes onto, and what its top is like."""

    def __init__(self, air: Air, pours: Sequence[PourSeen], empty: FacesSeen) -> None:
        self.air, self.pours, self.empty = air, pours, empty

    def mold(self, times: Array) -> Array:
        """Mean of the mold's wall [K]."""
        values = self.empty_mold(times)
        for pour in self.pours:
            after = times >= pour.start
            values[after] = np.interp(times[after], pour.faces.time, pour.faces.mold)
        return values

    def empty_mold(self, times: Array) -> Array:
        """Of the mold as if nothing were poured [K]: the same every day."""
        since = np.array(self.empty.time)
        # the first day settles it, the second is what every day is like
        day = np.mod(times - since[-1], DAY) + since[-1] - DAY
        return np.asarray(np.interp(day, since, self.empty.mold))

    def top(self, times: Array) -> Array:
        """Coolest tenth of the top [K]; NaN before the first pour."""
        values = np.full(times.shape, np.nan)
        for pour in self.pours:
            after = times >= pour.start
            values[after] = np.interp(times[after], pour.faces.time, pour.faces.top)
        return values

    def too_close(self, times: Array, surface: Array) -> NDArray[np.bool_]:
        """Whether a surface is too near the dew point or the air is too damp."""
        around = np.array([self.air.climate.temperature(float(time)) for time in times])
        near = surface < self.air.dew + DEFAULTS["dew_margin"].value
        return np.asarray(near | (self.air.humidity_at(around) > DEFAULTS["damp_air"].value))

    def pour(self, number: int) -> PourDamp:
        """Judge one pour."""
        pour, air = self.pours[number], self.air
        begin = np.array([pour.start])
        surface, around = float(self._below(number, begin)[0]), air.climate.temperature(pour.start)
        dry = not self.too_close(begin, np.array([surface]))[0]
        dry_from, dry_until = self._dry_around(number) if dry else (pour.start, pour.start)
        damp_hours, looked_at = self._while_setting(number)
        return PourDamp(
            surface,
            float(air.humidity_at(np.array([around]))[0]),
            dry,
            dry_from,
            dry_until,
            air.dew + DEFAULTS["dew_margin"].value,
            air.allowed(surface, around),
            damp_hours,
            looked_at,
            damp_hours >= DEFAULTS["blush_after"].value,
        )

    def _below(self, number: int, times: Array) -> Array:
        """Coolest of what the pour goes onto [K]."""
        mold = self.empty_mold(times)
        if number == 0:
            return mold
        seen = self.pours[number - 1].faces
        before = times <= seen.time[-1]
        under = np.fmin(np.interp(times, seen.time, seen.mold), np.interp(times, seen.time, seen.top))
        # had it not been poured, it would cool to what an empty mold has
        return np.where(before, under, mold)

    def _dry_around(self, number: int) -> tuple[float, float]:
        """Full hours around the start without damp, a day at most either way."""
        start = self.pours[number].start
        earliest = start - DAY if number == 0 else max(start - DAY, self.pours[number - 1].bonds_from)
        ends = []
        for way, far in ((-1, earliest), (1, start + DAY)):
            times = _hourly(start, floor(abs(far - start) / HOUR) + 1, way)
            close = self.too_close(times, self._below(number, times))
            stop = int(np.argmax(close)) if close.any() else times.size
            ends.append(float(times[stop - 1]))
        return ends[0], ends[1]

    def _while_setting(self, number: int) -> tuple[float, float]:
        """Time for which the top was damp while amine was free at it, and that time [s]."""
        pour = self.pours[number]
        follows = self.pours[number + 1].start if number + 1 < len(self.pours) else inf
        end = min(pour.bonds_until, follows, pour.faces.time[-1])
        times = np.linspace(pour.start, end, 1 + max(1, ceil((end - pour.start) / (HOUR / 4))))
        # the air at a warm top is as warm as the top, and so drier than the shop's: only the dew point counts
        top = np.interp(times, pour.faces.time, pour.faces.top)
        close = top < self.air.dew + DEFAULTS["dew_margin"].value
        return float(close.mean() * (end - pour.start)), float(end - pour.start)
