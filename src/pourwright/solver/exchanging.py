"""What passes through bare faces during a step."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from pourwright.solver.compilation import kernel
from pourwright.solver.faces import Indices, Patch, find_patches
from pourwright.solver.problem import Array, Exchange, Problem
from pourwright.solver.state import Field

FILM_PASSES = 3
LEAST_RESISTANCE = 1e-6
"""Between a cell's middle and the surroundings [m2 K/W]: a held surface may pass through the middle."""
LEAST_FILM = 1e-9
"""Film coefficients below this count as this, so that still air does not divide by zero [W/(m2 K)]."""


def mean_over(exchange: Exchange, time: float, step: float) -> float:
    """Average the surroundings' temperature over a step by Simpson's rule.

    Parameters
    ----------
    exchange : Exchange
        Whose surroundings.
    time, step : float
        Start and length of the step [s].

    Returns
    -------
    float
        [K].

    Examples
    --------
    >>> mean_over(Exchange(8.0, lambda time: 290.0 + time), 0.0, 4.0)
    292.0
    """
    if not callable(exchange.surroundings):
        return float(exchange.surroundings)
    ends = exchange.temperature(time) + exchange.temperature(time + step)
    return (ends + 4.0 * exchange.temperature(time + 0.5 * step)) / 6.0


def transmittance(exchange: Exchange, half: Array, temperature: Array, surroundings: float) -> Array:
    """Combine half cell, resistance and film in series.

    A film that depends on the surface's temperature is met by fixed-point iteration, which
    converges fast because most of the resistance lies in the film.

    Parameters
    ----------
    exchange : Exchange
        Resistance and film.
    half : array (n,)
        Resistances from the cells' middles to their faces [m2 K/W].
    temperature : array (n,)
        In the cells' middles [K].
    surroundings : float
        [K].

    Returns
    -------
    array (n,)
        [W/(m2 K)].

    Examples
    --------
    >>> transmittance(Exchange(10.0, resistance=0.1), np.array([0.05]), np.array([300.0]), 290.0)
    array([4.])
    """
    inside = half + exchange.resistance
    film = exchange.film
    if not callable(film):
        return np.asarray(1.0 / np.maximum(inside + 1.0 / film, LEAST_RESISTANCE))
    combined, surface = np.zeros(0), temperature
    for _ in range(FILM_PASSES):
        combined = _in_series_with(exchange, half, surface, surroundings)
        surface = surroundings + (temperature - surroundings) * (1.0 - combined * inside)
    return combined


def _in_series_with(exchange: Exchange, half: Array, surface: Array, surroundings: float) -> Array:
    """Combine a film at known surface temperatures with what lies before it."""
    assert callable(exchange.film)
    coefficient = np.maximum(exchange.film(surface, surroundings), LEAST_FILM)
    return np.asarray(1.0 / np.maximum(half + exchange.resistance + 1.0 / coefficient, LEAST_RESISTANCE))


@kernel
def _spread(cells, places, areas, combined, surroundings, mean, loss, power):  # type: ignore[no-untyped-def]
    total = 0.0
    for n in range(cells.size):
        conductance = areas[n] * combined[n]
        loss[places[n]] += conductance
        flow = conductance * (surroundings - mean[cells[n]])
        power[cells[n]] += flow
        total += flow
    return total


@kernel
def _clear(cells, places, loss, power):  # type: ignore[no-untyped-def]
    for n in range(cells.size):
        loss[places[n]] = 0.0
        power[cells[n]] = 0.0


class _Group:
    """All patches of one exchange, so that its film is evaluated once a step."""

    def __init__(self, exchange: Exchange, patches: list[Patch]) -> None:
        self.exchange, self.patches = exchange, patches
        self.cells = np.concatenate([patch.cells for patch in patches])
        self.half = np.concatenate([patch.half for patch in patches])
        ends = np.cumsum([patch.cells.size for patch in patches])
        self.parts = [slice(end - patch.cells.size, end) for end, patch in zip(ends, patches, strict=True)]
        fixed = not callable(exchange.film)
        self.constant = transmittance(exchange, self.half, self.half, 0.0) if fixed else None
        self.share: Array | None = None

    def transmits(self, temperature: Array, surroundings: float) -> Array:
        """Evaluate the film at the surface, whose share of the difference hardly changes in a step."""
        if self.share is None:
            combined = transmittance(self.exchange, self.half, temperature, surroundings)
        else:
            surface = surroundings + (temperature - surroundings) * self.share
            combined = _in_series_with(self.exchange, self.half, surface, surroundings)
        # half cell and resistance take the rest of the difference
        self.share = 1.0 - combined * (self.half + self.exchange.resistance)
        return combined


def _grouped(patches: tuple[Patch, ...]) -> list[_Group]:
    kinds: list[Exchange] = []
    for patch in patches:
        if patch.exchange not in kinds:
            kinds.append(patch.exchange)
    return [_Group(kind, [patch for patch in patches if patch.exchange == kind]) for kind in kinds]


class Exchanger:
    """Keeps the conductance of bare faces per cell and axis, and the power that enters at a step's start.

    Parameters
    ----------
    problem : Problem
        The grid and what it holds.
    """

    def __init__(self, problem: Problem) -> None:
        nx, ny, nz = problem.shape
        self.groups = _grouped(find_patches(problem))
        self.loss = (np.zeros((nx, ny, nz)), np.zeros((nx, ny, nz)), np.zeros((nx, nz, ny)))
        self.power = np.zeros((nx, ny, nz))

    def _clear(self) -> None:
        for group in self.groups:
            for patch in group.patches:
                _clear(patch.cells, patch.places, self.loss[patch.axis].reshape(-1), self.power.reshape(-1))

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
            Power entering through all bare faces with temperatures as they are [W].
        """
        self._clear()
        total = 0.0
        for group in self.groups:
            outside = mean_over(group.exchange, time, step)
            combined = group.constant
            if combined is None:
                ahead = field.temperature[group.cells]
                if rate is not None:
                    ahead = ahead + 0.5 * step * rate(group.cells)
                combined = group.transmits(ahead, outside)
            total += self._enter(group, combined, outside, field.mean)
        return total

    def _enter(self, group: _Group, combined: Array, outside: float, mean: Array) -> float:
        power, total = self.power.reshape(-1), 0.0
        for patch, part in zip(group.patches, group.parts, strict=True):
            loss = self.loss[patch.axis].reshape(-1)
            total += _spread(
                patch.cells, patch.places, patch.areas, combined[part], outside, mean, loss, power
            )
        return total
