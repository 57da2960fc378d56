"""Run a problem through time with a step that follows the error."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from math import cbrt, isfinite

import numpy as np

from pourwright.foundation.errors import UserError
from pourwright.foundation.progress import SILENT, Progress
from pourwright.solver.problem import Array, Problem
from pourwright.solver.state import Records, State, frozen
from pourwright.solver.stepper import Stepper, Trial

Observer = Callable[[float, Array, Array], None]


GROWTH = 1.6
"""Most by which a step may be longer than the last."""


class Ending(StrEnum):
    """Why a run came to its end."""

    FINISHED = "finished"
    RUNAWAY = "runaway"


@dataclass(frozen=True, slots=True)
class Control:
    """How closely a run is followed.

    Parameters
    ----------
    tolerance : float
        Aim for the error of temperature by stepping in time [K].
    max_step, min_step : float
        Longest and shortest step [s].
    cap : float
        Temperature beyond which the run ends as a runaway [K].
    first_step : float
        Step a start begins with [s]; chosen by how fast things change if 0.
    """

    tolerance: float = 0.05
    max_step: float = 1800.0
    min_step: float = 1e-3
    cap: float = 1000.0
    first_step: float = 0.0


@dataclass(frozen=True, slots=True)
class Balance:
    """Where the heat of a run went [J]; `error` is what is missing over what was moved.

    Parameters
    ----------
    stored, released, entered : float
        Heat stored in matter, set free by reaction, let in through faces and by sources [J].
    """

    stored: float
    released: float
    entered: float

    @property
    def error(self) -> float:
        """Relative error of the balance [-]."""
        moved = max(abs(self.stored), abs(self.released), abs(self.entered))
        return abs(self.stored - self.released - self.entered) / moved if moved > 0.0 else 0.0


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of a run.

    Parameters
    ----------
    state : State
        Where it stands; runs go on from here.
    ending : Ending
        Finished, or stopped as a runaway.
    balance : Balance
        Of this run.
    steps, rejected : int
        Steps kept, and steps thrown away for being too long.
    """

    state: State
    ending: Ending
    balance: Balance
    steps: int
    rejected: int


def _next_mark(time: float, until: float, stops: Sequence[float]) -> float:
    ahead = [stop for stop in stops if time < stop < until and stop - time > 1e-9 * max(1.0, abs(stop))]
    return min(ahead, default=until)


class _Run:
    """A run under way."""

    def __init__(self, problem: Problem, state: State, control: Control, threads: int | None) -> None:
        self.stepper = Stepper(problem, state, control.cap, threads)
        self.control = control
        self.time = state.time
        self.natural = state.step
        self.origin = state
        self.peak = state.records.peak_temperature.copy()
        self.peak_time = state.records.peak_time.copy()
        self.crossed = state.records.crossing_time.copy()
        self.steps = self.rejected = 0
        self.entered = 0.0
        self.hottest = -np.inf  # nothing is hot before the first step
        if state.step == 0.0:
            self.stepper.begin(state.time)
            self.natural = self._first_step()

    def _first_step(self) -> float:
        """Choose a step, a minute at most, in which conduction changes no cell by half the tolerance."""
        if self.control.first_step > 0.0:
            return min(self.control.first_step, self.control.max_step)
        now = self.stepper.now
        fastest = np.abs(now.diffusive_rate).max()
        step = 0.5 * self.control.tolerance / fastest if fastest > 0.0 else 60.0
        return float(np.clip(step, self.control.min_step, min(60.0, self.control.max_step)))

    def _proposed(self, remaining: float) -> float:
        """Step to try: what the error allows, or what lands on the mark in one or two."""
        step = max(min(self.natural, self.control.max_step), self.control.min_step)
        if step >= remaining * (1.0 - 1e-9):
            return remaining
        # two even steps, not a long one and a sliver: the trend of the rates needs steps of like length
        return min(step, 0.5 * remaining)

    def advance(self, mark: float) -> None:
        """Take one accepted step towards a mark, and land on it when it is near."""
        remaining = mark - self.time
        step = self._proposed(remaining)
        while True:
            trial = self.stepper.attempt(self.time, step, self.control.tolerance)
            # the factor aims below the tolerance; a little above it is not worth a new trial
            if trial.miss <= 1.2 * self.control.tolerance or step <= self.control.min_step:
                break
            self.rejected += 1
            step = max(self.control.min_step, step * self._factor(trial.miss, 0.1, 0.8))
            self.natural = step
        if not isfinite(trial.miss):
            self.hottest = np.inf
            return
        self._keep(step, trial)
        # set, not summed: round-off must not leave a sliver of a step before the mark
        self.time = mark if step == remaining else self.time + step

    def _factor(self, miss: float, least: float, most: float) -> float:
        """Factor on the step that brings the miss, which falls with its cube, to the tolerance."""
        if not isfinite(miss):
            return least
        wanted = 0.9 * cbrt(self.control.tolerance / miss) if miss > 0.0 else most
        return min(max(wanted, least), most)

    def _keep(self, step: float, trial: Trial) -> None:
        self.hottest = self.stepper.note_peaks(self.time, step, self.peak, self.peak_time)
        self.stepper.note_crossings(self.time, step, self.origin.records.thresholds, self.crossed)
        self.stepper.accept(step)
        self.entered += trial.entered
        self.steps += 1
        wanted = step * self._factor(trial.miss, 0.3, GROWTH)
        shortened = step < 0.999 * self.natural  # to land on a mark: the next may be as long as before
        self.natural = min(
            max(wanted, self.natural) if shortened and wanted > step else wanted, self.control.max_step
        )

    @property
    def runaway(self) -> bool:
        """Whether the hottest cell is past the cap, or no longer a number."""
        # written so that what is no number counts as past the cap
        return not self.hottest < self.control.cap

    def outcome(self) -> Outcome:
        """Freeze what came of the run."""
        now, origin, cells = self.stepper.now, self.origin, self.stepper.reacting.cells
        warmed = now.temperature - origin.temperature
        stored = float((self.stepper.matter.capacity * warmed.reshape(-1)).sum())
        gained = now.conversion.reshape(-1)[cells] - origin.conversion.reshape(-1)[cells]
        released = float((gained * self.stepper.bound).sum())
        records = Records(
            frozen(self.peak), frozen(self.peak_time), origin.records.thresholds, frozen(self.crossed)
        )
        heat, _, cure, drift, trend, rate = (frozen(array) for array in now)
        last = self.stepper.last_step
        state = State(self.time, heat, cure, drift, trend, rate, last, self.natural, records)
        ending = Ending.RUNAWAY if self.runaway else Ending.FINISHED
        return Outcome(state, ending, Balance(stored, released, self.entered), self.steps, self.rejected)


def run(
    problem: Problem,
    state: State,
    until: float,
    *,
    control: Control | None = None,
    stops: Sequence[float] = (),
    observer: Observer | None = None,
    progress: Progress = SILENT,
    stage: str = "heat and cure",
    threads: int | None = None,
) -> Outcome:
    """Follow heat and reaction from a state to a time.

    Parameters
    ----------
    problem : Problem
        The grid and what it holds.
    state : State
        From `start`, `switch_on` or an earlier run; it is not changed.
    until : float
        Time to stop at [s].
    control : Control
        Tolerance, longest step, cap.
    stops : sequence of float
        Times a step must end at [s], such as jumps in the surroundings.
    observer : callable
        Called after each step with time [s], temperature [K] and conversion [-], views that
        are valid during the call only.
    progress : Progress
        Told the time reached; may raise Cancelled.
    stage : str
        What progress calls this work.
    threads : int
        Threads to use; the result has the same bits for any number.

    Returns
    -------
    Outcome

    Raises
    ------
    UserError
        If `until` lies before the state.
    Cancelled
        When progress says so; the state given stays as it was.

    Examples
    --------
    >>> from pourwright.solver import Exchange, Surfaces, start
    >>> ones = np.ones((1, 1, 4))
    >>> bar = Problem(np.array([0, 1.0]), np.array([0, 1.0]), np.linspace(0, 0.1, 5), 2e6 * ones, 0.5 * ones,
    ...               surfaces=Surfaces(z_high=Exchange(8.0, 290.0)))
    >>> run(bar, start(bar, 320.0), 1e8).state.temperature.round(1).ravel().tolist()
    [290.0, 290.0, 290.0, 290.0]
    """
    if until < state.time:
        raise UserError(f"a run to {until:g} s cannot start at {state.time:g} s")
    work = _Run(problem, state, control or Control(), threads)
    marks = sorted(stops)
    while work.time < until:
        progress.step(stage, work.time, until)
        work.advance(_next_mark(work.time, until, marks))
        if observer is not None:
            observer(work.time, work.stepper.now.temperature, work.stepper.now.conversion)
        if work.runaway:
            break
    return work.outcome()
