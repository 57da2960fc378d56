"""Heat of a casting that is mixed with water: how hot, where and when, how uneven, when it is hard."""

from __future__ import annotations

from array import array
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from pourwright.foundation.progress import SILENT, Progress
from pourwright.pour.layout import Layout
from pourwright.pour.probes import Place, summit
from pourwright.pour.setting import SettingSite
from pourwright.pour.stages import Stage, add_pour, empty_mold
from pourwright.solver import Control, Outcome, run

Array = NDArray[np.float64]
STEPS_TO_HALF, MOST_STEP, SEGMENTS = 20, 1800.0, 12
NEARLY, COOLED, WARMED = 0.98, 0.1, 0.5


@dataclass(frozen=True)
class History:
    """Hottest and coldest place of the casting at each time: [s], [K]."""

    time: tuple[float, ...]
    hottest: tuple[float, ...]
    coldest: tuple[float, ...]

    @property
    def widest(self) -> tuple[float, float]:
        """Greatest difference between them [K], and its time [s]."""
        apart = np.subtract(self.hottest, self.coldest)
        at = int(np.argmax(apart))
        return float(apart[at]), self.time[at]


@dataclass(frozen=True)
class SettingRun:
    """What came of it.

    Parameters
    ----------
    peak, peak_time : float
        Of the casting [K], [s].
    place : Place
        Where [m].
    rubber_peak, box_peak, core_peak : float or None
        Hottest of each [K]; None where there is none.
    history : History
        Of the casting.
    hard : float or None
        When the least-set place is as far as asked [s].
    even : float or None
        When, after its peak, no place is warmer than the shop by more than asked [s].
    energy_error : float
        Relative error of the heat balance [-].
    cells, steps : int
        Size of the run.
    end : float
        [s]
    """

    peak: float
    peak_time: float
    place: Place
    rubber_peak: float | None
    box_peak: float | None
    core_peak: float | None
    history: History
    hard: float | None
    even: float | None
    energy_error: float
    cells: int
    steps: int
    end: float


@dataclass
class _Watch:
    """Notes each step of a run."""

    stage: Stage
    hard_at: float
    above_shop: float
    time: array[float] = field(default_factory=lambda: array("d"))
    hottest: array[float] = field(default_factory=lambda: array("d"))
    coldest: array[float] = field(default_factory=lambda: array("d"))
    hard: float | None = None
    even: float | None = None

    def __post_init__(self) -> None:
        self.cells = np.flatnonzero(self.stage.poured)
        state = self.stage.state
        self(state.time, state.temperature, state.conversion)

    def __call__(self, time: float, temperature: Array, conversion: Array) -> None:
        """Note one step; the solver's observer."""
        warmth = temperature.reshape(-1)[self.cells]
        top = float(warmth.max())
        self.time.append(time)
        self.hottest.append(top)
        self.coldest.append(float(warmth.min()))
        if self.hard is None and float(conversion.reshape(-1)[self.cells].min()) >= self.hard_at:
            self.hard = time
        shop = self.stage.layout.site.climate.temperature(time)
        past = top < max(self.hottest) - WARMED
        self.even = (self.even or time) if past and top - shop <= self.above_shop else None


def run_setting(
    layout: Layout, hard_at: float, above_shop: float, *, tolerance: float = 0.1, progress: Progress = SILENT
) -> SettingRun:
    """Pour a mix in one go and follow its heat until nine tenths of the warmth have gone.

    Parameters
    ----------
    layout : Layout
        Of a `SettingSite`.
    hard_at : float
        Degree at which the least-set place counts as hard [-].
    above_shop : float
        By so much the core may be warmer than the shop when it is opened [K].
    tolerance : float
        Error of stepping in time aimed for [K].
    progress : Progress
        Told every step; may raise Cancelled.

    Returns
    -------
    SettingRun
    """
    site = layout.site
    assert isinstance(site, SettingSite)
    stage = add_pour(empty_mold(layout, 0.0), site.block.height)
    watch = _Watch(stage, hard_at, above_shop)
    stored = released = entered = 0.0
    steps, half = 0, site.law.retardation * np.log(2.0) ** (-1.0 / site.law.slope)
    for number in range(1, SEGMENTS + 1):
        longest = half / STEPS_TO_HALF if number == 1 else half / 4 * number
        done = _go_on(stage, watch, 2.0 * half * number**1.5, min(longest, MOST_STEP), tolerance, progress)
        stage, steps = stage.at(done.state), steps + done.steps
        stored, released, entered = (
            stored + done.balance.stored,
            released + done.balance.released,
            entered + done.balance.entered,
        )
        if _is_over(stage, watch):
            break
    moved = max(abs(stored), abs(released), abs(entered))
    return _told(stage, watch, steps, abs(stored - released - entered) / moved)


def _go_on(
    stage: Stage, watch: _Watch, until: float, longest: float, tolerance: float, progress: Progress
) -> Outcome:
    return run(
        stage.problem,
        stage.state,
        until,
        control=Control(tolerance=tolerance, max_step=longest),
        observer=watch,
        progress=progress,
        stage="heat of setting",
    )


def _is_over(stage: Stage, watch: _Watch) -> bool:
    """Whether it has set, is hard, and nine tenths of its warmth are gone."""
    shop = stage.layout.site.climate.warmest
    top = max(watch.hottest)
    cool = watch.hottest[-1] < shop + max(COOLED * (top - shop), WARMED)
    return watch.hard is not None and watch.even is not None and cool


def _told(stage: Stage, watch: _Watch, steps: int, error: float) -> SettingRun:
    layout, records = stage.layout, stage.state.records
    top, place = summit(layout.grid, stage.poured, records.peak_temperature)
    cell = int(np.argmax(np.where(stage.poured, records.peak_temperature, -np.inf)))

    def hottest(cells: NDArray[np.bool_]) -> float | None:
        return float(records.peak_temperature[cells].max()) if cells.any() else None

    return SettingRun(
        peak=top,
        peak_time=float(records.peak_time.reshape(-1)[cell]),
        place=place,
        rubber_peak=hottest(layout.face),
        box_peak=hottest(layout.box),
        core_peak=hottest(layout.core),
        history=History(tuple(watch.time), tuple(watch.hottest), tuple(watch.coldest)),
        hard=watch.hard,
        even=watch.even,
        energy_error=error,
        cells=int(stage.problem.active.sum()),
        steps=steps,
        end=stage.state.time,
    )
