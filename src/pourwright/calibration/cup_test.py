"""A cup of mixed resin with a thermometer in it: what a logger saw against what a resin would do."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from pourwright.calibration.bodies import Body, cup
from pourwright.calibration.curing import Air, Trace, cure_body
from pourwright.calibration.defaults import DEFAULTS
from pourwright.calibration.evidence import Evidence
from pourwright.calibration.logger import Reading
from pourwright.calibration.parameters import Resin

Array = NDArray[np.float64]
BINS, COARSEST, MOST_AIR = 110, 5_000, 72
START, AIR, OFFSET, DRIFT, DELAY = range(5)
OWN = ("start", "air", "offset", "drift", "delay")
"""Unknowns of a cup test itself, in the deviations of `DEFAULTS`."""
LEAST_NOISE = 0.1
"""Of one reading of a cheap logger [K]."""


@dataclass(frozen=True, eq=False)
class Stretches:
    """Which readings are put together.

    Parameters
    ----------
    time : array (m,)
        Of the readings [s].
    place : int array (m,)
        Number of the stretch that each belongs to.
    counts : array (n,)
        Readings in each stretch, none empty.
    """

    time: Array
    place: NDArray[np.int64]
    counts: Array

    def means(self, values: Array) -> Array:
        """Mean of each stretch."""
        found: Array = np.bincount(self.place, values, self.counts.size) / self.counts
        return found


@dataclass(frozen=True, eq=False)
class CupTest:
    """A cup test as evidence.

    Parameters
    ----------
    label : str
        What it is called in the report.
    time, temperature : array (n,)
        Means of readings over short stretches: since the first reading [s], [K].
    noise : array (n,)
        Standard deviation of each of them [K].
    body : Body
        The cup.
    air : Air
        Around it, by the same clock.
    start : float
        Fresh mix, as far as it is known [K].
    deviations : array (5,)
        Of `OWN`: K, K, K, K over the run, s.
    fine : Stretches
        Readings behind the means.
    probe : float
        Height of the sensor as a share of the depth [-].
    delay : float
        From mixing to the first reading, as far as it is known [s].
    """

    label: str
    time: Array
    temperature: Array
    noise: Array
    body: Body
    air: Air
    start: float
    deviations: Array
    fine: Stretches
    probe: float = 0.5
    delay: float = 300.0
    own: tuple[str, ...] = OWN
    _kept: dict[bytes, Trace] = field(default_factory=dict, repr=False)

    def trace(self, resin: Resin, own: Array) -> Trace:
        """Run the cup of a resin; the last few runs are kept."""
        key = resin.law.row.tobytes() + np.r_[
            resin.heat_of_reaction, resin.heat_capacity, resin.conductivity, resin.film,
            own[[START, AIR, DELAY]],
        ].tobytes()  # fmt: skip
        if key not in self._kept:
            if len(self._kept) > MOST_KEPT_RUNS:
                self._kept.clear()
            self._kept[key] = self._run(resin, own * self.deviations)
        return self._kept[key]

    def _run(self, resin: Resin, moved: Array) -> Trace:
        late = max(self.delay + moved[DELAY], 0.0)
        air = Air(self.air.time + late, self.air.temperature + moved[AIR])
        end = float(self.time[-1]) + late
        return cure_body(resin, self.body, air, self.start + moved[START], end, probe=self.probe)

    def simulated(self, resin: Resin, own: Array) -> Array:
        """What the logger would have read [K], at the times of this test."""
        trace, moved = self.trace(resin, own), own * self.deviations
        late = max(self.delay + moved[DELAY], 0.0)
        through = (self.time - self.time.mean()) / max(float(np.ptp(self.time)), 1.0)
        read = self.fine.means(np.interp(self.fine.time + late, trace.time, trace.probe))
        shown: Array = read + moved[OFFSET] + moved[DRIFT] * through
        return shown

    def residuals(self, resin: Resin, own: Array) -> Array:
        """Say how many deviations the resin misses each stretch by."""
        missed: Array = (self.simulated(resin, own) - self.temperature) / self.noise
        return missed

    def eased(self, stage: int) -> Evidence:
        """What to fit first, so that the search finds its way: marks of the curve, then the curve loosely."""
        if stage == 0:
            return CupMarks.of(self)
        ease = EASES[stage - 1]
        rise = float(np.ptp(self.temperature))
        slope = np.abs(np.gradient(self.temperature, self.time))
        loose = (ease * rise) ** 2 + (ease * slope * (self.time + self.delay)) ** 2
        return replace(self, noise=np.sqrt(self.noise**2 + loose), _kept={})

    def widened(self, factor: float) -> CupTest:
        """The same test, each stretch trusted less."""
        return replace(self, noise=self.noise * factor, _kept={})


MOST_KEPT_RUNS = 64
EASES = (0.05, 0.015, 0.005, 0.0015)
"""Share of the rise, and of the time, by which the curve may be missed in the first stages."""
LEVELS = (0.15, 0.3, 0.5, 0.7, 0.85, 0.95)
MARK_DEVIATION = 0.04
"""Of the logarithms of times and of the rise, while marks are fitted."""


@dataclass(frozen=True, eq=False)
class CupMarks:
    """When a cup had warmed by shares of its rise, how far it rose, and when it had cooled by half.

    Parameters
    ----------
    test : CupTest
        The cup.
    measured : array (8,)
        Logarithms of these times [ln s] and of the rise [ln K].
    """

    test: CupTest
    measured: Array
    own: tuple[str, ...] = OWN
    label: str = ""

    @classmethod
    def of(cls, test: CupTest) -> CupMarks:
        """Take the marks of what was measured."""
        return cls(test, _marks(test.time + test.delay, test.temperature, float(np.max(test.temperature))))

    def residuals(self, resin: Resin, own: Array) -> Array:
        """Say how many deviations the resin misses each mark by."""
        shown = self.test.simulated(resin, own)
        found = _marks(self.test.time + self.test.delay, shown, float(np.max(self.test.temperature)))
        missed: Array = (found - self.measured) / MARK_DEVIATION
        return missed

    def widened(self, factor: float) -> Evidence:  # noqa: ARG002 - only the whole curve is settled
        """Marks themselves."""
        return self

    def eased(self, stage: int) -> Evidence:  # noqa: ARG002 - marks are the first stage
        """Marks themselves."""
        return self


def _marks(time: Array, values: Array, hottest: float) -> Array:
    """Marks of a curve; what it does not reach is carried on smoothly."""
    first, top = float(values[0]), int(values.argmax())
    rise = max(float(values[top]) - first, 0.05)
    wanted = max(hottest - first, 0.5)
    rising = np.maximum.accumulate(values[: top + 1])
    marks = []
    for level in LEVELS:
        target = first + level * wanted
        lacking = max(target - values[top], 0.0) / wanted
        at = float(np.interp(min(target, float(values[top])), rising, time[: top + 1]))
        marks.append(np.log(at) + 2.0 * lacking)
    cooled = np.flatnonzero(values[top:] < first + rise / 2)
    late = float(time[top + cooled[0]]) if cooled.size else float(time[-1])
    return np.array([*marks, np.log(rise), np.log(late)])


@dataclass(frozen=True, slots=True)
class CupChoices:
    """What the maker says about a cup test, SI.

    Parameters
    ----------
    mass : float
        Of the mixed resin in the cup [kg].
    density : float
        Of the mix [kg/m3].
    diameter : float or None
        Inside, mean of top and bottom [m].
    wall : str
        What the cup is made of.
    room : float or None
        Of the air, where the file has no column for it [K].
    start : float or None
        Of the fresh mix [K]; else the first reading.
    delay : float or None
        From mixing to the first reading [s].
    probe : float
        Height of the sensor as a share of the depth [-].
    until : float or None
        Last reading to use, since the first [s].
    """

    mass: float
    density: float
    diameter: float | None = None
    wall: str = "plastic"
    room: float | None = None
    start: float | None = None
    delay: float | None = None
    probe: float = 0.5
    until: float | None = None


def make_cup_test(label: str, reading: Reading, choices: CupChoices) -> CupTest:
    """Turn a checked reading into evidence.

    Parameters
    ----------
    label : str
        What it is called in the report.
    reading : Reading
        In kelvin.
    choices : CupChoices
        What the maker says about the cup.

    Returns
    -------
    CupTest
        With readings put together over stretches that are short where the temperature moves.
    """
    cropped = _cropped(reading, choices.until)
    time, cup_temperature, air_temperature = cropped
    noise = max(_noise(cup_temperature), LEAST_NOISE)
    fine = _stretches(time, cup_temperature)
    bins, means = fine.means(time), fine.means(cup_temperature)
    air = _air(time, air_temperature, choices, cup_temperature)
    known = DEFAULTS["cup_air_column"] if air_temperature is not None else DEFAULTS["cup_air_told"]
    start_known = DEFAULTS["cup_start_read"] if choices.start is None else DEFAULTS["cup_start_told"]
    start = float(np.median(cup_temperature[:3])) if choices.start is None else choices.start
    delay = DEFAULTS["cup_delay"]
    deviations = np.array(
        [start_known.value, known.value, DEFAULTS["cup_offset"].value, DEFAULTS["cup_drift"].value,
         DEFAULTS["cup_delay_deviation"].value]
    )  # fmt: skip
    return CupTest(
        label,
        bins,
        means,
        _deviations(bins, means, noise / np.sqrt(fine.counts)),
        cup(
            choices.mass, choices.density, float(air.temperature.mean()),
            diameter=choices.diameter, wall=choices.wall,
        ),
        air,
        start,
        deviations,
        fine,
        choices.probe,
        delay.value if choices.delay is None else choices.delay,
    )  # fmt: skip


def _deviations(time: Array, means: Array, noise: Array) -> Array:
    """What a stretch may be missed by: noise, the model of the cup, and the clock where it is steep."""
    rise = means - means.min()
    steep = np.abs(np.gradient(means, time))
    model = DEFAULTS["cup_model"].value ** 2 + (DEFAULTS["cup_model_share"].value * rise) ** 2
    found: Array = np.sqrt(noise**2 + model + (DEFAULTS["cup_clock"].value * steep) ** 2)
    return found


def _cropped(reading: Reading, until: float | None) -> tuple[Array, Array, Array | None]:
    good = np.isfinite(reading.cup)
    if until is not None:
        good &= reading.time <= until
    time, cup_temperature = reading.time[good], reading.cup[good]
    air = None if reading.air is None else reading.air[good]
    step = int(np.ceil(time.size / COARSEST))
    if step == 1:
        return time, cup_temperature, air
    whole = time.size // step * step

    def means(values: Array) -> Array:
        found: Array = np.nanmean(values[:whole].reshape(-1, step), axis=1)
        return found

    return means(time), means(cup_temperature), None if air is None else means(air)


def _noise(values: Array) -> float:
    """Noise of single readings from how they differ from the line between their neighbours [K]."""
    bends = values[1:-1] - (values[2:] + values[:-2]) / 2
    return float(1.4826 * np.median(np.abs(bends)) / np.sqrt(1.5))


def _stretches(time: Array, values: Array) -> Stretches:
    """Stretches of which each is as long as time and temperature together allow."""
    smooth = np.convolve(np.pad(values, 2, mode="edge"), np.full(5, 0.2), mode="valid")
    moved = np.r_[0.0, np.cumsum(np.abs(np.diff(smooth)))]
    path = time / max(float(time[-1]), 1.0) + moved / max(float(moved[-1]), 1e-9)
    place = np.minimum((path / path[-1] * BINS).astype(np.int64), BINS - 1)
    # numbered again without the empty ones
    _, place, counts = np.unique(place, return_inverse=True, return_counts=True)
    return Stretches(time, place.astype(np.int64), counts.astype(np.float64))


def _air(time: Array, air: Array | None, choices: CupChoices, cup_temperature: Array) -> Air:
    if air is None:
        return Air.steady(float(cup_temperature[0]) if choices.room is None else choices.room)
    good = np.isfinite(air)
    # means over stretches: noise of the air's sensor would make the simulated cup rough
    place = np.minimum((time[good] / max(float(time[-1]), 1.0) * MOST_AIR).astype(int), MOST_AIR - 1)
    count = np.bincount(place, minlength=MOST_AIR)
    filled = count > 0
    total = np.maximum(count, 1)
    middle, mean = (np.bincount(place, values[good], MOST_AIR) / total for values in (time, air))
    return Air(middle[filled], mean[filled])
