"""Progress of the reaction in every cell over a step, along a path on which heat and conduction both act.

The path is T = T_n + rise (conversion - conversion_n) + D t, with D the diffusive rate of the
last step, so that the equation of a cell is scalar and its stiffness costs nothing elsewhere.
"""
# mypy: disable-error-code="no-untyped-def"

from __future__ import annotations

from typing import Any, NamedTuple

import numba
import numpy as np
from numpy.typing import NDArray

from pourwright.solver.compilation import RATE_TYPE, exact_kernel, kernel
from pourwright.solver.problem import Array
from pourwright.solver.state import Field

MOST_PARTS = 20000


@kernel
def _bounded(value):
    return min(value, 1.0)


@kernel
def _along(rate, row, base, rise, drift, cure, elapsed, gained, cap):
    """Rate of conversion on the path, after `elapsed` seconds and `gained` conversion."""
    temperature = min(base + rise * gained + drift * elapsed, cap)
    return rate(temperature, _bounded(cure + gained), row)


@kernel
def _in_parts(rate, row, base, rise, drift, cure, step, allowed, cap):
    """Integrate a cell over a step by embedded Runge-Kutta 3(2) with its own step control.

    Source: Bogacki and Shampine, Appl. Math. Lett. 2 (1989) 321 (citation from memory).
    """
    elapsed, gained = 0.0, 0.0
    k1 = _along(rate, row, base, rise, drift, cure, 0.0, 0.0, cap)
    part = step
    if abs(k1) * part > 0.05:
        part = 0.05 / abs(k1)
    for _ in range(MOST_PARTS):
        part = min(part, step - elapsed)
        k2 = _along(rate, row, base, rise, drift, cure, elapsed + 0.5 * part, gained + 0.5 * part * k1, cap)
        k3 = _along(rate, row, base, rise, drift, cure, elapsed + 0.75 * part, gained + 0.75 * part * k2, cap)
        more = part * (2.0 * k1 + 3.0 * k2 + 4.0 * k3) / 9.0
        k4 = _along(rate, row, base, rise, drift, cure, elapsed + part, gained + more, cap)
        miss = abs(part * (-5.0 * k1 + 6.0 * k2 + 8.0 * k3 - 9.0 * k4) / 72.0)
        if miss <= allowed:
            elapsed += part
            gained = min(gained + more, 1.0 - cure) if cure <= 1.0 else gained + more
            k1 = k4
            if elapsed >= step * (1.0 - 1e-12):
                break
        growth = 0.9 * (allowed / max(miss, 1e-300)) ** (1.0 / 3.0)
        part *= min(4.0, max(0.2, growth))
    return gained


class Reacting(NamedTuple):
    """Which cells react and by which row of parameters."""

    cells: NDArray[np.int64]
    law: NDArray[np.int64]
    parameters: Array


_typeof: Any = numba.typeof
_REAL, _COUNT = numba.types.float64, numba.types.int64
_FLAT = numba.types.Array(_REAL, 1, "C")
_FIELD = _typeof(Field(*[np.zeros(1)] * 4))
_LIST = _typeof(Reacting(np.zeros(1, np.int64), np.zeros(1, np.int64), np.zeros((1, 1))))
_REACT = numba.types.void(
    RATE_TYPE, _COUNT, _COUNT, _REAL, _REAL, _REAL, _LIST, _FLAT, _FIELD, _FIELD, _FLAT
)  # fmt: skip
_FIRST = numba.types.void(RATE_TYPE, _COUNT, _COUNT, _LIST, _FIELD)


@exact_kernel(_REACT)
def react(rate, low, high, step, allowed, cap, reacting, adiabatic, now, new, gained):
    """Advance the conversion of listed cells over a step.

    One evaluation in the middle of the step serves where the rate hardly changes; elsewhere the
    cell is integrated in parts. `allowed` [K] bounds the error by its effect on temperature;
    `gained` becomes the temperature gained by reaction.
    """
    for n in range(low, high):
        c = reacting.cells[n]
        row = reacting.parameters[reacting.law[n]]
        base, cure, drift, last = (
            now.temperature[c],
            now.conversion[c],
            now.diffusive_rate[c],
            now.reaction_rate[c],
        )
        lift = adiabatic[c]
        margin = min(allowed / abs(lift), 1e-3)
        middle = _along(rate, row, base, lift, drift, cure, 0.5 * step, 0.5 * step * last, cap)
        more = step * middle
        if not abs(middle - last) * step < margin or cure + more > 1.0:
            more = _in_parts(rate, row, base, lift, drift, cure, step, 0.05 * margin, cap)
        new.conversion[c] = cure + more
        new.reaction_rate[c] = more / step
        gained[c] = lift * more


@exact_kernel(_FIRST)
def first_rates(rate, low, high, reacting, now):
    """Rate of listed cells as they stand [1/s]."""
    for n in range(low, high):
        c = reacting.cells[n]
        row = reacting.parameters[reacting.law[n]]
        now.reaction_rate[c] = rate(now.temperature[c], _bounded(now.conversion[c]), row)


@kernel
def note_crossings(low, high, time, step, limit, cells, cure, new_cure, crossed):
    """Note when listed cells crossed a conversion, by linear interpolation within the step."""
    for n in range(low, high):
        c = cells[n]
        if new_cure[c] >= limit and np.isnan(crossed[c]):
            gained = new_cure[c] - cure[c]
            share = (limit - cure[c]) / gained if gained > 0.0 and cure[c] < limit else 0.0
            crossed[c] = time + step * share


@kernel
def note_peaks(low, high, time, temperature, peak, peak_time):
    """Note the highest temperature of flat cells low <= n < high and give it."""
    hottest = temperature[low]
    for n in range(low, high):
        value = temperature[n]
        hottest = max(hottest, value)
        if value > peak[n]:
            peak[n] = value
            peak_time[n] = time
    return hottest
