"""Heat and cure by trilinear finite elements of scikit-fem and Crank-Nicolson, to compare with."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from scipy.sparse import csr_array, diags_array
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
class Side:
    """Bare faces of one kind: film [W/(m2 K)], surroundings [K] by time [s], which faces by their middles."""

    film: float
    surroundings: Callable[[float], float]
    bare: Callable[[Array], Array]


@dataclass
class Stage:
    """What is there for a while: elements, their properties, faces with a film."""

    elements: Array
    capacity: Array
    conductivity: Array
    heat: Array
    sides: tuple[Side, ...]


@dataclass
class Seen:
    """Corner temperatures and cure at the end, highest of each corner, and corners at asked moments."""

    corners: Array
    cure: Array
    hottest: Array
    moments: list[Array]


class Elements:
    """One stage on a mesh; unknown are the corners of its elements."""

    def __init__(self, mesh: MeshHex, stage: Stage, rate: Callable[[Array, Array], Array]) -> None:
        self.stage, self.rate = stage, rate
        self.basis = Basis(mesh, ElementHex1(), elements=stage.elements, intorder=2)
        points = self.basis.dx.shape[1]
        self.heat = np.repeat(stage.heat[:, None], points, axis=1)
        self.free = np.unique(self.basis.element_dofs)
        stiffness = _stiffness.assemble(self.basis, value=self._spread(stage.conductivity))
        mass = _mass.assemble(self.basis, value=self._spread(stage.capacity))
        self.loads = []
        for side in stage.sides:
            edge = FacetBasis(mesh, ElementHex1(), facets=self._bare_faces(mesh, side))
            value = np.full_like(edge.dx, side.film)
            stiffness = stiffness + _mass.assemble(edge, value=value)
            self.loads.append(_load.assemble(edge, value=value)[self.free])
        self.mass, self.stiffness = self._kept(mass), self._kept(stiffness)
        # from corners to the elements' points, and its transpose, which gathers a load: once, not every step
        self.reading = self._shapes()
        self.gathering = (self.reading.T @ diags_array(self.basis.dx.ravel())).tocsr()

    def _shapes(self) -> csr_array:
        """Value at every point of the function of every free corner."""
        elements, points = self.basis.dx.shape
        rows = np.arange(elements * points).reshape(elements, points)
        number = np.full(self.basis.N, -1)
        number[self.free] = np.arange(self.free.size)
        entries = [
            (
                np.broadcast_to(np.asarray(field), rows.shape),
                rows,
                np.repeat(number[dofs][:, None], points, axis=1),
            )
            for (field,), dofs in zip(self.basis.basis, self.basis.element_dofs, strict=True)
        ]
        values, at, corners = (np.concatenate([each[n].ravel() for each in entries]) for n in range(3))
        return csr_array((values, (at, corners)), shape=(rows.size, self.free.size))

    def _spread(self, values: Array) -> Array:
        return np.repeat(values[:, None], self.basis.dx.shape[1], axis=1)

    def _kept(self, matrix: Any) -> Any:
        return matrix.tocsc()[self.free][:, self.free]

    def _bare_faces(self, mesh: MeshHex, side: Side) -> Array:
        there = np.zeros(mesh.nelements + 1, dtype=bool)
        there[self.stage.elements] = True
        single = there[mesh.f2t[0]] ^ there[np.where(mesh.f2t[1] < 0, mesh.nelements, mesh.f2t[1])]
        middle = mesh.p[:, mesh.facets].mean(axis=1)
        return np.flatnonzero(single & side.bare(middle))

    def projected(self, values: Array) -> Array:
        """Corner temperatures of the same energy as values at the elements' points."""
        weighted = self._spread(self.stage.capacity) * values
        return np.asarray(splu(self.mass).solve(self.gathering @ weighted.ravel()))

    def at_points(self, corners: Array) -> Array:
        """Temperature at the elements' points."""
        return np.asarray((self.reading @ corners).reshape(self.basis.dx.shape))

    def _warmth(self, time: float) -> Array:
        """Load by the surroundings [W] of every corner."""
        pairs = zip(self.stage.sides, self.loads, strict=True)
        return np.asarray(sum(side.surroundings(time) * load for side, load in pairs))

    def run(
        self,
        corners: Array,
        cure: Array,
        begin: float,
        end: float,
        step: float,
        moments: tuple[float, ...] = (),
    ) -> Seen:
        """Follow from one time to another in steps that hit every asked moment."""
        hottest, before, time = corners.copy(), None, begin
        seen: list[Array] = []
        solver = splu((self.mass + 0.5 * step * self.stiffness).tocsc(), permc_spec="MMD_AT_PLUS_A")
        reacting = self.heat[:, 0] > 0.0
        last_rate = self.rate(self.at_points(corners)[reacting], cure[reacting])
        plan = [0.5 * step] * BACKWARD_STEPS + [step] * round((end - begin) / step - 0.5 * BACKWARD_STEPS)
        for number, length in enumerate(plan):
            backward = number < BACKWARD_STEPS
            ahead = corners if before is None else corners + 0.5 * (corners - before)
            middle = np.minimum(cure[reacting] + 0.5 * length * last_rate, 1.0)
            last_rate = self.rate(self.at_points(ahead)[reacting], middle)
            cure[reacting] = np.minimum(cure[reacting] + length * last_rate, 1.0)
            source = np.zeros_like(self.heat)
            source[reacting] = self.heat[reacting] * last_rate
            known = self.gathering @ source.ravel()
            known += self._warmth(time + (length if backward else 0.5 * length))
            right = self.mass @ corners + length * known
            if not backward:
                right -= 0.5 * length * (self.stiffness @ corners)
            before, corners, time = corners, solver.solve(right), time + length
            hottest = np.maximum(hottest, corners)
            if any(abs(time - moment) < 1e-6 for moment in moments):
                seen.append(corners)
        return Seen(corners, cure, hottest, seen)
