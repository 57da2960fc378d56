"""The problem that all codes are given: a quarter of a block of casting in rubber on board, poured at once.

Symmetric about x = 0 and y = 0; films at the other sides, above and below. Invented numbers. A code is
judged by the highest temperatures at three points inside the casting, on corners of every mesh's cells.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

WIDE, HIGH = 0.06, 0.12
BOARD, RUBBER = 0.02, 0.04
SHOP, WARM, FILM, HOURS = 294.15, 303.15, 9.0, 5.0
SEED = 1e-3
GAS = 8.314462618
RESIN = np.array([2.4e5, 60e3, 8.8e5, 55e3, 0.6, 1.8])
# capacity [J/(m3 K)], conductivity [W/(m K)], heat [J/m3] of board, rubber, casting
MATTER = np.array([[1.1e6, 0.15, 0.0], [1.6e6, 0.25, 0.0], [2.0e6, 0.35, 2.2e8]])
POINTS = ((0.0, 0.0, 0.08), (0.02, 0.02, 0.06), (0.02, 0.0, 0.10))


def lines(spacing: float) -> list[Array]:
    """Edges of the cells along x, y, z [m]."""
    return [np.linspace(0.0, size, round(size / spacing) + 1) for size in (WIDE, WIDE, HIGH)]


def kinds(x: Array, y: Array, z: Array) -> NDArray[np.int64]:
    """0 board, 1 rubber, 2 casting."""
    outside = (x > RUBBER) | (y > RUBBER) | (z < RUBBER)
    return np.where(z < BOARD, 0, np.where(outside, 1, 2))


def cells(spacing: float) -> NDArray[np.int64]:
    """What each cell of a mesh holds."""
    middles = [0.5 * (edges[1:] + edges[:-1]) for edges in lines(spacing)]
    return kinds(*np.meshgrid(*middles, indexing="ij"))


def rate(temperature: Array, cure: Array) -> Array:
    """Kamal-Sourour rate [1/s]."""
    heat = GAS * temperature
    a1, e1, a2, e2, m, n = RESIN
    held = np.minimum(cure, 1.0)
    return np.asarray((a1 * np.exp(-e1 / heat) + a2 * np.exp(-e2 / heat) * held**m) * (1.0 - held) ** n)


def at_corner(values: Array, spacing: float) -> Array:
    """Values at the points, from cells by cubic interpolation; mirrored at the planes of symmetry."""
    mirrored = np.pad(values, ((2, 0), (2, 0), (0, 0)), mode="symmetric")
    weights = np.array([-1.0, 9.0, 9.0, -1.0]) / 16.0
    found = []
    for point in POINTS:
        i, j, k = (round(place / spacing) for place in point)
        near = mirrored[i : i + 4, j : j + 4, k - 2 : k + 2]
        found.append(np.einsum("abc,a,b,c->", near, weights, weights, weights))
    return np.array(found)


class Conduction(Protocol):
    """A code's linear step: conduction of known temperatures with a known source."""

    def advance(self, temperature: Array, source: Array, step: float, *, backward: bool) -> Array:
        """Temperatures after a step; by backward Euler, or by the trapezoidal rule."""


@dataclass
class Pace:
    """How to step: by a fixed step [s], or following a tolerance [K] from a first step on."""

    value: float
    follows: bool
    growth: float = 1.6
    longest: float = 900.0

    def first(self) -> float:
        """First step [s]."""
        return 5.0 if self.follows else self.value

    def next(self, step: float, miss: float) -> float:
        """Step after one that missed its linear forecast by so much [K]."""
        if not self.follows:
            return step
        factor = 0.9 * np.sqrt(self.value / max(miss, 1e-12))
        return float(min(step * min(max(factor, 0.3), self.growth), self.longest))


START_STEPS = 4
"""Backward Euler steps after the start, so that the trapezoidal rule does not ring."""


def march(
    code: Conduction, temperature: Array, heat: Array, pace: Pace, sample: Callable[[Array], Array]
) -> tuple[Array, int]:
    """Follow heat and cure, both of order two; highest temperatures and the number of steps.

    The rate is taken in the middle of the step, at a temperature forecast by the last one; it serves
    any code, so that all of the others step alike. `sample` gives temperatures where heat is.
    """
    reacting = heat > 0.0
    cure = np.where(reacting, SEED, 0.0)[reacting]
    hottest, before = temperature.copy(), temperature
    last_rate = rate(sample(temperature)[reacting], cure)
    time, step, last, count, end = 0.0, pace.first(), pace.first(), 0, HOURS * 3600.0
    source = np.zeros_like(heat)
    while time < end * (1.0 - 1e-12):
        step = min(step, end - time)
        slope = (temperature - before) / last
        ahead = temperature + 0.5 * step * slope
        middle = np.minimum(cure + 0.5 * step * last_rate, 1.0)
        now_rate = rate(sample(ahead)[reacting], middle)
        source[reacting] = heat[reacting] * now_rate
        new = code.advance(temperature, source, step, backward=count < START_STEPS)
        miss = float(np.abs(new - temperature - step * slope).max())
        if pace.follows and miss > 2.5 * pace.value and count >= START_STEPS and step > 1.0:
            step = pace.next(step, miss)
            continue
        cure = np.minimum(cure + step * now_rate, 1.0)
        last_rate, before, temperature, last = now_rate, temperature, new, step
        hottest = np.maximum(hottest, new)
        time += step
        count += 1
        step = pace.next(step, miss)
    return hottest, count
