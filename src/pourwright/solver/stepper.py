"""One trial step: reaction along its path, exchange at bare faces, conduction; kept only once accepted."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.solver.coefficients import lay_out
from pourwright.solver.crew import Crew
from pourwright.solver.exchanging import Exchanger
from pourwright.solver.problem import Array, Problem
from pourwright.solver.reaction import Reacting, first_rates, note_crossings, note_peaks, react
from pourwright.solver.state import Field, State
from pourwright.solver.sweeps import diffusive_rate, foresee, sweep_x, sweep_yz

MISS_WEIGHT = 1.5
"""Makes the tolerance about the error of a run's peak, as measured on slabs that take off."""


@dataclass(frozen=True, slots=True)
class Trial:
    """What came of a trial step.

    Parameters
    ----------
    miss : float
        Temperature that the miss of the forecast diffusive rate stands for [K]; NaN if it failed.
    entered : float
        Heat through bare faces and from further sources [J].
    """

    miss: float
    entered: float


class Stepper:
    """Holds a problem laid out for stepping, and the working arrays.

    Parameters
    ----------
    problem : Problem
        The grid and what it holds.
    state : State
        Where to begin; its arrays are copied.
    cap : float
        Temperature beyond which the reaction is not followed [K].
    threads : int
        Threads to use; chosen if left out.
    """

    def __init__(self, problem: Problem, state: State, cap: float, threads: int | None = None) -> None:
        self.problem = problem
        self.matter = lay_out(problem)
        self.faces = Exchanger(problem)
        self.crew = Crew(problem.heat.size, threads)
        self.cap = cap
        rates = (state.diffusive_rate, state.diffusive_trend, state.reaction_rate)
        kept = Field(state.temperature, state.temperature, state.conversion, *rates)
        self.last_step = state.last_step
        self.now = kept.copy()
        self.next = kept.copy()
        cells = np.flatnonzero(problem.reacting)
        self.reacting = Reacting(cells, problem.law.ravel()[cells], problem.parameters.copy())
        nx, ny, _ = problem.shape
        self._gained = np.zeros(problem.shape)
        self._delta = np.zeros(problem.shape)
        self._tally_x, self._tally_yz, self._misses = np.zeros(ny), np.zeros(nx), np.zeros(nx)
        self._volumes = problem.cell_volumes if problem.source else None

    def _expected_rate(self, cells: NDArray[np.int64]) -> Array:
        lift = self.matter.rise.ravel()[cells] * self.now.reaction_rate.ravel()[cells]
        return np.asarray(self.now.diffusive_rate.ravel()[cells] + lift)

    def feed(self, time: float, step: float, *, known: bool) -> float:
        """Find what passes bare faces and sources during a step and give its sum [W]."""
        power = self.faces.power
        supplied = 0.0
        if self.problem.source is not None:
            power[...] = 0.0
        ahead = self._expected_rate if known else None
        entering = self.faces.prepare(time, step, self.now.flat, ahead)
        if self.problem.source is not None and self._volumes is not None:
            fed = self.problem.source(time + 0.5 * step) * self._volumes * self.problem.active
            power += fed
            supplied = float(fed.sum())
        return entering + supplied

    def begin(self, time: float) -> None:
        """Find diffusive and reaction rates as they stand, for a run that has no last step."""
        now, power = self.now, self.faces.power
        self.feed(time, 0.0, known=False)
        diffusive_rate(0, power.shape[0], self.matter, now.temperature, power, now.diffusive_rate)
        if self.reacting.cells.size:
            first_rates(self.problem.rate, 0, self.reacting.cells.size, self.reacting, now.flat)

    def foresee(self, step: float) -> None:
        """Set the temperatures that drive the explicit part of a step."""
        now = self.now.flat
        self.crew.share(now.mean.size, lambda low, high: foresee(low, high, step, now))

    def react(self, step: float, allowed: float) -> None:
        """Advance the reaction of every reacting cell, to within an error [K]."""
        now, new, gained = self.now.flat, self.next.flat, self._gained.reshape(-1)
        last = self.last_step
        rate, cap, lift = self.problem.rate, self.cap, self.matter.rise.reshape(-1)

        def part(low: int, high: int) -> None:
            react(rate, low, high, step, last, allowed, cap, self.reacting, lift, now, new, gained)

        self.crew.share(self.reacting.cells.size, part)

    def sweep_x(self, step: float) -> None:
        """Work out what enters each cell and eliminate along x."""
        matter, mean, gained, delta = self.matter, self.now.mean, self._gained, self._delta
        power, loss, tally = self.faces.power, self.faces.loss, self._tally_x

        def part(low: int, high: int) -> None:
            sweep_x(low, high, step, matter, mean, power, gained, loss, delta, tally)

        self.crew.share(tally.size, part)

    def sweep_yz(self, step: float) -> None:
        """Eliminate along y and z and write temperatures and rates after the step."""
        now, new, matter, gained, delta = self.now, self.next, self.matter, self._gained, self._delta
        loss, last = self.faces.loss, self.last_step
        tally, misses = self._tally_yz, self._misses

        def part(low: int, high: int) -> None:
            sweep_yz(low, high, step, last, matter, now, new, loss, gained, delta, tally, misses)

        self.crew.share(tally.size, part)

    def attempt(self, time: float, step: float, allowed: float) -> Trial:
        """Compute a step into the spare arrays.

        Parameters
        ----------
        time, step : float
            [s].
        allowed : float
            Error of the reaction allowed in the step [K].

        Returns
        -------
        Trial
        """
        self.foresee(step)
        if self.reacting.cells.size:
            self.react(step, allowed)
        entering = self.feed(time, step, known=True)
        self.sweep_x(step)
        self.sweep_yz(step)
        tallied = float(self._tally_x.sum() + self._tally_yz.sum())
        entered = step * entering - 0.5 * step * tallied
        miss = MISS_WEIGHT * step * float(self._misses.max())
        return Trial(miss if np.isfinite(entered) else np.nan, entered)

    def accept(self, step: float) -> None:
        """Keep the step just computed."""
        self.now, self.next = self.next, self.now
        self.last_step = step

    def note_peaks(self, time: float, step: float, peak: Array, peak_time: Array) -> float:
        """Note peaks of the step just computed and give its highest temperature [K]."""
        now, new, lift, last = self.now.flat, self.next.flat, self.matter.rise.reshape(-1), self.last_step
        tops, times = peak.reshape(-1), peak_time.reshape(-1)
        hottest: list[float] = []

        def part(low: int, high: int) -> None:
            hottest.append(note_peaks(low, high, time, step, last, now, new, lift, tops, times))

        self.crew.share(lift.size, part)
        return float(np.max(hottest))

    def note_crossings(self, time: float, step: float, limits: tuple[float, ...], crossed: Array) -> None:
        """Note which cells crossed which conversion during the step just computed."""
        now, new, last = self.now.flat, self.next.flat, self.last_step
        for number, limit in enumerate(limits):
            times = crossed[number].reshape(-1)
            note_crossings(time, step, last, limit, self.reacting.cells, now, new, times)
