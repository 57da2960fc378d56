"""Where a run stands: a frozen snapshot from which any number of runs can go on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from pourwright.foundation.errors import UserError
from pourwright.solver.problem import Array, Problem


@dataclass(frozen=True, slots=True)
class Records:
    """What is noted of every cell while time passes.

    Parameters
    ----------
    peak_temperature : array (nx, ny, nz)
        Highest temperature so far [K].
    peak_time : array (nx, ny, nz)
        When it was reached [s].
    thresholds : tuple of float
        Conversions whose crossing is noted.
    crossing_time : array (thresholds, nx, ny, nz)
        When the cell first crossed each of them [s]; NaN where it has not.
    """

    peak_temperature: Array
    peak_time: Array
    thresholds: tuple[float, ...]
    crossing_time: Array


@dataclass(frozen=True, slots=True)
class State:
    """Snapshot of a run; its arrays are never written again.

    Parameters
    ----------
    time : float
        [s].
    temperature, conversion : array (nx, ny, nz)
        [K], [-].
    diffusive_rate : array (nx, ny, nz)
        Rate of change of temperature by all but the reaction, mean of the last step [K/s].
    diffusive_trend : array (nx, ny, nz)
        How that rate changes with time [K/s2].
    reaction_rate : array (nx, ny, nz)
        Mean rate of conversion over the last step [1/s].
    last_step : float
        Length of the last step [s]; 0 for a start.
    step : float
        Length of step to try next [s]; 0 for a start, which looks for it anew.
    records : Records
        What has been noted so far.
    """

    time: float
    temperature: Array
    conversion: Array
    diffusive_rate: Array
    diffusive_trend: Array
    reaction_rate: Array
    last_step: float
    step: float
    records: Records


class Field(NamedTuple):
    """Working arrays of a run, three-dimensional or flat, as in `State`.

    `mean` is the temperature that, with half the step's increment added, gives the mean of the
    step: where a reaction speeds up it lies below the temperature at the step's start.
    """

    temperature: Array
    mean: Array
    conversion: Array
    diffusive_rate: Array
    diffusive_trend: Array
    reaction_rate: Array

    @property
    def flat(self) -> Field:
        """The same memory as flat arrays."""
        return Field(*[array.reshape(-1) for array in self])

    def copy(self) -> Field:
        """Copy all arrays for writing."""
        return Field(*[np.array(array, order="C") for array in self])


def frozen(array: Array) -> Array:
    """Forbid writing to an array.

    Parameters
    ----------
    array : array
        Any.

    Returns
    -------
    array
        The same.
    """
    array.flags.writeable = False
    return array


def start(
    problem: Problem,
    temperature: float | Array,
    conversion: float | Array = 0.0,
    *,
    time: float = 0.0,
    thresholds: tuple[float, ...] = (),
) -> State:
    """Make the state in which a run begins.

    Parameters
    ----------
    problem : Problem
        The grid and what it holds.
    temperature, conversion : float or array (nx, ny, nz)
        At the start [K], [-]. A law whose rate is nil at conversion 0 needs a small seed.
    time : float
        [s].
    thresholds : tuple of float
        Conversions whose crossing times are to be noted.

    Returns
    -------
    State

    Examples
    --------
    >>> ones = np.ones((1, 1, 2))
    >>> bar = Problem(np.array([0, 1.0]), np.array([0, 1.0]), np.array([0, 1.0, 2.0]), ones, ones)
    >>> start(bar, 300.0).temperature
    array([[[300., 300.]]])
    """
    shape = problem.shape
    heat = np.array(np.broadcast_to(np.asarray(temperature, dtype=float), shape))
    cure = np.array(np.broadcast_to(np.asarray(conversion, dtype=float), shape))
    if not (np.all(np.isfinite(heat[problem.active])) and np.all(np.isfinite(cure[problem.active]))):
        raise UserError("a starting temperature or conversion is not a finite number")
    limits = tuple(float(value) for value in thresholds)
    crossed = np.full((len(limits), *shape), np.nan)
    for number, limit in enumerate(limits):
        crossed[number][problem.reacting & (cure >= limit)] = time
    records = Records(frozen(heat.copy()), frozen(np.full(shape, time)), limits, frozen(crossed))
    nil = frozen(np.zeros(shape))
    return State(float(time), frozen(heat), frozen(cure), nil, nil, nil, 0.0, 0.0, records)
