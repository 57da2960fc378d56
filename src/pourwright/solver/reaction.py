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

from pourwright.solver.compilation import RATE_TYPE, exact_kernel, inlined, kernel
from pourwright.solver.problem import Array
from pourwright.solver.state import Field

MOST_PARTS = 20000


@inlined
def _bounded(value):
    return min(value, 1.0)


class Path(NamedTuple):
    """What a cell's temperature follows during a step.

    T(t) = base + lift gained(t) + drift t + bend t**2, bounded by cap.
    """

    base: float
    lift: float
    drift: float
    bend: float
    cap: float


@inlined
def _along(rate, row, path, cure, elapsed, gained):
    """Rate of conversion on the path, after `elapsed` seconds and `gained` conversion."""
    temperature = path.base + path.lift * gained + (path.drift + path.bend * elapsed) * elapsed
    return rate(min(temperature, path.cap), _bounded(cure + gained), row)


@inlined
def _is_over(path, cure, elapsed, gained, step):
    """Whether a cell's step is done: at its end, cured through, or hotter than is followed."""
    temperature = path.base + path.lift * gained + (path.drift + path.bend * elapsed) * elapsed
    return elapsed >= step * (1.0 - 1e-12) or cure + gained >= 1.0 or temperature >= path.cap


@inlined
def _in_one(rate, row, path, cure, step, ahead, last, allowed):
    """Integrate a cell over a step by the rate in its middle, evaluated again where it differs from the last.

    Returns the conversion gained and its mean over the step, both NaN where that is not enough.
    """
    # gained by the middle is guessed from the last rate; where the guess is good the error is of third order
    middle = _along(rate, row, path, cure, 0.5 * step, 0.5 * step * last)
    if not abs(middle - last) * step < allowed:
        # better guess: the line through both rates, a quarter of a step before the middle
        first, slope = middle, (middle - last) / ahead
        middle = _along(rate, row, path, cure, 0.5 * step, 0.5 * step * (first - 0.25 * step * slope))
        if not (abs(middle - first) * step < allowed and abs(middle - last) * step < 10.0 * allowed):
            return np.nan, np.nan
    # mean of the parabola that the rate's line makes; the conduction is driven by it
    more = step * middle
    return more, 0.5 * more - step * step * (middle - last) / (12.0 * ahead)


@inlined
def _in_parts(rate, row, path, cure, step, allowed):
    """Integrate a cell over a step by embedded Runge-Kutta 3(2) with its own step control.

    Returns the conversion gained at the end and its mean over the step.

    Source: Bogacki and Shampine, Appl. Math. Lett. 2 (1989) 321 (citation from memory).
    """
    elapsed, gained, area = 0.0, 0.0, 0.0
    k1 = _along(rate, row, path, cure, 0.0, 0.0)
    # at first no more than a twentieth may cure: the error is not known yet
    part = min(step, 0.05 / max(abs(k1), 1e-300))
    for _ in range(MOST_PARTS):
        part = min(part, step - elapsed)
        k2 = _along(rate, row, path, cure, elapsed + 0.5 * part, gained + 0.5 * part * k1)
        k3 = _along(rate, row, path, cure, elapsed + 0.75 * part, gained + 0.75 * part * k2)
        more = part * (2.0 * k1 + 3.0 * k2 + 4.0 * k3) / 9.0
        k4 = _along(rate, row, path, cure, elapsed + part, gained + more)
        miss = abs(part * (-5.0 * k1 + 6.0 * k2 + 8.0 * k3 - 9.0 * k4) / 72.0)
        if not np.isfinite(miss):
            return np.nan, np.nan
        if miss <= allowed:
            elapsed += part
            area += part * (gained + 0.5 * more) + part * part * (k1 - k4) / 12.0
            gained += more
            # the last stage is the first of the next part, at no cost
            k1 = k4
            if _is_over(path, cure, elapsed, gained, step):
                break
        part *= min(4.0, max(0.2, 0.9 * (allowed / max(miss, 1e-300)) ** (1.0 / 3.0)))
    else:
        # more parts than any cure needs: the whole step is thrown away and tried shorter
        return np.nan, np.nan
    # what is cured through stays so to the end of the step: the mean counts that rest too
    gained = min(gained, max(1.0 - cure, 0.0))
    return gained, (area + gained * (step - elapsed)) / step


class Reacting(NamedTuple):
    """Which cells react and by which row of parameters."""

    cells: NDArray[np.int64]
    law: NDArray[np.int64]
    parameters: Array


_typeof: Any = numba.typeof
_REAL, _COUNT = numba.types.float64, numba.types.int64
_FLAT = numba.types.Array(_REAL, 1, "C")
_FIELD = _typeof(Field(*[np.zeros(1)] * 6))
_LIST = _typeof(Reacting(np.zeros(1, np.int64), np.zeros(1, np.int64), np.zeros((1, 1))))
_REACT = numba.types.void(
    RATE_TYPE, _COUNT, _COUNT, _REAL, _REAL, _REAL, _REAL, _LIST, _FLAT, _FIELD, _FIELD, _FLAT
)  # fmt: skip
_FIRST = numba.types.void(RATE_TYPE, _COUNT, _COUNT, _LIST, _FIELD)


@exact_kernel(_REACT)
def react(rate, low, high, step, last_step, allowed, cap, reacting, adiabatic, now, new, gained):
    """Advance the conversion of listed cells over a step.

    One evaluation in the middle of the step serves where the rate hardly changes, a second where it
    changes steadily; elsewhere the cell is integrated in parts.

    Parameters
    ----------
    rate : callable
        Rate law [1/s].
    low, high : int
        Part of the list to do.
    step, last_step : float
        Lengths of this step and of the last [s].
    allowed : float
        Bound on the error of conversion by its effect on temperature [K].
    cap : float
        Temperature beyond which a cell is not followed [K].
    reacting : Reacting
        The list.
    adiabatic : array (cells,)
        Rise per unit of conversion [K].
    now, new : Field
        Flat, before and after; `new` gets conversion and rate, `now.mean` is moved by the reaction.
    gained : array (cells,)
        Becomes the temperature gained by reaction [K].
    """
    # mean rates stand in the middles of their steps; so far apart those lie
    ahead = 0.5 * (step + last_step)
    for n in range(low, high):
        c = reacting.cells[n]
        row = reacting.parameters[reacting.law[n]]
        lift, cure, last, trend = (
            adiabatic[c],
            now.conversion[c],
            now.reaction_rate[c],
            now.diffusive_trend[c],
        )
        drift = now.diffusive_rate[c] + 0.5 * last_step * trend
        path = Path(now.temperature[c], lift, drift, 0.5 * trend, cap)
        # in conversion; where little heat is bound the cure itself must still be right
        margin = min(allowed / abs(lift), 1e-3)
        more, mean = _in_one(rate, row, path, cure, step, ahead, last, margin)
        # no number, or beyond one: the short way does not do
        if not cure + more <= 1.0:
            more, mean = _in_parts(rate, row, path, cure, step, 0.2 * margin)
        new.conversion[c] = cure + more
        new.reaction_rate[c] = more / step
        now.mean[c] += lift * (mean - 0.5 * more)
        gained[c] = lift * more


@exact_kernel(_FIRST)
def first_rates(rate, low, high, reacting, now):
    """Evaluate the rate of listed cells as they stand.

    Parameters
    ----------
    rate : callable
        Rate law [1/s].
    low, high : int
        Part of the list to do.
    reacting : Reacting
        The list.
    now : Field
        Flat; gets the rates.
    """
    for n in range(low, high):
        c = reacting.cells[n]
        row = reacting.parameters[reacting.law[n]]
        now.reaction_rate[c] = rate(now.temperature[c], _bounded(now.conversion[c]), row)


@kernel
def _time_to(need, rate, last_rate, step, last_step):
    """Time into a step at which a quantity has grown by `need`, by its mean rates now and before."""
    trend = 2.0 * (rate - last_rate) / (step + last_step)
    # rate at the step's start; below, the form of the root in which nothing cancels for a small trend
    first = rate - 0.5 * trend * step
    inside = first * first + 2.0 * trend * need
    if first < 0.0 or inside < 0.0:
        return need / rate
    return min(2.0 * need / (first + np.sqrt(inside)), step)


@kernel
def note_crossings(time, step, last_step, limit, cells, now, new, crossed):
    """Note when listed cells crossed a conversion, by the parabola its rates give within the step.

    Parameters
    ----------
    time, step, last_step : float
        Start of the step, its length and that of the last [s].
    limit : float
        Conversion to cross [-].
    cells : array of int
        Flat indices.
    now, new : Field
        Flat, before and after the step.
    crossed : array (cells,)
        Times [s], NaN where not crossed; written where a cell crosses.
    """
    for c in cells:
        if new.conversion[c] >= limit and np.isnan(crossed[c]):
            need = limit - now.conversion[c]
            rate, last_rate = new.reaction_rate[c], now.reaction_rate[c]
            crossed[c] = time
            if need > 0.0 and rate > 0.0:
                crossed[c] = time + _time_to(need, rate, last_rate, step, last_step)


@kernel
def _vertex(before, after, last_step, step):
    """Time and height of a parabola's top from its middle point, by the slopes before and after that."""
    total = last_step + step
    slope = (before * step + after * last_step) / total
    curvature = (after - before) / total
    return -0.5 * slope / curvature, -0.25 * slope * slope / curvature


@kernel
def note_peaks(low, high, time, step, last_step, rows, now, new, lift, peak, peak_time):
    """Note the highest temperature of the cells of a range of planes at the end of a step.

    A maximum passed at the step's start is refined by the parabola through the last three times.

    Parameters
    ----------
    low, high : int
        Planes low <= i < high.
    time, step, last_step : float
        Start of the step, its length and that of the last [s].
    rows : Rows
        Where there is matter.
    now, new : Field
        Flat, before and after the step.
    lift : array (cells,)
        Rise per unit of conversion [K].
    peak, peak_time : array (cells,)
        Highest temperature [K] and its time [s]; written where a cell is hotter than before.

    Returns
    -------
    float
        Highest temperature of the range at the step's end [K].
    """
    _, ny, nz = rows.shape
    hottest = -np.inf
    for i in range(low, high):
        for j in range(rows.box[i, 0], rows.box[i, 1]):
            begin = (i * ny + j) * nz
            for n in range(np.uint64(begin + rows.low[i, j]), np.uint64(begin + rows.high[i, j])):
                here, value = now.temperature[n], new.temperature[n]
                hottest = max(hottest, value)
                if value > peak[n]:
                    peak[n] = value
                    peak_time[n] = time + step
                elif here > value and here == peak[n] and last_step > 0.0:
                    before = now.diffusive_rate[n] + lift[n] * now.reaction_rate[n]
                    if before > 0.0:
                        shift, above = _vertex(before, (value - here) / step, last_step, step)
                        peak[n] = here + above
                        peak_time[n] = time + shift
    return hottest
