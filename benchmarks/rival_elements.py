"""scikit-fem on the block that all codes are given: trilinear hexahedra, trapezoidal rule."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from scipy.sparse.linalg import LinearOperator, cg, splu
from skfem import Basis, BilinearForm, ElementHex1, FacetBasis, LinearForm, MeshHex
from skfem.helpers import dot, grad

from benchmarks.rival_block import FILM, MATTER, POINTS, SHOP, WARM, Array, Pace, kinds, lines, march


@dataclass(frozen=True)
class Setting:
    """What the sweep chooses from: factors kept for a step, or conjugate gradients after Jacobi."""

    solver: str = "cg"
    tolerance: float = 1e-6


@BilinearForm
def _stiffness(u: Any, v: Any, w: Any) -> Any:
    return w.value * dot(grad(u), grad(v))


@BilinearForm
def _mass(u: Any, v: Any, w: Any) -> Any:
    return w.value * u * v


@LinearForm
def _load(v: Any, w: Any) -> Any:
    return w.value * v


class Elements:
    """Unknown are the corners; heat is set free at the integration points."""

    def __init__(self, spacing: float, setting: Setting) -> None:
        self.setting = setting
        self.mesh = MeshHex.init_tensor(*lines(spacing))
        self.basis = Basis(self.mesh, ElementHex1(), intorder=2)
        kind = kinds(*self.mesh.p[:, self.mesh.t].mean(axis=1))
        points = self.basis.dx.shape[1]
        capacity, conductivity, self.heat = (
            np.repeat(MATTER[kind, column][:, None], points, axis=1) for column in range(3)
        )
        self.first = np.repeat(np.where(kind == 2, WARM, SHOP)[:, None], points, axis=1) * capacity
        bare = self.mesh.facets_satisfying(lambda x: (x[0] > 1e-9) & (x[1] > 1e-9), boundaries_only=True)
        sides = FacetBasis(self.mesh, ElementHex1(), facets=bare)
        ones = np.ones_like(sides.dx)
        self.mass = _mass.assemble(self.basis, value=capacity).tocsr()
        film = FILM * _mass.assemble(sides, value=ones)
        self.stiffness = (_stiffness.assemble(self.basis, value=conductivity) + film).tocsr()
        self.inflow = FILM * SHOP * _load.assemble(sides, value=ones)
        # values at integration points and back are products with one small matrix, kept once
        self.shapes = np.stack([self.basis.basis[n][0].value[0] for n in range(8)])
        self.size = self.mass.shape[0]
        self.slope = np.zeros(self.size)
        self.solvers: dict[float, Callable[[Array], Array]] = {}

    def load(self, values: Array) -> Array:
        """Integrals of values at the points against each corner's function."""
        parts = (values * self.basis.dx) @ self.shapes.T
        corners = self.basis.element_dofs.T.ravel()
        return np.asarray(np.bincount(corners, parts.ravel(), self.size), dtype=float)

    def at_points(self, corners: Array) -> Array:
        """Temperatures at the integration points of every element."""
        return np.asarray(corners[self.basis.element_dofs].T @ self.shapes)

    def begun(self) -> Array:
        """Corner temperatures of the same energy as the start."""
        return self._iterated(self.mass, self.load(self.first), None, 1e-10)

    def advance(self, temperature: Array, source: Array, step: float, *, backward: bool) -> Array:
        """As `rival_block.Conduction`; the source is given at the integration points."""
        share = step if backward else 0.5 * step
        flow = self.inflow + self.load(source) - self.stiffness @ temperature
        self.slope = self._solve(share, flow)
        return np.asarray(temperature + step * self.slope)

    def _solve(self, share: float, flow: Array) -> Array:
        if self.setting.solver == "factors":
            if share not in self.solvers:
                self.solvers = {share: splu((self.mass + share * self.stiffness).tocsc()).solve}
            return np.asarray(self.solvers[share](flow))
        system = self.mass + share * self.stiffness
        return self._iterated(system, flow, self.slope, self.setting.tolerance)

    @staticmethod
    def _iterated(system: Any, right: Array, first: Array | None, tolerance: float) -> Array:
        inverse = 1.0 / system.diagonal()
        precondition = LinearOperator(system.shape, matvec=lambda vector: inverse * vector, dtype=float)
        found, failed = cg(system, right, x0=first, rtol=tolerance, M=precondition)
        if failed:
            raise RuntimeError("conjugate gradients did not converge")
        return np.asarray(found)


def solve(spacing: float, pace: Pace, setting: Setting) -> tuple[Array, int]:
    """Highest temperatures at the points [K] and the number of steps."""
    code = Elements(spacing, setting)
    hottest, steps = march(code, code.begun(), code.heat, pace, code.at_points)
    found = []
    for point in POINTS:
        distance = np.abs(code.mesh.p - np.array(point)[:, None]).max(axis=0)
        found.append(hottest[int(distance.argmin())])
    return np.array(found), steps
