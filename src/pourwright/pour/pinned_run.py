"""Run pours as they are written and note what happens at probes and at the hottest place."""

from __future__ import annotations

from array import array
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import NamedTuple, TypeAlias

import numpy as np
from numpy.typing import NDArray

from pourwright.foundation.progress import SILENT, Progress
from pourwright.pour.defaults import DEFAULTS
from pourwright.pour.layout import Layout
from pourwright.pour.probes import Place, Probe, Stencil, stencil, summit
from pourwright.pour.stages import Stage, add_pour, empty_mold
from pourwright.solver import Control, Ending, State, run

Array = NDArray[np.float64]
HOUR = 3600.0
SEGMENT = 3 * HOUR
MOST_POINTS = 400
WARMED, COOLED = 0.5, 0.1
EVEN = 0.4
STILL_KELVIN, STILL_CURE = 0.01, 1e-4
Rows: TypeAlias = "array[float]"
"""Time [s], temperature [K] and cure [-], one step after the other."""


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
class Trace:
    """What happened at one place: time [s], temperature [K], cure [-], at most some 400 points.

    Parameters
    ----------
    time, temperature, conversion : tuple of float
        From the moment it is covered on.
    """

    time: tuple[float, ...]
    temperature: tuple[float, ...]
    conversion: tuple[float, ...]

    @property
    def peak(self) -> tuple[float, float]:
        """Highest temperature [K] and its time [s], by the parabola through three points."""
        return _parabola(self.time, self.temperature)


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


@dataclass
class _Notes:
    """Takes down each step; thinned when it is read."""

    probes: Sequence[Probe]
    rows: list[Rows] = field(default_factory=list)
    hot: Rows = field(default_factory=lambda: array("d"))
    kept: set[float] = field(default_factory=set)
    stencils: list[Stencil | None] = field(default_factory=list)
    cells: NDArray[np.int64] = field(default_factory=lambda: np.zeros(0, dtype=np.int64))

    def __post_init__(self) -> None:
        self.rows = [array("d") for _ in self.probes]

    def begin(self, stage: Stage) -> None:
        """Look at the casting as it is filled now, and note where it stands."""
        poured, grid = stage.poured, stage.layout.grid
        self.cells = np.flatnonzero(poured)
        self.stencils = [
            stencil(grid, poured, probe.place) if probe.place[2] <= stage.level + 1e-9 else None
            for probe in self.probes
        ]
        self.kept.add(stage.state.time)
        self(stage.state.time, stage.state.temperature, stage.state.conversion)

    def __call__(self, time: float, temperature: Array, conversion: Array) -> None:
        """Note one step; the solver's observer."""
        heat, cure = temperature.reshape(-1), conversion.reshape(-1)
        place = self.cells[int(np.argmax(heat[self.cells]))]
        self.hot.extend((time, float(heat[place]), float(cure[place])))
        for rows, at in zip(self.rows, self.stencils, strict=True):
            if at is not None:
                rows.extend((time, at.of(temperature), min(max(at.of(conversion), 0.0), 1.0)))

    def trace(self, rows: Rows) -> Trace:
        """Thin the rows, keeping ends, starts of pours and the highest with its neighbours."""
        table = np.array(rows).reshape(-1, 3)
        count = table.shape[0]
        if not count:
            return Trace((), (), ())
        top = int(np.argmax(table[:, 1]))
        stride = max(1, -(-count // MOST_POINTS))
        wanted = {*range(0, count, stride), top - 1, top, top + 1, count - 1}
        wanted.update(np.flatnonzero(np.isin(table[:, 0], sorted(self.kept))).tolist())
        chosen = table[[n for n in sorted(wanted) if 0 <= n < count]]
        time, heat, cure = (tuple(column.tolist()) for column in chosen.T)
        return Trace(time, heat, cure)


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
    notes = _Notes(probes)
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
    notes: _Notes
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
        return bool(heat < STILL_KELVIN and cure < STILL_CURE)


def _parabola(times: tuple[float, ...], values: tuple[float, ...]) -> tuple[float, float]:
    top = max(range(len(values)), key=values.__getitem__)
    if not 0 < top < len(values) - 1:
        return values[top], times[top]
    back, ahead = times[top] - times[top - 1], times[top + 1] - times[top]
    # steps of very different length stand at a corner of the surroundings or at a pour
    if min(back, ahead) < EVEN * max(back, ahead):
        return values[top], times[top]
    down, up = (values[top] - values[top - 1]) / back, (values[top + 1] - values[top]) / ahead
    bend = (up - down) / (back + ahead)
    if bend >= 0.0:
        return values[top], times[top]
    slope = down + bend * back
    shift = min(max(-slope / (2 * bend), -back / 2), ahead / 2)
    return values[top] + slope * shift + bend * shift**2, times[top] + shift
