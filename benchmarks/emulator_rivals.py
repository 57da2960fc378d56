"""Other ways to learn an answer from runs, for `bench_emulator`: each fits and predicts in one call."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from itertools import combinations, permutations
from unittest.mock import patch

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import least_squares

from pourwright.solver import emulator

Array = NDArray[np.float64]
Rival = Callable[[Array, Array, Array], Array]
HIGHEST = 4
STIFFNESS = 1e-2


def line(runs: Array, values: Array, asked: Array) -> Array:
    """A straight line through all inputs, by least squares."""
    before, after = (np.column_stack([np.ones(len(x)), x]) for x in (runs, asked))
    found: Array = after @ np.linalg.lstsq(before, values, rcond=None)[0]
    return found


def _terms(points: Array, degree: int) -> Iterator[Array]:
    """Hermite polynomials: single inputs up to the fourth degree, products up to the degree asked."""
    yield np.ones(len(points))
    x = points.T
    single = {1: x, 2: (x**2 - 1) / 2**0.5, 3: (x**3 - 3 * x) / 6**0.5, 4: (x**4 - 6 * x**2 + 3) / 24**0.5}
    for power in range(1, HIGHEST + 1):
        yield from single[power]
    yield from (x[i] * x[j] for i, j in combinations(range(len(x)), 2))
    if degree > 2:
        yield from (single[2][i] * x[j] for i, j in permutations(range(len(x)), 2))


def chaos(runs: Array, values: Array, asked: Array, degree: int) -> Array:
    """Sparse polynomial chaos: the best term is added until leaving one out gets no better.

    The usual recipe for few runs: orthogonal matching pursuit, stopped by the corrected error of
    leaving one out (Blatman & Sudret 2011, from memory).
    """
    basis, count = np.column_stack(list(_terms(runs, degree))), len(runs)
    chosen, best, least = [0], [0], np.inf
    while len(chosen) <= count // 2:
        part, _ = np.linalg.qr(basis[:, chosen])
        left = values - part @ (part.T @ values)
        alone = left / (1.0 - (part**2).sum(axis=1))
        error = float(np.mean(alone**2)) * count / (count - len(chosen))
        if error < least:
            best, least = list(chosen), error
        new = basis - part @ (part.T @ basis)
        size = np.linalg.norm(new, axis=0)
        fresh = size > 1e-6 * np.linalg.norm(basis, axis=0)
        gain = np.where(fresh, np.abs(new.T @ left) / np.maximum(size, 1e-12), 0.0)
        gain[chosen] = 0.0
        chosen.append(int(gain.argmax()))
    weights = np.linalg.lstsq(basis[:, best], values, rcond=None)[0]
    found: Array = np.column_stack(list(_terms(asked, degree)))[:, best] @ weights
    return found


def direction(runs: Array, values: Array, asked: Array) -> Array:
    """One leading direction of all inputs, and a polynomial of the fourth degree along it."""
    middle, scale = values.mean(), values.std()
    even, n = (values - middle) / scale, runs.shape[1]
    start = np.linalg.lstsq(np.column_stack([np.ones(len(runs)), runs]), even, rcond=None)[0][1:]

    def along(row: Array, points: Array) -> Array:
        place, bent = points @ row[:n], row[n:]
        curve = np.polynomial.hermite_e.hermeval(place, np.concatenate([bent[:1], [0.0], bent[1:]]))
        return np.asarray(place + curve)

    def missed(row: Array) -> Array:
        return np.concatenate([along(row, runs) - even, STIFFNESS * len(runs) ** 0.5 * row])

    found = least_squares(missed, np.concatenate([start, np.zeros(HIGHEST)])).x
    return np.asarray(middle + scale * along(found, asked))


def process(runs: Array, values: Array, asked: Array) -> Array:
    """The emulator without its bowed part and its direction: a usual Gaussian process."""
    tight = emulator.TIGHT
    usual = emulator.Habit((1.0, 1e-12, 1e-12, 0.3, 1e-3), (1.5, tight, tight, 1.5, 2.0))
    with patch.object(emulator, "HABITS", (usual,)):
        return emulator.fit(runs, values).predict(asked)


def bent(runs: Array, values: Array, asked: Array) -> Array:
    """The emulator's second half alone: a process with a bowed part and its direction."""
    with patch.object(emulator, "HABITS", emulator.HABITS[1:]):
        return emulator.fit(runs, values).predict(asked)


def kept(runs: Array, values: Array, asked: Array) -> Array:
    """The emulator as it is."""
    return emulator.fit(runs, values).predict(asked)


RIVALS: dict[str, Rival] = {
    "straight line": line,
    "polynomial chaos, degree 2": partial(chaos, degree=2),
    "polynomial chaos, degree 3": partial(chaos, degree=3),
    "one direction, degree 4": direction,
    "Gaussian process": process,
    "the same, with a direction": bent,
    "kept: mean of two": kept,
}
