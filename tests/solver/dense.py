"""The same equations set down once more as dense matrices, for tiny grids only."""

from __future__ import annotations

from typing import Any

import numpy as np
from scipy.integrate import solve_ivp
from scipy.linalg import expm

from pourwright.solver import Exchange, Problem

Array = np.ndarray
SIDES = (("x_low", "x_high"), ("y_low", "y_high"), ("z_low", "z_high"))


def outer_conductance(exchange: Exchange, half: float) -> float:
    """Film and half cell in series [W/(m2 K)]."""
    if exchange.film == 0.0:
        return 0.0
    return 1.0 / (half + exchange.resistance + 1.0 / exchange.film)


def system(problem: Problem) -> tuple[Array, Array]:
    """Matrix A [1/s] and vector b [K/s] of dT/dt = A T + b, cell by cell and face by face."""
    shape = problem.shape
    spacings = [np.diff(edges) for edges in (problem.x, problem.y, problem.z)]
    number = np.arange(np.prod(shape)).reshape(shape)
    matrix, vector = np.zeros((number.size, number.size)), np.zeros(number.size)
    for cell in np.ndindex(*shape):
        size = [spacings[axis][cell[axis]] for axis in range(3)]
        here = number[cell]
        weight = problem.volumetric_heat_capacity[cell] * size[0] * size[1] * size[2]
        for axis, side in [(axis, side) for axis in range(3) for side in (0, 1)]:
            area = size[0] * size[1] * size[2] / size[axis]
            half = size[axis] / (2.0 * problem.conductivity[cell])
            other = list(cell)
            other[axis] += 2 * side - 1
            if 0 <= other[axis] < shape[axis]:
                there = tuple(other)
                facing = spacings[axis][there[axis]] / (2.0 * problem.conductivity[there])
                flow = area / (half + facing) / weight
                matrix[here, number[there]] += flow
            else:
                exchange = getattr(problem.surfaces, SIDES[axis][side])
                flow = area * outer_conductance(exchange, half) / weight
                vector[here] += flow * exchange.temperature(0.0)
            matrix[here, here] -= flow
    return matrix, vector


def without_reaction(problem: Problem, temperature: Array, time: float) -> Array:
    """Exact solution in time by the exponential of the matrix."""
    matrix, vector = system(problem)
    n = vector.size
    extended = np.zeros((n + 1, n + 1))
    extended[:n, :n], extended[:n, n] = matrix, vector
    result = expm(extended * time) @ np.append(temperature.ravel(), 1.0)
    return result[:n].reshape(problem.shape)


def with_reaction(
    problem: Problem, temperature: Array, conversion: Array, time: float
) -> tuple[Array, Array]:
    """Close solution in time by an explicit Runge-Kutta method of high order."""
    matrix, vector = system(problem)
    n = vector.size
    rise = (problem.heat / problem.volumetric_heat_capacity).ravel()
    reacts = rise != 0.0

    def slopes(_time: float, both: Array) -> Array:
        rates = np.zeros(n)
        for cell in np.flatnonzero(reacts):
            rates[cell] = problem.rate(both[cell], min(both[n + cell], 1.0), problem.parameters[0])
        return np.concatenate([matrix @ both[:n] + vector + rise * rates, rates])

    first = np.concatenate([temperature.ravel(), conversion.ravel()])
    tight: dict[str, Any] = {"method": "DOP853", "rtol": 1e-10, "atol": 1e-10}
    last = solve_ivp(slopes, (0.0, time), first, **tight).y[:, -1]
    return last[:n].reshape(problem.shape), last[n:].reshape(problem.shape)
