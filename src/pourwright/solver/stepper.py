"""One trial step: reaction along its path, exchange at bare faces, conduction; kept only once accepted."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.solver.coefficients import Coefficients, lay_out
from pourwright.solver.crew import Crew
from pourwright.solver.exchanging import Exchanger
from pourwright.solver.problem import Array, Problem
from pourwright.solver.reaction import Reacting, first_rates, note_crossings, note_peaks, react
from pourwright.solver.rows import find_rows
from pourwright.solver.state import Field, State
from pourwright.solver.sweeps import diffusive_rate, foresee, scratch_x, scratch_yz, sweep_x, sweep_yz

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
        self.rows = find_rows(problem, tuple(patch for group in self.faces.groups for patch in group.patches))
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
        self._flat = Coefficients(*[array.reshape(-1) for array in self.matter])
        self._loss = tuple(array.reshape(-1) for array in self.faces.loss)
        self._gained, self._delta = np.zeros(problem.heat.size), np.zeros(problem.heat.size)
        self._tally_x, self._tally_yz, self._misses = np.zeros(ny), np.zeros(nx), np.zeros(ny)
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
        rows, flat = self.rows, now.flat
        here, found = flat.temperature, flat.diffusive_rate
        diffusive_rate(0, rows.shape[0], self._flat, rows, here, power.reshape(-1), found)
        if self.reacting.cells.size:
            first_rates(self.problem.rate, 0, self.reacting.cells.size, self.reacting, now.flat)

    def foresee(self, step: float) -> None:
        """Set the temperatures that drive the explicit part of a step."""
        now, rows = self.now.flat, self.rows
        self.crew.share(rows.shape[0], lambda low, high: foresee(low, high, step, rows, now))

    def react(self, step: float, allowed: float) -> None:
        """Advance the reaction of every reacting cell, to within an error [K]."""
        now, new, gained = self.now.flat, self.next.flat, self._gained
        last = self.last_step
        rate, cap, lift = self.problem.rate, self.cap, self._flat.rise

        def part(low: int, high: int) -> None:
            react(rate, low, high, step, last, allowed, cap, self.reacting, lift, now, new, gained)

        self.crew.share(self.reacting.cells.size, part)

    def sweep_yz(self, step: float) -> None:
        """Work out what enters each cell and eliminate along y and z."""
        mean, gained, delta = self.now.mean.reshape(-1), self._gained, self._delta
        matter, rows, loss = self._flat, self.rows, self._loss
        power, tally = self.faces.power.reshape(-1), self._tally_yz

        def part(low: int, high: int) -> None:
            scratch = scratch_yz(rows.shape)
            sweep_yz(low, high, step, matter, rows, mean, power, gained, loss, delta, tally, scratch)

        self.crew.share(rows.shape[0], part)

    def sweep_x(self, step: float) -> None:
        """Eliminate along x and write temperatures and rates after the step."""
        now, new, gained, delta = self.now.flat, self.next.flat, self._gained, self._delta
        matter, rows, loss = self._flat, self.rows, self._loss
        steps, tallies = (step, self.last_step), (self._tally_x, self._misses)

        def part(low: int, high: int) -> None:
            scratch = scratch_x(rows.shape)
            sweep_x(low, high, steps, matter, rows, now, new, loss, gained, delta, tallies, scratch)

        self.crew.share(rows.shape[1], part)

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
        # after the reaction: bare faces see the mean that it has moved
        entering = self.feed(time, step, known=True)
        self.sweep_yz(step)
        self.sweep_x(step)
        tallied = float(self._tally_x.sum() + self._tally_yz.sum())
        # implicit half: bare faces let pass less by half the increments, summed from the very same numbers
        entered = step * entering - 0.5 * step * tallied
        miss = MISS_WEIGHT * step * float(self._misses.max())
        # sweeps spread what is no number over their lines, up to the faces that are summed here
        return Trial(miss if np.isfinite(entered) else np.nan, entered)

    def accept(self, step: float) -> None:
        """Keep the step just computed."""
        # swapped, not copied: a trial that is thrown away has touched nothing that counts
        self.now, self.next = self.next, self.now
        self.last_step = step

    def note_peaks(self, time: float, step: float, peak: Array, peak_time: Array) -> float:
        """Note peaks of the step just computed and give its highest temperature [K]."""
        now, new, lift, last = self.now.flat, self.next.flat, self._flat.rise, self.last_step
        tops, times, rows = peak.reshape(-1), peak_time.reshape(-1), self.rows
        hottest: list[float] = []

        def part(low: int, high: int) -> None:
            found = note_peaks(low, high, time, step, last, rows, now, new, lift, tops, times)
            hottest.append(found)

        self.crew.share(rows.shape[0], part)
        return float(np.max(hottest))

    def note_crossings(self, time: float, step: float, limits: tuple[float, ...], crossed: Array) -> None:
        """Note which cells crossed which conversion during the step just computed."""
        now, new, last, cells = self.now.flat, self.next.flat, self.last_step, self.reacting.cells
        every = [(limit, crossed[number].reshape(-1)) for number, limit in enumerate(limits)]

        def part(low: int, high: int) -> None:
            for limit, times in every:
                note_crossings(time, step, last, limit, cells[low:high], now, new, times)

        self.crew.share(cells.size, part)
