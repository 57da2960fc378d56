"""FiPy on the block that all codes are given: finite volumes, its own matrix set-up and scipy's solvers.

Written as its manual says: harmonic conductivity at faces, films as implicit sources in the cells behind
bare faces, the trapezoidal rule as half an implicit and half an explicit diffusion term.
"""

from __future__ import annotations

import os
from dataclasses import dataclass
from typing import Any

import numpy as np

from benchmarks.rival_block import FILM, MATTER, SHOP, WARM, Array, Pace, at_corner, cells, lines, march

os.environ["FIPY_SOLVERS"] = "scipy"  # read when it is loaded

from fipy import (
    CellVariable,
    DiffusionTerm,
    ExplicitDiffusionTerm,
    Grid3D,
    ImplicitSourceTerm,
    TransientTerm,
)
from fipy.solvers import scipy as suite


@dataclass(frozen=True)
class Setting:
    """What the sweep chooses from."""

    solver: str = "cg-jacobi"
    tolerance: float = 1e-8


def solver(setting: Setting) -> Any:
    """One of FiPy's solvers."""
    if setting.solver == "lu":
        return suite.LinearLUSolver()
    before = {"cg": None, "cg-jacobi": suite.JacobiPreconditioner, "cg-ilu": suite.ILUPreconditioner}
    made = before[setting.solver]
    return suite.LinearCGSolver(tolerance=setting.tolerance, precon=made() if made else None)


class FiPy:
    """The block as a FiPy variable and two equations."""

    def __init__(self, spacing: float, setting: Setting) -> None:
        nx, ny, nz = (edges.size - 1 for edges in lines(spacing))
        mesh = Grid3D(nx=nx, ny=ny, nz=nz, dx=spacing, dy=spacing, dz=spacing)
        kind = flat(cells(spacing))
        self.solver = solver(setting)
        self.temperature = CellVariable(mesh=mesh, value=0.0)
        self.source = CellVariable(mesh=mesh, value=0.0)
        capacity = CellVariable(mesh=mesh, value=MATTER[kind, 0])
        conductivity = CellVariable(mesh=mesh, value=MATTER[kind, 1]).harmonicFaceValue
        film = CellVariable(mesh=mesh, value=flat(films(spacing)))
        start, given = TransientTerm(coeff=capacity), self.source + film * SHOP
        self.backward = start == DiffusionTerm(coeff=conductivity) - ImplicitSourceTerm(coeff=film) + given
        half = DiffusionTerm(coeff=0.5 * conductivity) + ExplicitDiffusionTerm(coeff=0.5 * conductivity)
        self.known = CellVariable(mesh=mesh, value=0.0)
        loss = ImplicitSourceTerm(coeff=0.5 * film) + 0.5 * film * self.known
        self.trapezoidal = start == half - loss + given

    def advance(self, temperature: Array, source: Array, step: float, *, backward: bool) -> Array:
        """As `rival_block.Conduction`."""
        self.temperature.setValue(temperature)
        self.known.setValue(temperature)
        self.source.setValue(source)
        equation = self.backward if backward else self.trapezoidal
        equation.solve(var=self.temperature, dt=step, solver=self.solver)
        return np.array(self.temperature.value)


def flat(values: Any) -> Any:
    """Values in FiPy's order: x runs fastest."""
    return np.ascontiguousarray(np.asarray(values).transpose(2, 1, 0)).ravel()


def films(spacing: float) -> Array:
    """Conductance of bare faces per volume of the cell behind them [W/(m3 K)]."""
    kind = cells(spacing)
    passed = 1.0 / (spacing / (2.0 * MATTER[kind, 1]) + 1.0 / FILM) / spacing
    total = np.zeros(kind.shape)
    for face in (np.s_[-1, :, :], np.s_[:, -1, :], np.s_[:, :, 0], np.s_[:, :, -1]):
        total[face] += passed[face]
    return total


def solve(spacing: float, pace: Pace, setting: Setting) -> tuple[Array, int]:
    """Highest temperatures at the points [K] and the number of steps."""
    kind = cells(spacing)
    first, heat = flat(np.where(kind == 2, WARM, SHOP)), flat(MATTER[kind, 2])
    hottest, steps = march(FiPy(spacing, setting), first, heat, pace, lambda values: values)
    shape = kind.shape[::-1]
    return at_corner(hottest.reshape(shape).transpose(2, 1, 0), spacing), steps
