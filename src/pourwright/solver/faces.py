"""Bare faces: which there are, and what passes through them during a step."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.solver.coefficients import face_areas, half_resistances
from pourwright.solver.compilation import kernel
from pourwright.solver.problem import Array, Exchange, Mask, Problem
from pourwright.solver.state import Field

Indices = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Patch:
    """All bare faces of one kind across one axis.

    Parameters
    ----------
    exchange : Exchange
        What goes on there.
    axis : int
        0, 1 or 2: the axis the faces look along.
    cells : array of int (n,)
        Flat index of the cell behind each face.
    places : array of int (n,)
        The same in the layout of the sweep along this axis.
    areas : array (n,)
        [m2].
    half : array (n,)
        Resistance from the cell's middle to its face [m2 K/W].
    """

    exchange: Exchange
    axis: int
    cells: Indices
    places: Indices
    areas: Array
    half: Array


def _neighbour(active: Mask, axis: int, side: int) -> tuple[Mask, Mask]:
    """Tell for every cell whether its neighbour on a side is empty, and whether it is off the grid."""
    here = np.moveaxis(active, axis, 0)
    empty = np.zeros_like(here)
    outside = np.zeros_like(here)
    if side > 0:
        empty[:-1] = here[:-1] & ~here[1:]
        outside[-1] = here[-1]
    else:
        empty[1:] = here[1:] & ~here[:-1]
        outside[0] = here[0]
    return np.moveaxis(empty, 0, axis), np.moveaxis(outside, 0, axis)


def _patch(
    problem: Problem, exchange: Exchange, axis: int, where: Mask, factor: Array | None
) -> Patch | None:
    if exchange.insulated or not where.any():
        return None
    cells = np.flatnonzero(where)
    _, ny, nz = problem.shape
    i, rest = np.divmod(cells, ny * nz)
    j, k = np.divmod(rest, nz)
    places = cells if axis < 2 else (i * nz + k) * ny + j
    areas = np.broadcast_to(face_areas(problem, axis), problem.shape).ravel()[cells]
    if factor is not None:
        areas = areas * factor.ravel()[cells]
    half = half_resistances(problem, axis).ravel()[cells]
    return Patch(exchange, axis, cells, places, np.ascontiguousarray(areas), half)


def find_patches(problem: Problem) -> tuple[Patch, ...]:
    """List the bare faces of a problem, insulated ones left out.

    Parameters
    ----------
    problem : Problem
        The grid and what it holds.

    Returns
    -------
    tuple of Patch
        In fixed order: axis, side, inner before outer.
    """
    surfaces = problem.surfaces
    outer = (
        (surfaces.x_low, surfaces.x_high),
        (surfaces.y_low, surfaces.y_high),
        (surfaces.z_low, surfaces.z_high),
    )
    found = []
    for axis in range(3):
        factor = problem.area_factor
        if factor is not None and factor.ndim == 4:
            factor = factor[axis]
        for number, side in enumerate((-1, 1)):
            empty, outside = _neighbour(problem.active, axis, side)
            vertical = (surfaces.down, surfaces.up)[number]
            inner = vertical if axis == 2 else surfaces.side
            found.append(_patch(problem, inner, axis, empty, factor))
            found.append(_patch(problem, outer[axis][number], axis, outside, None))
    return tuple(patch for patch in found if patch is not None)


def mean_over(exchange: Exchange, time: float, step: float) -> float:
    """Average the surroundings' temperature over a step by Simpson's rule [K]."""
    if not callable(exchange.surroundings):
        return float(exchange.surroundings)
    ends = exchange.temperature(time) + exchange.temperature(time + step)
    return (ends + 4.0 * exchange.temperature(time + 0.5 * step)) / 6.0


def transmittance(patch: Patch, cell_temperature: Array, surroundings: float) -> Array:
    """Combine half cell, resistance and film in series [W/(m2 K)].

    A film that depends on the surface's temperature is met by three passes of fixed-point
    iteration, which converges because most of the resistance lies in the film.

    Parameters
    ----------
    patch : Patch
        The faces.
    cell_temperature : array (n,)
        Temperature in the cells' middles [K].
    surroundings : float
        [K].

    Returns
    -------
    array (n,)
    """
    film = patch.exchange.film
    inside = patch.half + patch.exchange.resistance
    if not callable(film):
        return np.asarray(1.0 / (inside + 1.0 / film))
    surface = cell_temperature
    for _ in range(3):
        coefficient = np.maximum(film(surface, surroundings), 1e-9)
        combined = 1.0 / (inside + 1.0 / coefficient)
        surface = surroundings + (cell_temperature - surroundings) * combined / coefficient
    return np.asarray(combined)


@kernel
def _spread(cells, places, areas, combined, surroundings, temperature, loss, power):  # type: ignore[no-untyped-def]
    total = 0.0
    for n in range(cells.size):
        conductance = areas[n] * combined[n]
        loss[places[n]] += conductance
        flow = conductance * (surroundings - temperature[cells[n]])
        power[cells[n]] += flow
        total += flow
    return total


@kernel
def _clear(cells, places, loss, power):  # type: ignore[no-untyped-def]
    for n in range(cells.size):
        loss[places[n]] = 0.0
        power[cells[n]] = 0.0


class Exchanger:
    """Keeps the conductance of bare faces per cell and axis, and the power that enters at a step's start.

    Parameters
    ----------
    problem : Problem
        The grid and what it holds.
    """

    def __init__(self, problem: Problem) -> None:
        nx, ny, nz = problem.shape
        self.patches = find_patches(problem)
        self.loss = (np.zeros((nx, ny, nz)), np.zeros((nx, ny, nz)), np.zeros((nx, nz, ny)))
        self.power = np.zeros((nx, ny, nz))
        self._constant = {
            number: transmittance(patch, patch.half, 0.0)
            for number, patch in enumerate(self.patches)
            if not callable(patch.exchange.film)
        }

    def prepare(
        self, time: float, step: float, field: Field, rate: Callable[[Indices], Array] | None = None
    ) -> float:
        """Set loss and power for a step.

        Parameters
        ----------
        time, step : float
            [s].
        field : Field
            Flat, at the step's start.
        rate : callable
            Gives the expected rate of change [K/s] of cells by flat index, so that films
            are evaluated in the middle of the step.

        Returns
        -------
        float
            Power entering through all bare faces at the step's start [W].
        """
        power = self.power.reshape(-1)
        for patch in self.patches:
            _clear(patch.cells, patch.places, self.loss[patch.axis].reshape(-1), power)
        total = 0.0
        for number, patch in enumerate(self.patches):
            outside = mean_over(patch.exchange, time, step)
            combined = self._constant.get(number)
            if combined is None:
                ahead = field.temperature[patch.cells]
                if rate is not None:
                    ahead = ahead + 0.5 * step * rate(patch.cells)
                combined = transmittance(patch, ahead, outside)
            loss = self.loss[patch.axis].reshape(-1)
            total += _spread(
                patch.cells, patch.places, patch.areas, combined, outside, field.mean, loss, power
            )
        return total
