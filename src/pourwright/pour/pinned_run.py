"""Run pours as they are written and note what happens at probes and at the hottest place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import NamedTuple

import numpy as np

from pourwright.foundation.progress import SILENT, Progress
from pourwright.pour.defaults import DEFAULTS
from pourwright.pour.layout import Layout
from pourwright.pour.probes import Place, Probe, summit
from pourwright.pour.stages import Stage, add_pour, empty_mold
from pourwright.pour.traces import Notes, Trace
from pourwright.solver import Control, Ending, State, run

HOUR = 3600.0
SEGMENT = 3 * HOUR
WARMED, COOLED = 0.5, 0.1
STILL_KELVIN, STILL_CURE, QUICKER = 0.01, 1e-4, 1.01


class Why(StrEnum):
    """Why a run came to its end."""

    UNTIL = "the time asked for"
    COOLED = "cooled off its peak"
    AT_REST = "nothing changes any more"
    STALLED = "three weeks have passed"
    RUNAWAY = "runaway"


@dataclass(frozen=True)
class PinnedPour:
    """One pour: level to reach [m], start [s], temperature of the resin [K] or None for the site's own."""

    level: float
    start: float
    temperature: float | None = None


class Heat(NamedTuple):
    """Where the heat of a run went [J]: stored in matter, set free, let in."""

    stored: float
    released: float
    entered: float

    def and_also(self, more: Heat) -> Heat:
        """Add the heat of a later stretch."""
        return Heat(self.stored + more.stored, self.released + more.released, self.entered + more.entered)

    def error(self, capacity: float) -> float:
        """Relative error of the balance [-]; a thousandth of a kelvin of all matter counts at least."""
        moved = max(abs(self.stored), abs(self.released), abs(self.entered), 1e-3 * capacity)
        return abs(self.stored - self.released - self.entered) / moved


NO_HEAT = Heat(0.0, 0.0, 0.0)


@dataclass(frozen=True)
class Hottest:
    """Highest temperature [K], its time [s] and place [m]."""

    temperature: float
    time: float
    place: Place


@dataclass(frozen=True)
class PinnedRun:
    """What came of a run.

    Parameters
    ----------
    hottest_by_pour : tuple of Hottest
        Of the whole casting, from each pour until the next.
    probes : tuple of Trace
        In their order; empty where a probe was never covered.
    hottest_trace : Trace
        The hottest place of the casting at each moment, wherever it is, and the cure there.
    end : float
        When the run ended [s].
    why : Why
        What ended it.
    least_cured : float
        Of the casting at the end [-].
    cells, active, steps : int
        Size of the run.
    energy_error : float
        Relative error of the heat balance over the whole run [-].
    """

    hottest_by_pour: tuple[Hottest, ...]
    probes: tuple[Trace, ...]
    hottest_trace: Trace
    end: float
    why: Why
    least_cured: float
    cells: int
    active: int
    steps: int
    energy_error: float

    @property
    def hottest(self) -> Hottest:
        """The hottest of all pours."""
        return max(self.hottest_by_pour, key=lambda found: found.temperature)


def run_pinned(
    layout: Layout,
    pours: Sequence[PinnedPour],
    probes: Sequence[Probe],
    *,
    until: float | None = None,
    stops: Sequence[float] = (),
    control: Control | None = None,
    progress: Progress = SILENT,
) -> PinnedRun:
    """Run pours as they are written.

    Parameters
    ----------
    layout : Layout
        With a line at every level.
    pours : sequence of PinnedPour
        Rising levels and times.
    probes : sequence of Probe
        Places in the casting.
    until : float, optional
        When to end [s]; else when it has cooled off its peak or nothing changes, at most three weeks
        after the last pour.
    stops : sequence of float
        Times a step must end at [s], such as corners of the surroundings' temperature.
    control : Control, optional
        Of the solver.
    progress : Progress
        Told every step; may raise Cancelled.

    Returns
    -------
    PinnedRun
        Never with a value that is no number: a run-away ends the run.
    """
    control = control or Control()
    stage = empty_mold(layout, pours[0].start)
    notes = Notes(probes)
    tops: list[Hottest] = []
    steps, heat, why = 0, NO_HEAT, Why.UNTIL
    for number, pour in enumerate(pours):
        stage = _poured(stage, pour)
        notes.begin(stage)
        following = pours[number + 1].start if number + 1 < len(pours) else None
        work = _Watch(stage, notes, tuple(stops), control, progress, f"pour {number + 1} of {len(pours)}")
        why = work.go(following if following is not None else until)
        stage, steps, heat = stage.at(work.state), steps + work.steps, heat.and_also(work.heat)
        tops.append(_hottest(stage))
        if why is Why.RUNAWAY:
            break
    return PinnedRun(
        tuple(tops),
        tuple(notes.trace(rows) for rows in notes.rows),
        notes.trace(notes.hot),
        stage.state.time,
        why,
        float(np.clip(stage.state.conversion[stage.poured].min(), 0.0, 1.0)),
        layout.cavity.size,
        int(stage.problem.active.sum()),
        steps,
        heat.error(float((stage.problem.volumetric_heat_capacity * stage.problem.cell_volumes).sum())),
    )


def _poured(stage: Stage, pour: PinnedPour) -> Stage:
    own = stage.layout
    if pour.temperature is None:
        return add_pour(stage, pour.level)
    warm = replace(own, site=replace(own.site, resin_temperature=pour.temperature))
    return replace(add_pour(replace(stage, layout=warm), pour.level), layout=own)


def _hottest(stage: Stage) -> Hottest:
    records, poured = stage.state.records, stage.poured
    top, place = summit(stage.layout.grid, poured, records.peak_temperature)
    cell = int(np.argmax(np.where(poured, records.peak_temperature, -np.inf)))
    return Hottest(top, float(records.peak_time.reshape(-1)[cell]), place)


@dataclass
class _Watch:
    """Follows one pour to a time, or until there is no more to see."""

    stage: Stage
    notes: Notes
    stops: tuple[float, ...]
    control: Control
    progress: Progress
    name: str
    steps: int = 0
    heat: Heat = NO_HEAT

    def __post_init__(self) -> None:
        self.state = self.stage.state
        self.poured = self.stage.poured
        self.begin = self.state.time

    def go(self, until: float | None) -> Why:
        """Run on; says why it ended."""
        if until is not None:
            return Why.RUNAWAY if self._run_to(until) else Why.UNTIL
        horizon = self.begin + DEFAULTS["stall_after"].value
        # nothing is over while the surroundings still have corners to come
        least = max(self.stops, default=0.0)
        while self.state.time < horizon:
            before = self.state
            if self._run_to(min(before.time + SEGMENT, horizon)):
                return Why.RUNAWAY
            if self.state.time >= least and self._cooled():
                return Why.COOLED
            if self.state.time >= least and self._at_rest(before):
                return Why.AT_REST
        return Why.STALLED

    def _run_to(self, mark: float) -> bool:
        """Run to a time; says whether it ran away."""
        outcome = run(
            self.stage.problem,
            self.state,
            mark,
            control=self.control,
            stops=self.stops,
            observer=self.notes,
            progress=self.progress,
            stage=f"heat and cure, {self.name}",
        )
        self.state, self.steps = outcome.state, self.steps + outcome.steps
        told = outcome.balance
        self.heat = self.heat.and_also(Heat(told.stored, told.released, told.entered))
        return outcome.ending is Ending.RUNAWAY

    def _cooled(self) -> bool:
        """Whether the reaction has warmed it above all else, and nine tenths of that are gone."""
        site = self.stage.layout.site
        base = max(site.climate.warmest, float(self.stage.state.temperature[self.poured].max()))
        peak = float(self.state.records.peak_temperature[self.poured].max())
        now = float(self.state.temperature[self.poured].max())
        return peak > base + WARMED and now < base + COOLED * (peak - base)

    def _at_rest(self, before: State) -> bool:
        heat = np.abs(self.state.temperature - before.temperature)[self.poured].max()
        cure = np.abs(self.state.conversion - before.conversion)[self.poured].max()
        # a cure that feeds on itself is as still as this before it takes off, but quickens all the while
        earlier, now = (state.reaction_rate[self.poured].max() for state in (before, self.state))
        return bool(heat < STILL_KELVIN and cure < STILL_CURE and now <= QUICKER * earlier)
