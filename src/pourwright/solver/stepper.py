"""One trial step: reaction along its path, exchange at bare faces, conduction; kept only once accepted."""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite

import numpy as np

from pourwright.solver.compilation import passed_on
from pourwright.solver.crew import Crew
from pourwright.solver.exchanging import Exchanger
from pourwright.solver.problem import Array, Problem
from pourwright.solver.reaction import first_rates, note_crossings, note_peaks, react
from pourwright.solver.ready import make_ready
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


def _taken(pool: list[tuple[Array, ...]]) -> tuple[Array, ...] | None:
    """Take what another part of the work has put back, if there is any."""
    try:
        return pool.pop()
    except IndexError:
        return None


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
        self.matter, bare, self.rows, self.reacting, self.bound = make_ready(problem)
        self.faces = Exchanger(bare)
        self.crew = Crew(problem.heat.size, threads)
        self.cap = cap
        rates = (state.diffusive_rate, state.diffusive_trend, state.reaction_rate)
        kept = Field(state.temperature, state.temperature, state.conversion, *rates)
        self.last_step = state.last_step
        self.now, self.next = kept.copy(), kept.copy()
        self._now, self._next = self.now.flat, self.next.flat
        self._rate = passed_on(problem.rate, self.reacting.cells.size // self.crew.threads)
        nx, ny, _ = problem.shape
        self._gained, self._delta = np.zeros(problem.heat.size), np.zeros(problem.heat.size)
        self._tally_x, self._tally_yz, self._misses = np.zeros(ny), np.zeros(nx), np.zeros(ny)
        # each thread takes one and puts it back
        self._scratch_x: list[tuple[Array, ...]] = []
        self._scratch_yz: list[tuple[Array, ...]] = []
        self._volumes = problem.cell_volumes if problem.source else None

    def feed(self, time: float, step: float) -> float:
        """Find what passes bare faces and sources during a step and give its sum [W]."""
        power = self.faces.power
        if self.problem.source is None or self._volumes is None:
            return self.faces.prepare(time, step, self._now, self.matter.rise)
        power[...] = 0.0
        entering = self.faces.prepare(time, step, self._now, self.matter.rise)
        fed = self.problem.source(time + 0.5 * step) * self._volumes * self.problem.active
        power += fed.reshape(-1)
        return entering + float(fed.sum())

    def begin(self, time: float) -> None:
        """Find diffusive and reaction rates as they stand, for a run that has no last step."""
        now, rows, power = self._now, self.rows, self.faces.power
        self.feed(time, 0.0)
        diffusive_rate(0, rows.shape[0], self.matter, rows, now.temperature, power, now.diffusive_rate)
        if self.reacting.cells.size:
            first_rates(self._rate, 0, self.reacting.cells.size, self.reacting, now)

    def foresee(self, step: float) -> None:
        """Set the temperatures that drive the explicit part of a step."""
        now, rows = self._now, self.rows
        self.crew.share(rows.shape[0], lambda low, high: foresee(low, high, step, rows, now))

    def react(self, step: float, allowed: float) -> None:
        """Advance the reaction of every reacting cell, to within an error [K]."""
        now, new, gained, last = self._now, self._next, self._gained, self.last_step
        rate, cap, lift, reacting = self._rate, self.cap, self.matter.rise, self.reacting

        def part(low: int, high: int) -> None:
            react(rate, low, high, step, last, allowed, cap, reacting, lift, now, new, gained)

        self.crew.share(reacting.cells.size, part)

    def sweep_yz(self, step: float) -> None:
        """Work out what enters each cell and eliminate along y and z."""
        mean, power, gained, delta = self._now.mean, self.faces.power, self._gained, self._delta
        matter, rows, loss, tally = self.matter, self.rows, self.faces.loss, self._tally_yz

        def part(low: int, high: int) -> None:
            scratch = _taken(self._scratch_yz) or scratch_yz(rows.shape)
            sweep_yz(low, high, step, matter, rows, mean, power, gained, loss, delta, tally, scratch)
            self._scratch_yz.append(scratch)

        self.crew.share(rows.shape[0], part)

    def sweep_x(self, step: float) -> None:
        """Eliminate along x and write temperatures and rates after the step."""
        now, new, gained, delta = self._now, self._next, self._gained, self._delta
        matter, rows, loss = self.matter, self.rows, self.faces.loss
        steps, tallies = (step, self.last_step), (self._tally_x, self._misses)

        def part(low: int, high: int) -> None:
            scratch = _taken(self._scratch_x) or scratch_x(rows.shape)
            sweep_x(low, high, steps, matter, rows, now, new, loss, gained, delta, tallies, scratch)
            self._scratch_x.append(scratch)

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
        entering = self.feed(time, step)
        self.sweep_yz(step)
        self.sweep_x(step)
        tallied = float(self._tally_x.sum() + self._tally_yz.sum())
        # implicit half: bare faces let pass less by half the increments, summed from the very same numbers
        entered = step * entering - 0.5 * step * tallied
        miss = MISS_WEIGHT * step * float(self._misses.max())
        # sweeps spread what is no number over their lines, up to the faces that are summed here
        return Trial(miss if isfinite(entered) else np.nan, entered)

    def accept(self, step: float) -> None:
        """Keep the step just computed."""
        # swapped, not copied: a trial that is thrown away has touched nothing that counts
        self.now, self.next = self.next, self.now
        self._now, self._next = self._next, self._now
        self.last_step = step

    def note_peaks(self, time: float, step: float, peak: Array, peak_time: Array) -> float:
        """Note peaks of the step just computed and give its highest temperature [K]."""
        now, new, lift, last = self._now, self._next, self.matter.rise, self.last_step
        tops, times, rows = peak.reshape(-1), peak_time.reshape(-1), self.rows
        hottest: list[float] = []

        def part(low: int, high: int) -> None:
            found = note_peaks(low, high, time, step, last, rows, now, new, lift, tops, times)
            hottest.append(found)

        self.crew.share(rows.shape[0], part)
        # written so that what is no number is not lost
        return hottest[0] if len(hottest) == 1 else float(np.max(hottest))

    def note_crossings(self, time: float, step: float, limits: tuple[float, ...], crossed: Array) -> None:
        """Note which cells crossed which conversion during the step just computed."""
        now, new, last, cells = self._now, self._next, self.last_step, self.reacting.cells
        every = [(limit, crossed[number].reshape(-1)) for number, limit in enumerate(limits)]

        def part(low: int, high: int) -> None:
            for limit, times in every:
                note_crossings(time, step, last, limit, cells[low:high], now, new, times)

        self.crew.share(cells.size, part)
