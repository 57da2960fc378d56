"""From properties per cell to capacities and conductances between cells."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from pourwright.solver.problem import Array, Mask, Problem


class Coefficients(NamedTuple):
    """Matter on the grid as the sweeps want it; the `_turned` twins have y last for sweeps along z.

    Parameters
    ----------
    capacity : array (nx, ny, nz)
        Heat capacity of the cell [J/K]; 1 in cells that are empty.
    along_x : array (nx + 1, ny, nz)
        Conductance between a cell and the one before it [W/K]; 0 at the ends and towards empty cells.
    along_y : array (nx, ny + 1, nz)
        The same along y.
    along_z : array (nx, ny, nz + 1)
        The same along z.
    rise : array (nx, ny, nz)
        Adiabatic rise per unit of conversion [K].
    """

    capacity: Array
    along_x: Array
    along_y: Array
    along_z: Array
    capacity_turned: Array
    along_z_turned: Array
    rise: Array


def turned(array: Array) -> Array:
    """Copy an array with its last two axes exchanged.

    Parameters
    ----------
    array : array (nx, ny, nz)
        Any.

    Returns
    -------
    array (nx, nz, ny)
        Contiguous, so that sweeps along z run over neighbouring lines.
    """
    return np.ascontiguousarray(array.transpose(0, 2, 1))


def in_series(share: Array, inside: float | Array, outside: float | Array) -> Array:
    """Conductivity of cells that a face between two materials runs through: their parts in series.

    Right for heat that crosses the face, which is what matters where a body warms its surroundings.

    Parameters
    ----------
    share : array (nx, ny, nz)
        Of the cell on the inner side [-].
    inside, outside : float or array
        Conductivities on both sides [W/(m K)].

    Returns
    -------
    array (nx, ny, nz)
        [W/(m K)]. Equation: 1 / (share / inside + (1 - share) / outside).

    Examples
    --------
    >>> in_series(np.array([1.0, 0.5, 0.0]), 0.3, 0.15).round(3).tolist()
    [0.3, 0.2, 0.15]
    """
    return np.asarray(1.0 / (share / inside + (1.0 - share) / outside))


def half_resistances(problem: Problem, axis: int) -> Array:
    """Compute the resistance from every cell's middle to its face across an axis.

    Parameters
    ----------
    problem : Problem
        The grid and what it holds.
    axis : int
        0, 1 or 2.

    Returns
    -------
    array (nx, ny, nz)
        [m2 K/W]; half the spacing over the conductivity.
    """
    shape = [1, 1, 1]
    shape[axis] = -1
    spacing = np.diff((problem.x, problem.y, problem.z)[axis]).reshape(shape)
    conductivity = np.where(problem.active, problem.conductivity, 1.0)
    return np.asarray(spacing / (2.0 * conductivity))


def face_areas(problem: Problem, axis: int) -> Array:
    """Compute the area of the cells' faces across an axis.

    Parameters
    ----------
    problem : Problem
        The grid and what it holds.
    axis : int
        0, 1 or 2.

    Returns
    -------
    array
        [m2]; as the grid, but one entry long along the axis.
    """
    spacings = [np.diff(edges) for edges in (problem.x, problem.y, problem.z)]
    spacings[axis] = np.ones(1)
    dx, dy, dz = spacings
    return np.asarray(dx[:, None, None] * dy[None, :, None] * dz[None, None, :])


def _conductance(problem: Problem, axis: int) -> Array:
    half = np.moveaxis(half_resistances(problem, axis), axis, 0)
    active: Mask = np.moveaxis(problem.active, axis, 0)
    area = np.moveaxis(face_areas(problem, axis), axis, 0)
    n = half.shape[0]
    result = np.zeros((n + 1, *half.shape[1:]))
    # nothing passes to an empty cell: what its bare faces let out is the exchange's affair
    between = active[1:] & active[:-1]
    result[1:-1] = np.where(between, area / (half[1:] + half[:-1]), 0.0)
    if problem.cut is not None:
        result *= np.moveaxis(problem.cut.opened(axis), axis, 0)
    return np.ascontiguousarray(np.moveaxis(result, 0, axis))


def lay_out(problem: Problem) -> Coefficients:
    """Compute capacities and conductances.

    Two half cells in series: the harmonic mean of the conductivities, weighted by half spacings.

    Parameters
    ----------
    problem : Problem
        The grid and what it holds.

    Returns
    -------
    Coefficients
    """
    active = problem.active
    held = np.where(active, problem.volumetric_heat_capacity, 1.0)
    # 1, not 0: sweeps run over holes in a row and divide by it
    capacity = np.where(active, held * problem.cell_volumes, 1.0)
    x, y, z = (_conductance(problem, axis) for axis in range(3))
    rise = np.where(problem.reacting, problem.heat / held, 0.0)
    return Coefficients(capacity, x, y, z, turned(capacity), turned(z), rise)
