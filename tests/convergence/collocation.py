"""Layers that cure, by Chebyshev collocation and an ordinary solver of stiff equations, to compare with."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from scipy.integrate import solve_ivp
from scipy.interpolate import BarycentricInterpolator
from scipy.linalg import block_diag

Array = np.ndarray


@dataclass(frozen=True)
class Layer:
    """One material: thickness [m], capacity [J/(m3 K)], conductivity [W/(m K)], heat [J/m3]."""

    thickness: float
    capacity: float
    conductivity: float
    heat: float = 0.0


def chebyshev(count: int, length: float) -> tuple[Array, Array]:
    """Points from 0 to length and the matrix that differentiates at them.

    Source: Trefethen, Spectral Methods in MATLAB, SIAM 2000, chapter 6 (citation from memory).
    """
    k = np.arange(count + 1)
    points = 0.5 * length * (1.0 - np.cos(np.pi * k / count))
    weights = np.where((k == 0) | (k == count), 2.0, 1.0) * (-1.0) ** k
    gaps = points[:, None] - points[None, :] + np.eye(count + 1)
    matrix = np.outer(weights, 1.0 / weights) / gaps
    return points, matrix - np.diag(matrix.sum(axis=1))


class Layers:
    """Layers from a plane of symmetry to a face with a film; unknown are the points inside each layer."""

    def __init__(
        self,
        layers: Sequence[Layer],
        film: float,
        air: float,
        rate: Callable[[Array, Array], Array],
        count: int,
    ) -> None:
        self.layers, self.rate = layers, rate
        made = [chebyshev(count, layer.thickness) for layer in layers]
        offsets = np.cumsum([0.0, *[layer.thickness for layer in layers]])
        self.points = [offset + points for offset, (points, _) in zip(offsets, made, strict=False)]
        self.size = count + 1
        slopes = block_diag(*[matrix for _, matrix in made])
        curves = block_diag(*[matrix @ matrix for _, matrix in made])
        edges = [n * self.size + end for n in range(len(layers)) for end in (0, count)]
        self.inner = np.setdiff1d(np.arange(slopes.shape[0]), edges)
        held, known = self._conditions(slopes, film, air)
        # values at all points from those inside: whole = lift @ inside + rest
        solved = np.linalg.solve(held[:, edges], np.column_stack([-held[:, self.inner], known]))
        self.lift, self.rest = np.zeros((slopes.shape[0], self.inner.size)), np.zeros(slopes.shape[0])
        self.lift[self.inner, np.arange(self.inner.size)] = 1.0
        self.lift[edges], self.rest[edges] = solved[:, :-1], solved[:, -1]
        diffusivity = self._each([layer.conductivity / layer.capacity for layer in layers])
        self.matrix = diffusivity[:, None] * (curves @ self.lift)[self.inner]
        self.vector = diffusivity * (curves @ self.rest)[self.inner]
        self.rise = self._each([layer.heat / layer.capacity for layer in layers])

    def _each(self, values: list[float]) -> Array:
        return np.repeat(values, self.size)[self.inner]

    def _conditions(self, slopes: Array, film: float, air: float) -> tuple[Array, Array]:
        """Symmetry, equal temperature and flux at every border, film at the end."""
        size, n = self.size, len(self.layers)
        rows = [slopes[0]]
        for left in range(n - 1):
            a, b = (left + 1) * size - 1, (left + 1) * size
            same = np.zeros(slopes.shape[0])
            same[a], same[b] = 1.0, -1.0
            here, there = self.layers[left].conductivity, self.layers[left + 1].conductivity
            rows += [same, here * slopes[a] - there * slopes[b]]
        last = self.layers[-1].conductivity * slopes[-1]
        last[-1] += film
        known = np.zeros(len(rows) + 1)
        known[-1] = film * air
        return np.array([*rows, last]), known

    def run(self, temperature: float, cured: float, until: float) -> Any:
        """Follow from a uniform start; gives scipy's dense solution of inner temperatures and cures."""
        n, reacts = self.inner.size, self.rise > 0.0

        def slopes(_time: float, both: Array) -> Array:
            rates = np.zeros(n)
            rates[reacts] = self.rate(both[:n][reacts], np.clip(both[n:][reacts], 0.0, 1.0))
            return np.concatenate([self.matrix @ both[:n] + self.vector + self.rise * rates, rates])

        first = np.concatenate([np.full(n, temperature), np.where(reacts, cured, 0.0)])
        tight: dict[str, Any] = {"method": "LSODA", "rtol": 1e-9, "atol": 1e-9, "dense_output": True}
        return solve_ivp(slopes, (0.0, until), first, **tight).sol

    def middle(self, both: Array) -> Array:
        """Temperature on the plane of symmetry of a solution's values at several times."""
        return np.asarray(self.lift[0] @ both[: self.inner.size] + self.rest[0])

    def at(self, places: Array, both: Array) -> Array:
        """Temperature at places [m] of a solution's values at one time."""
        whole = (self.lift @ both[: self.inner.size] + self.rest).reshape(len(self.layers), -1)
        result = np.empty(places.size)
        for points, values in zip(self.points, whole, strict=True):
            here = (places >= points[0] - 1e-12) & (places <= points[-1] + 1e-12)
            result[here] = BarycentricInterpolator(points, values)(places[here])
        return result
