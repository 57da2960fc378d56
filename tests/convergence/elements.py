"""Heat and cure by trilinear finite elements of scikit-fem and Crank-Nicolson, to compare with."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from scipy.sparse.linalg import splu
from skfem import Basis, BilinearForm, ElementHex1, FacetBasis, LinearForm, MeshHex
from skfem.helpers import dot, grad

Array = np.ndarray
BACKWARD_STEPS = 4
"""Half steps of backward Euler after a jump, so that Crank-Nicolson does not ring."""


@BilinearForm
def _stiffness(u: Any, v: Any, w: Any) -> Any:
    return w.value * dot(grad(u), grad(v))


@BilinearForm
def _mass(u: Any, v: Any, w: Any) -> Any:
    return w.value * u * v


@LinearForm
def _load(v: Any, w: Any) -> Any:
    return w.value * v


@dataclass
class Stage:
    """What is there for a while: elements, their properties, faces with a film."""

    elements: Array
    capacity: Array
    conductivity: Array
    heat: Array
    film: float
    surroundings: float
    bare: Callable[[Array], Array]


class Elements:
    """One stage on a mesh; unknown are the corners of its elements."""

    def __init__(self, mesh: MeshHex, stage: Stage, rate: Callable[[Array, Array], Array]) -> None:
        self.stage, self.rate = stage, rate
        self.basis = Basis(mesh, ElementHex1(), elements=stage.elements, intorder=2)
        points = self.basis.dx.shape[1]
        self.heat = np.repeat(stage.heat[:, None], points, axis=1)
        self.free = np.unique(self.basis.element_dofs)
        faces = self._bare_faces(mesh)
        sides = FacetBasis(mesh, ElementHex1(), facets=faces)
        ones = np.ones_like(sides.dx)
        stiffness = _stiffness.assemble(self.basis, value=self._spread(stage.conductivity))
        film = stage.film * _mass.assemble(sides, value=ones)
        mass = _mass.assemble(self.basis, value=self._spread(stage.capacity))
        self.mass, self.stiffness = (self._kept(each) for each in (mass, stiffness + film))
        self.warmth = stage.film * stage.surroundings * _load.assemble(sides, value=ones)[self.free]

    def _spread(self, values: Array) -> Array:
        return np.repeat(values[:, None], self.basis.dx.shape[1], axis=1)

    def _kept(self, matrix: Any) -> Any:
        return matrix.tocsc()[self.free][:, self.free]

    def _bare_faces(self, mesh: MeshHex) -> Array:
        there = np.zeros(mesh.nelements + 1, dtype=bool)
        there[self.stage.elements] = True
        single = there[mesh.f2t[0]] ^ there[np.where(mesh.f2t[1] < 0, mesh.nelements, mesh.f2t[1])]
        middle = mesh.p[:, mesh.facets].mean(axis=1)
        return np.flatnonzero(single & self.stage.bare(middle))

    def projected(self, values: Array) -> Array:
        """Corner temperatures of the same energy as values at the elements' points."""
        weighted = self._spread(self.stage.capacity) * values
        return np.asarray(splu(self.mass).solve(_load.assemble(self.basis, value=weighted)[self.free]))

    def at_points(self, corners: Array) -> Array:
        """Temperature at the elements' points."""
        whole = np.zeros(self.basis.N)
        whole[self.free] = corners
        return np.asarray(self.basis.interpolate(whole))

    def run(self, corners: Array, cure: Array, duration: float, step: float) -> tuple[Array, Array, Array]:
        """Corner temperatures and cure at the end, and the highest temperature of each corner."""
        hottest, before = corners.copy(), None
        solvers = {half: splu((self.mass + half * self.stiffness).tocsc()) for half in (0.5 * step,)}
        reacting = self.heat[:, 0] > 0.0
        last_rate = self.rate(self.at_points(corners)[reacting], cure[reacting])
        plan = [0.5 * step] * BACKWARD_STEPS + [step] * round(duration / step - 0.5 * BACKWARD_STEPS)
        for number, length in enumerate(plan):
            backward = number < BACKWARD_STEPS
            ahead = corners if before is None else corners + 0.5 * (corners - before)
            middle = np.minimum(cure[reacting] + 0.5 * length * last_rate, 1.0)
            last_rate = self.rate(self.at_points(ahead)[reacting], middle)
            cure[reacting] = np.minimum(cure[reacting] + length * last_rate, 1.0)
            source = np.zeros_like(self.heat)
            source[reacting] = self.heat[reacting] * last_rate
            known = _load.assemble(self.basis, value=source)[self.free] + self.warmth
            right = self.mass @ corners + length * known
            if not backward:
                right -= 0.5 * length * (self.stiffness @ corners)
            before, corners = corners, solvers[0.5 * step].solve(right)
            hottest = np.maximum(hottest, corners)
        return corners, cure, hottest
