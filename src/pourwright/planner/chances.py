"""How sure a plan is: an ensemble of its draws, an emulator learned from them, and counts over many."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtri

from pourwright.planner.hours import WorkingHours
from pourwright.planner.lived import Life, Lived, live
from pourwright.pour.doubt import Doubt
from pourwright.pour.store import Map, in_turn
from pourwright.solver.draws import cube
from pourwright.solver.emulator import Emulator, fit, held_out

Array = NDArray[np.float64]
RUNS, HELD_OUT, MEMBERS = 60, 20, 20000
BEYOND = 120.0
"""Kelvin over the limit at which a run-away is not followed any further."""
BELOW = 8.0
"""Kelvin below the shop's coldest hour from which rises are counted: measured, see record 0015."""
LEAST_RISE = 0.5
"""Of a peak, so that its logarithm stays where it means something [K]."""
FARTHEST = 4.0
"""Deviates of a draw stay within this many standard deviations: beyond, nothing is known anyway."""
NEAR = 10.0
"""A pour none of whose runs comes within so many kelvin of the limit is not looked at further."""
TOLD = 60.0
"""Kelvin over the limit up to which peaks are told apart."""
CLIFF = 3.0
"""So many times farther from the middle than the coolest tenth lies the hottest twentieth near run-away."""


@dataclass(frozen=True)
class Ensemble:
    """Draws that were poured on the coarse grid.

    Parameters
    ----------
    points : array (runs, size)
        Deviates.
    lived : tuple of Lived
        What each came to.
    count : int
        Pours of the plan.
    base : float
        From which rises are counted [K].
    """

    points: Array
    lived: tuple[Lived, ...]
    count: int
    base: float

    def peaks(self, number: int) -> Array:
        """Peak of one pour in each draw [K]; NaN where it was not poured any more."""
        return np.array(
            [life.pours[number].peak if len(life.pours) > number else np.nan for life in self.lived]
        )

    def times(self, number: int, name: str) -> Array:
        """A time of one pour in each draw [s]; NaN where it was never reached."""
        found = [
            getattr(life.pours[number], name) if len(life.pours) > number else np.nan for life in self.lived
        ]
        return np.where(np.isfinite(found), found, np.nan)

    @property
    def ready(self) -> Array:
        """Time from the last pour until all is hard in each draw [s]; NaN where never."""
        found = np.array([life.ready - life.begun for life in self.lived])
        return np.where(np.isfinite(found), found, np.nan)


def gather(
    doubt: Doubt,
    plan: Sequence[tuple[float, float]],
    hours: WorkingHours,
    limit: float,
    points: Array,
    each: Map = in_turn,
) -> Ensemble:
    """Pour every draw.

    Parameters
    ----------
    doubt : Doubt
        What is not known exactly.
    plan : sequence of tuple
        Level [m] and start [s] of every pour.
    hours : WorkingHours
        When a late pour may go on.
    limit : float
        Hottest the casting may get [K].
    points : array (runs, size)
        Deviates of the draws.
    each : Map
        Runs them, maybe several at a time.

    Returns
    -------
    Ensemble
        In the order of the points.
    """
    levels, starts = (tuple(column) for column in zip(*plan, strict=True))
    lives = [Life(doubt.site(point), levels, starts, hours, limit + BEYOND) for point in points]
    likely = doubt.site(np.zeros(doubt.size))
    base = min(likely.climate.hourly) - BELOW
    return Ensemble(points, tuple(each(live, lives)), len(levels), base)


@dataclass(frozen=True)
class Answer:
    """One answer over all draws, by an emulator.

    Parameters
    ----------
    points, logs : array (runs, size), (runs,)
        What it was learned from: deviates, and the logarithm of rise or time.
    base : float
        Added after the exponential: [K] for a peak, 0 for a time.
    tested : int
        How many of the last runs are held out to test it; all are learned from after that.
    """

    points: Array
    logs: Array
    base: float
    tested: int

    @cached_property
    def emulator(self) -> Emulator:
        """Of the logarithm."""
        return fit(self.points, self.logs)

    @cached_property
    def error(self) -> float:
        """Nine of ten held-out runs are reproduced within this share of rise or time [-]."""
        off = held_out(self.points, self.logs, self.tested)
        return float(np.quantile(np.abs(np.exp(off) - 1.0), 0.9))

    def at(self, points: Array) -> Array:
        """Value at deviates, [K] or [s]."""
        return np.asarray(self.base + np.exp(self.emulator.predict(points)))


@dataclass(frozen=True)
class Chances:
    """Bands and chances of a plan.

    Bands of times are those of the runs themselves. What is rare, how often a limit is passed, is
    counted over many members by an emulator; so is what matters most.

    Parameters
    ----------
    ensemble : Ensemble
        Runs learned from, and at the end those held out.
    held_out : int
        How many those are.
    members : array (count, size)
        Deviates counted over.
    limit : float
        [K]
    likely : Lived
        The casting as planned, on the same coarse grid.
    finer : tuple of float
        By how much each pour's peak is higher on the final grid [K].
    """

    ensemble: Ensemble
    held_out: int
    members: Array
    limit: float
    likely: Lived
    finer: tuple[float, ...]

    @cached_property
    def peaks(self) -> tuple[Answer | None, ...]:
        """Peak of every pour; None where no run came near the limit."""
        return tuple(self._peak(number) for number in range(self.ensemble.count))

    @cached_property
    def ready(self) -> Answer | None:
        """Time from the last pour until all is hard; None where too few draws get hard."""
        values = self.ensemble.ready
        known = np.isfinite(values) & (values > 0.0)
        if known.sum() < 2 * self.held_out:
            return None
        return Answer(self.ensemble.points[known], np.log(values[known]), 0.0, self.held_out)

    def band(self, values: Array, *shares: float) -> tuple[float, ...] | None:
        """Quantiles of an answer over the runs; None where as many never reach it."""
        every = np.where(np.isfinite(values), values, np.inf)
        found = np.quantile(every, shares, method="higher")
        return tuple(found.tolist()) if np.all(np.isfinite(found)) else None

    @cached_property
    def over(self) -> NDArray[np.bool_]:
        """Whether a member goes over the limit, by pour (pours, count)."""
        none = np.zeros(len(self.members), dtype=bool)
        return np.array(
            [
                none if answer is None else answer.at(self.members) + finer > self.limit
                for answer, finer in zip(self.peaks, self.finer, strict=True)
            ]
        )

    def over_limit(self, number: int) -> float:
        """Share of members in which a pour goes over the limit [-]; of the runs where too few are known."""
        counted = float(np.mean(self.over[number]))
        if self.peaks[number] is not None:
            return counted
        peaks = self.ensemble.peaks(number)
        known = peaks[np.isfinite(peaks)]
        return float(np.mean(known + self.finer[number] > self.limit)) if known.size else 0.0

    @property
    def any_over(self) -> float:
        """Share of members in which any pour goes over the limit [-]."""
        together = float(np.mean(self.over.any(axis=0)))
        return max(together, *(self.over_limit(number) for number in range(self.ensemble.count)))

    def kept(self, number: int, probability: float) -> float:
        """Peak of a pour that is kept at a probability [K]; not told beyond what is learned."""
        answer = self.peaks[number]
        values = self.ensemble.peaks(number) if answer is None else answer.at(self.members)
        return float(np.nanquantile(values, probability)) + self.finer[number]

    def missed(self, number: int) -> float:
        """Share of the runs in which the pour after this one finds a top that bonds no more [-]."""
        poured = [life.pours[number].missed for life in self.ensemble.lived if len(life.pours) > number]
        return float(np.mean(poured)) if poured else 0.0

    def cliff(self, number: int) -> bool:
        """Whether a pour is near run-away: the hot tail of its peaks is far longer than the cold one."""
        low, middle, high = np.nanquantile(self.ensemble.peaks(number), (0.1, 0.5, 0.95))
        return bool(high > self.limit - NEAR and high - middle > CLIFF * (middle - low))

    def _peak(self, number: int) -> Answer | None:
        peaks = self.ensemble.peaks(number)
        poured = np.isfinite(peaks).sum()
        if poured < 2 * self.held_out or float(np.nanmax(peaks)) < self.limit - NEAR:
            return None
        # how far beyond the limit does not matter, and near run-away nothing learns it
        rises = np.clip(peaks, self.ensemble.base + LEAST_RISE, self.limit + TOLD) - self.ensemble.base
        known = np.isfinite(rises)
        return Answer(self.ensemble.points[known], np.log(rises[known]), self.ensemble.base, self.held_out)


def apart(peaks: Sequence[float], likely: Lived) -> tuple[float, ...]:
    """By how much peaks of a finer grid lie above those of the same casting here.

    Parameters
    ----------
    peaks : sequence of float
        Of every pour, on the finer grid [K].
    likely : Lived
        The casting as planned, on the coarse grid.

    Returns
    -------
    tuple of float
        [K]; 0 for a pour that did not come to be on the coarse grid.
    """
    here = [pour.peak for pour in likely.pours]
    own = [*here, *peaks[len(here) :]]
    return tuple(fine - coarse for fine, coarse in zip(peaks, own, strict=True))


def weigh(
    doubt: Doubt,
    plan: Sequence[tuple[float, float]],
    hours: WorkingHours,
    limit: float,
    *,
    peaks: Sequence[float] | None = None,
    seed: int = 0,
    runs: int = RUNS,
    tested: int = HELD_OUT,
    members: int = MEMBERS,
    each: Map = in_turn,
) -> Chances:
    """Reckon bands and chances of a plan.

    Parameters
    ----------
    doubt : Doubt
        What is not known exactly.
    plan : sequence of tuple
        Level [m] and start [s] of every pour.
    hours : WorkingHours
        When a late pour may go on.
    limit : float
        Hottest the casting may get [K].
    peaks : sequence of float, optional
        Of the likely casting on the final grid [K]: the ensemble's are moved as far as these lie apart.
    seed : int
        Of the draws.
    runs, tested : int
        Runs learned from, and held out to test the emulator.
    members : int
        Draws counted over.
    each : Map
        Runs them, maybe several at a time.

    Returns
    -------
    Chances
        The same for the same seed.
    """
    drawn = standard(runs + tested, doubt.size, seed)
    points = np.vstack([np.zeros(doubt.size), drawn])
    every = gather(doubt, plan, hours, limit, points, each)
    likely, ensemble = every.lived[0], replace(every, points=drawn, lived=every.lived[1:])
    finer = (0.0,) * len(plan) if peaks is None else apart(peaks, likely)
    # another seed: the members are not to be the runs again
    return Chances(ensemble, tested, standard(members, doubt.size, seed + 1), limit, likely, finer)


def standard(count: int, size: int, seed: int) -> Array:
    """Draw independent standard normal deviates, evenly spread.

    Parameters
    ----------
    count, size : int
        Draws, and deviates of each.
    seed : int
        Of the draws.

    Returns
    -------
    array (count, size)
        Within four standard deviations.
    """
    return np.clip(ndtri(cube(count, size, seed)), -FARTHEST, FARTHEST)
