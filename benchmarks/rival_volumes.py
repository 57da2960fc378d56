"""Finite volumes by scipy: sparse matrix, implicit steps, conjugate gradients with a preconditioner."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from scipy.sparse import csr_array, diags_array
from scipy.sparse.linalg import LinearOperator, cg, spilu

from benchmarks.rival_block import FILM, MATTER, SHOP, WARM, Array, Pace, at_corner, cells, lines, march


@dataclass(frozen=True)
class Setting:
    """What the sweep chooses from."""

    preconditioner: str = "jacobi"
    tolerance: float = 1e-6
    matrix: str = "csr"


def conduction_matrix(spacing: float) -> tuple[csr_array, Array, Array]:
    """Matrix L [W/K] and inflow b [W] of C dT/dt = b - L T, and C [J/K]."""
    kind = cells(spacing)
    half = spacing / (2.0 * MATTER[kind, 1])
    shape, area = kind.shape, spacing**2
    number = np.arange(kind.size).reshape(shape)
    rows, columns, values = [], [], []
    diagonal, inflow = np.zeros(shape), np.zeros(shape)
    for axis in range(3):
        low = tuple(slice(None, -1) if a == axis else slice(None) for a in range(3))
        high = tuple(slice(1, None) if a == axis else slice(None) for a in range(3))
        flow = area / (half[low] + half[high])
        diagonal[low] += flow
        diagonal[high] += flow
        for one, other in ((low, high), (high, low)):
            rows.append(number[one].ravel())
            columns.append(number[other].ravel())
            values.append(-flow.ravel())
        for side in (0, -1):
            if axis < 2 and side == 0:
                continue  # a plane of symmetry
            face = tuple(side if a == axis else slice(None) for a in range(3))
            loss = area / (half[face] + 1.0 / FILM)
            diagonal[face] += loss
            inflow[face] += loss * SHOP
    rows.append(number.ravel())
    columns.append(number.ravel())
    values.append(diagonal.ravel())
    entries = np.concatenate(values), (np.concatenate(rows), np.concatenate(columns))
    return (
        csr_array(entries, shape=(kind.size, kind.size)),
        inflow.ravel(),
        MATTER[kind, 0].ravel() * spacing**3,
    )


def symmetric(factors: Any) -> Callable[[Array], Array]:
    """Mean of incomplete factors and their transpose, as conjugate gradients want a symmetric inverse."""
    return lambda vector: np.asarray(0.5 * (factors.solve(vector) + factors.solve(vector, "T")))


class Volumes:
    """Steps of the trapezoidal rule or backward Euler; starts its iteration from the last rate of change."""

    def __init__(self, spacing: float, setting: Setting) -> None:
        self.setting = setting
        self.matrix, self.inflow, self.capacity = conduction_matrix(spacing)
        self.volume = spacing**3
        self.diagonal = self.matrix.diagonal()
        self.off = (self.matrix - diags_array(self.diagonal)).asformat(setting.matrix)
        self.slope = np.zeros(self.capacity.size)
        self.made_for = 0.0
        self.kept: Callable[[Array], Array] | None = None

    def advance(self, temperature: Array, source: Array, step: float, *, backward: bool) -> Array:
        """As `rival_block.Conduction`; solves for the rate of change, whose size the tolerance heeds."""
        share = step if backward else 0.5 * step
        weight = self.capacity + share * self.diagonal
        flow = self.inflow - self.diagonal * temperature - self.off @ temperature + self.volume * source
        size = weight.size

        def product(vector: Array) -> Array:
            return np.asarray(weight * vector + share * (self.off @ vector))

        system = LinearOperator((size, size), matvec=product, dtype=float)
        inverse = self._preconditioner(weight, share)
        found, failed = cg(system, flow, x0=self.slope, rtol=self.setting.tolerance, M=inverse)
        if failed:
            raise ArithmeticError("conjugate gradients did not converge")
        self.slope = found
        return np.asarray(temperature + step * found)

    def _series(self, inverse: Array, share: float, vector: Array) -> Array:
        """Two terms of the inverse's series about the diagonal: one more product, fewer iterations."""
        first = inverse * vector
        return np.asarray(first - inverse * (share * (self.off @ first)))

    def _preconditioner(self, weight: Array, share: float) -> LinearOperator | None:
        size = weight.size
        if self.setting.preconditioner == "none":
            return None
        if self.setting.preconditioner == "jacobi":
            inverse = 1.0 / weight
            return LinearOperator((size, size), matvec=lambda vector: inverse * vector, dtype=float)
        if self.setting.preconditioner == "series":
            inverse = 1.0 / weight
            return LinearOperator((size, size), matvec=lambda vector: self._series(inverse, share, vector))
        if self.kept is None or not 0.6 < share / self.made_for < 1.6:
            whole = (diags_array(weight) + share * self.off).tocsc()
            factors = spilu(
                whole, drop_tol=1e-3, fill_factor=4.0, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0
            )
            self.kept, self.made_for = symmetric(factors), share
        return LinearOperator((size, size), matvec=self.kept, dtype=float)


def solve(spacing: float, pace: Pace, setting: Setting) -> tuple[Array, int]:
    """Highest temperatures at the points [K] and the number of steps."""
    kind = cells(spacing)
    first = np.where(kind == 2, WARM, SHOP).ravel()
    heat = MATTER[kind, 2].ravel()
    hottest, steps = march(Volumes(spacing, setting), first, heat, pace, lambda values: values)
    return at_corner(hottest.reshape(kind.shape), spacing), steps


def mesh_size(spacing: float) -> int:
    """Number of unknowns."""
    return int(np.prod([edges.size - 1 for edges in lines(spacing)]))
