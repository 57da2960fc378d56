"""Learn a smooth answer from some runs, to ask it at many points without running."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.linalg import LinAlgError, cho_factor, cho_solve
from scipy.optimize import Bounds, minimize

from pourwright.foundation.errors import UserError
from pourwright.solver.similarity import Unknowns, covariance, parts, slopes

Array = NDArray[np.float64]


class Habit(NamedTuple):
    """What is expected of an answer before any run.

    Parameters
    ----------
    sizes : tuple of float
        Of the parts of `similarity`, over the variance of the values.
    open : tuple of float
        Deviations of their logarithms.
    """

    sizes: tuple[float, ...]
    open: tuple[float, ...]


NOT_AT_ALL, TIGHT = 1e-12, 1e-3
HABITS = (
    Habit((1.0, 0.1, NOT_AT_ALL, 0.3, 1e-3), (1.5, 1.5, TIGHT, 1.5, 2.0)),
    Habit((1.0, 0.1, 1.0, 0.3, 1e-3), (1.5, 1.5, 1.5, 1.5, 2.0)),
)
"""One that bends everywhere alike, one that bends along one direction: the answer is the mean of both."""
REACH, REACH_OPEN, DIRECTION_OPEN = 1.5, 1.0, 0.5
"""Distance over which the answer changes its ways, over the root of the number of inputs, and so on."""
NEAREST, FARTHEST = 1.0, 20.0
"""Distances the search starts from, by how much an input matters."""
OUTERMOST = 6.0
"""Nothing is sought farther from what is expected than so many deviations: a step there could overflow."""
RIDGE, ROUND_OFF, MOST_STEPS = 0.02, 1e-8, 80
FEWEST, BATCH = 3, 4096


@dataclass(frozen=True, eq=False)
class Process:
    """What one habit made of the runs.

    Parameters
    ----------
    weights : array (runs,)
        Of each run.
    unknowns : Unknowns
        What was learned.
    """

    weights: Array
    unknowns: Unknowns


@dataclass(frozen=True, eq=False)
class Emulator:
    """A learned answer.

    Parameters
    ----------
    points : array (runs, n)
        Where it was learned.
    processes : tuple of Process
        Their mean is the answer; none where the answer never changes.
    middle, scale : float
        Mean and deviation of the values.
    """

    points: Array
    processes: tuple[Process, ...]
    middle: float
    scale: float

    def predict(self, points: Array) -> Array:
        """Answer at other points.

        Parameters
        ----------
        points : array (count, n)
            Where.

        Returns
        -------
        array (count,)
        """
        asked = np.atleast_2d(np.asarray(points, dtype=float))
        found = np.zeros(len(asked))
        for first in range(0, len(asked), BATCH):
            some = slice(first, first + BATCH)
            for each in self.processes:
                alike = covariance(parts(asked[some], self.points, each.unknowns), each.unknowns)
                found[some] += alike @ each.weights / len(self.processes)
        return np.asarray(self.middle + self.scale * found)


def fit(points: Array, values: Array) -> Emulator:
    """Learn an answer from runs.

    Parameters
    ----------
    points : array (runs, n)
        Inputs of each run, each about of mean 0 and deviation 1.
    values : array (runs,)
        Answers, finite, on a scale on which they are as straight as may be (logarithms of times).

    Returns
    -------
    Emulator
        The same each time; it passes close to every run.

    Raises
    ------
    UserError
        Where points and values do not fit each other, or are not finite.

    Notes
    -----
    Mean of two Gaussian processes. Their covariance adds a straight and a bowed part, and a remainder by
    Matern's function of order 5/2 with a distance for each input; one of them has a part that bends
    freely along one direction of all inputs together, too: that is how a peak takes off. Distances,
    direction and sizes are the most likely ones given wide priors (`docs/decisions/0015-emulator.md`
    says what was tried).
    Sources: Rasmussen and Williams, Gaussian Processes for Machine Learning (2006), chapters 2 and
    5; Tripathy, Bilionis and Gonzalez, J. Comput. Phys. 321 (2016) 191 for the one direction
    (citations from memory).

    Examples
    --------
    >>> from pourwright.solver.draws import draws
    >>> runs = draws(64, np.zeros(3), np.eye(3), seed=1)
    >>> learned = fit(runs, runs @ np.array([1.0, -2.0, 0.5]))
    >>> print(f"{learned.predict(np.array([[1.0, 1.0, 1.0]]))[0]:.3f}")
    -0.500
    """
    runs, answers = _accepted(points, values)
    middle, scale = float(answers.mean()), float(answers.std())
    if scale <= ROUND_OFF * abs(middle) or len(runs) < FEWEST:
        return Emulator(runs, (), middle, 0.0)
    even = (answers - middle) / scale
    return Emulator(runs, tuple(_learned(runs, even, habit) for habit in HABITS), middle, scale)


def held_out(points: Array, values: Array, count: int = 20) -> Array:
    """Learn from all runs but the last few and compare with those.

    Parameters
    ----------
    points : array (runs, n)
        Inputs.
    values : array (runs,)
        Answers.
    count : int
        How many of the last runs are held out.

    Returns
    -------
    array (count,)
        What is predicted less what was run. Leaving out one run at a time would be cheaper, but
        tells a third of the true error, since the direction was learned from that run too.

    Raises
    ------
    UserError
        Where too few runs would be left.

    Examples
    --------
    >>> from pourwright.solver.draws import draws
    >>> runs = draws(80, np.zeros(10), np.eye(10), seed=1)
    >>> errors = held_out(runs, np.log1p(np.exp(2.0 * runs[:, :3].sum(axis=1))))
    >>> errors.size, bool(np.abs(errors).max() < 0.5)
    (20, True)
    """
    runs, answers = _accepted(points, values)
    if not 0 < count < len(runs) - 2:
        raise UserError(f"{count} of {len(runs)} runs cannot be held out", allowed=f"1 to {len(runs) - 3}")
    learned = fit(runs[:-count], answers[:-count])
    return learned.predict(runs[-count:]) - answers[-count:]


def _accepted(points: Array, values: Array) -> tuple[Array, Array]:
    runs, answers = np.asarray(points, dtype=float), np.asarray(values, dtype=float)
    if runs.ndim != 2 or answers.shape != runs.shape[:1] or not answers.size:
        raise UserError(f"{answers.size} values do not fit points of shape {runs.shape}")
    if not (np.all(np.isfinite(runs)) and np.all(np.isfinite(answers))):
        raise UserError("an answer is learned from finite numbers only", todo="leave the other runs out")
    return runs, answers


def _among(runs: Array, unknowns: Unknowns) -> Array:
    rough = float(unknowns.sizes[-1]) + ROUND_OFF
    return covariance(parts(runs, runs, unknowns), unknowns) + rough * np.eye(len(runs))


def _learned(runs: Array, even: Array, habit: Habit) -> Process:
    unknowns = Unknowns.of(_most_likely(runs, even, habit))
    return Process(cho_solve(cho_factor(_among(runs, unknowns), lower=True), even), unknowns)


def _most_likely(runs: Array, even: Array, habit: Habit) -> Array:
    """Search from what a straight line through all inputs says."""
    count, n = runs.shape
    expected = np.concatenate([np.full(n, np.log(REACH * np.sqrt(n))), np.zeros(n), np.log(habit.sizes)])
    openness = np.concatenate([np.full(n, REACH_OPEN), np.full(n, DIRECTION_OPEN), habit.open])
    line = np.linalg.solve(runs.T @ runs + RIDGE * count * np.eye(n), runs.T @ even)
    matters = np.abs(line) / np.abs(line).max() if np.any(line) else np.ones(n)
    first = expected.copy()
    first[:n] = np.log(np.clip(1.5 / np.maximum(matters, 1e-3), NEAREST, FARTHEST))
    first[n : 2 * n] = line
    given = (runs, even, expected, openness)
    found = minimize(
        _unlikely,
        first,
        args=given,
        jac=True,
        method="L-BFGS-B",
        bounds=Bounds(expected - OUTERMOST * openness, expected + OUTERMOST * openness),
        options={"maxiter": MOST_STEPS},
    )
    best: Array = found.x
    return best


def _unlikely(row: Array, runs: Array, even: Array, expected: Array, openness: Array) -> tuple[float, Array]:
    """Minus the logarithm of the posterior of the unknowns, and its slopes."""
    unknowns = Unknowns.of(row)
    found = parts(runs, runs, unknowns)
    among = covariance(found, unknowns)
    among[np.diag_indices_from(among)] += unknowns.sizes[-1] + ROUND_OFF
    try:
        factor = cho_factor(among, lower=True)
    except LinAlgError:
        return 1e10, np.zeros_like(row)
    inverse = cho_solve(factor, np.eye(len(runs)))
    weights = inverse @ even
    away = (row - expected) / openness
    value = 0.5 * even @ weights + np.log(np.diag(factor[0])).sum() + 0.5 * away @ away
    slope = slopes(runs, found, unknowns, 0.5 * (inverse - np.outer(weights, weights)))
    return float(value), slope + away / openness
