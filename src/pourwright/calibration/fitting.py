"""The most likely parameters given a prior and some evidence, and how sure they are."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import least_squares

from pourwright.calibration.evidence import Evidence
from pourwright.calibration.parameters import NAMES, PLACE, Prior, Resin, resin_of
from pourwright.foundation.progress import SILENT, Progress

Array = NDArray[np.float64]
STEP, LEAST_STEP, MOST_STEP = 0.04, 0.001, 0.2
"""Of the differences that the slopes are taken by, in deviations of the prior."""
SHOWS = 0.5
"""Change of the residuals, on average, that a difference aims at."""
FARTHEST = 4.5
"""No parameter is sought farther from the family's middle than this, in deviations."""
TRIED_SPEEDS = (-2.4, -1.6, -0.8, 0.0, 0.8, 1.6, 2.4)
MOST_STEPS, CLOSE = 40, 1e-3
LEAST_FACTOR, MOST_FACTOR = 1.0, 10.0
STAGES = 5
"""Of easing, before a curve is fitted as it is."""


@dataclass(frozen=True, eq=False)
class Question:
    """A prior and the evidence that narrows it.

    Parameters
    ----------
    prior : Prior
        Of the family.
    evidence : tuple of Evidence
        Facts and cup tests.
    density : float
        Of the mixed resin [kg/m3].
    """

    prior: Prior
    evidence: tuple[Evidence, ...]
    density: float

    @cached_property
    def size(self) -> int:
        """Unknowns: the resin's, then those that each piece of evidence has of its own."""
        return len(NAMES) + sum(len(each.own) for each in self.evidence)

    @cached_property
    def places(self) -> tuple[slice, ...]:
        """Where the own unknowns of each piece of evidence stand."""
        starts = np.cumsum([len(NAMES), *[len(each.own) for each in self.evidence]])
        return tuple(slice(int(a), int(b)) for a, b in pairwise(starts))

    def resin(self, deviates: Array) -> Resin:
        """The resin that lies so many deviations from the family's middle."""
        n = len(NAMES)
        return resin_of(self.prior.mean + self.prior.deviation * deviates[:n], self.density)

    def blocks(self, deviates: Array) -> list[Array]:
        """Residuals of each piece of evidence, in deviations."""
        resin = self.resin(deviates)
        return [
            each.residuals(resin, deviates[place])
            for each, place in zip(self.evidence, self.places, strict=True)
        ]

    def residuals(self, deviates: Array) -> Array:
        """All residuals, the prior's own last."""
        return np.concatenate([*self.blocks(deviates), deviates])

    def slopes(self, deviates: Array, near: Array | None = None) -> Array:
        """How every residual changes with every unknown, by differences.

        Parameters
        ----------
        deviates : array (n,)
            Where.
        near : array (residuals, n), optional
            Slopes nearby: they tell how far to step, so that each step shows above the
            roughness of a simulated curve and stays within what is nearly straight.
        """
        steps = np.full(self.size, STEP) if near is None else _steps(near)
        base = None if self.curved else self.residuals(deviates)
        columns = []
        for i in range(self.size):
            ahead, behind = deviates.copy(), deviates.copy()
            ahead[i] += steps[i]
            behind[i] -= steps[i]
            # a whole curve bends too much for a difference to one side
            other = self.residuals(behind) if base is None else base
            width = 2 * steps[i] if base is None else steps[i]
            columns.append((self.residuals(ahead) - other) / width)
        return np.column_stack(columns)

    def eased(self, stage: int) -> Question:
        """The same question in a form that a search finds its way by."""
        return Question(self.prior, tuple(each.eased(stage) for each in self.evidence), self.density)

    @property
    def curved(self) -> bool:
        """Whether there is a whole curve to fit, and not single numbers alone."""
        return any(each.own for each in self.evidence)

    def without(self, index: int) -> Question:
        """The same question with one piece of evidence left out."""
        kept = tuple(each for i, each in enumerate(self.evidence) if i != index)
        return Question(self.prior, kept, self.density)


def _steps(near: Array) -> Array:
    rows = near.shape[0] - near.shape[1]
    strength = np.sqrt(np.sum(near[:rows] ** 2, axis=0) / max(rows, 1))
    found: Array = np.clip(SHOWS / np.maximum(strength, 1e-9), LEAST_STEP, MOST_STEP)
    return found


@dataclass(frozen=True, eq=False)
class Fit:
    """The answer to a question.

    Parameters
    ----------
    question : Question
        What was asked.
    deviates : array (n,)
        Most likely unknowns, in deviations of the prior.
    slopes : array (residuals, n)
        There.
    """

    question: Question
    deviates: Array
    slopes: Array

    @cached_property
    def covariance(self) -> Array:
        """Of the unknowns, in squared deviations of the prior (Laplace's approximation)."""
        inverse: Array = np.linalg.inv(self.slopes.T @ self.slopes).astype(np.float64)
        return inverse

    @cached_property
    def narrowing(self) -> Array:
        """Width of every parameter's band as a share of the prior's."""
        return np.sqrt(np.diag(self.covariance))[: len(NAMES)]

    @property
    def resin(self) -> Resin:
        """The most likely resin."""
        return self.question.resin(self.deviates)

    @cached_property
    def blocks(self) -> list[Array]:
        """Residuals of each piece of evidence, in deviations."""
        return self.question.blocks(self.deviates)

    def spread(self, answer: Callable[[Resin], float]) -> tuple[float, float]:
        """Value of something that follows from the resin, and one standard deviation of it.

        Parameters
        ----------
        answer : callable
            From a resin to a number whose band is even on both sides.

        Returns
        -------
        tuple of float
            Value and standard deviation.
        """
        middle = answer(self.resin)
        slope = self.slope_of(answer, middle)
        inner = self.covariance[: slope.size, : slope.size]
        return middle, math.sqrt(max(float(slope @ inner @ slope), 0.0))

    def slope_of(self, answer: Callable[[Resin], float], middle: float) -> Array:
        """How an answer changes with the resin's unknowns, by differences."""
        n = len(NAMES)
        slope = np.empty(n)
        for i in range(n):
            moved = self.deviates.copy()
            moved[i] += 4 * STEP if moved[i] <= 0 else -4 * STEP
            slope[i] = (answer(self.question.resin(moved)) - middle) / (moved[i] - self.deviates[i])
        return slope


def fit(question: Question, progress: Progress = SILENT) -> Fit:
    """Find the most likely parameters.

    Parameters
    ----------
    question : Question
        Prior and evidence.
    progress : Progress
        Told how many slopes were taken.

    Returns
    -------
    Fit
        Most likely parameters with their slopes there; the same each time.

    Notes
    -----
    Least squares of the residuals and of the prior's own (maximum a posteriori for normal
    distributions), started from the best of a few speeds. Bands by Laplace's approximation.
    """
    eased = [question.eased(stage) for stage in range(STAGES)] if question.curved else []
    start = _best_start(eased[0] if eased else question)
    for number, each in enumerate(eased):
        progress.step("fitting", number, STAGES + 1)
        start = _descend(each, start)
    progress.step("fitting", len(eased), len(eased) + 1)
    best = _descend(question, start)
    return Fit(question, best, question.slopes(best, question.slopes(best)))


def settle(question: Question, progress: Progress = SILENT) -> Fit:
    """Fit, trust each curve as far as it was then matched, and fit again.

    Parameters
    ----------
    question : Question
        Prior and evidence.
    progress : Progress
        Told where it is.

    Returns
    -------
    Fit
        With bands as wide as the curves were missed, neighbours that are missed alike counted.

    Notes
    -----
    The factor is the root of (mean square) (1 + r) / (1 - r), r the correlation of neighbours:
    what is left of a series of n points when it wanders.
    """
    first = fit(question, progress)
    factors = [
        _missed(block) if each.own else 1.0
        for each, block in zip(question.evidence, first.blocks, strict=True)
    ]
    if all(factor == 1.0 for factor in factors):
        return first
    evidence = tuple(each.widened(factor) for each, factor in zip(question.evidence, factors, strict=True))
    again = Question(question.prior, evidence, question.density)
    best = _descend(again, first.deviates)
    return Fit(again, best, again.slopes(best, again.slopes(best)))


def _missed(block: Array) -> float:
    centred = block - block.mean()
    alike = float(centred[1:] @ centred[:-1]) / max(float(centred @ centred), 1e-12)
    alike = min(max(alike, 0.0), 0.95)
    spread = float(np.sqrt(np.mean(block**2) * (1 + alike) / (1 - alike)))
    return min(max(spread, LEAST_FACTOR), MOST_FACTOR)


def _descend(question: Question, start: Array) -> Array:
    near: Array | None = None

    def slopes(deviates: Array) -> Array:
        nonlocal near
        near = question.slopes(deviates, near)
        return near

    found = least_squares(
        question.residuals,
        start,
        jac=slopes,
        bounds=(-FARTHEST, FARTHEST),
        xtol=CLOSE,
        ftol=CLOSE**2,
        gtol=CLOSE,
        max_nfev=MOST_STEPS,
    )
    best: Array = found.x
    return best


def _best_start(question: Question) -> Array:
    """Try some speeds: far from the right one, a temperature curve shows no way towards it."""
    place = PLACE["speed"]
    best, least = np.zeros(question.size), np.inf
    for speed in TRIED_SPEEDS:
        tried = np.zeros(question.size)
        tried[place] = speed
        cost = float(np.sum(question.residuals(tried) ** 2))
        if cost < least:
            best, least = tried, cost
    return best


def refit(question: Question, start: Array, slopes: Array, *, steps: int = 12) -> Fit:
    """Fit again from a near answer, learning the slopes on the way instead of taking them anew.

    Parameters
    ----------
    question : Question
        Prior and evidence.
    start : array (n,)
        Near answer, in deviations.
    slopes : array (residuals, n)
        Of this question, there or near there.
    steps : int
        Most steps.

    Returns
    -------
    Fit

    Notes
    -----
    Levenberg-Marquardt with Broyden's update of the slopes.
    """
    at, slope = start.copy(), slopes.copy()
    here = question.residuals(at)
    damping = 1e-3
    for _ in range(steps):
        normal = slope.T @ slope + damping * np.eye(at.size)
        move = np.clip(np.linalg.solve(normal, -slope.T @ here), -1.5, 1.5)
        ahead = np.clip(at + move, -FARTHEST, FARTHEST)
        move = ahead - at
        length = float(move @ move)
        if length < CLOSE**2:
            break
        there = question.residuals(ahead)
        slope += np.outer(there - here - slope @ move, move) / length
        if there @ there < here @ here:
            at, here, damping = ahead, there, damping / 3
        else:
            damping *= 8
    return Fit(question, at, slope)
