"""One step of conduction: Douglas-Gunn alternating directions in delta form, compiled.

Each direction solves (C - dt/2 L) d = previous by elimination; the innermost loop runs over
neighbouring lines, so that it is vectorised. Lines are independent: any split of the outer
loop gives the same bits.

Source: Douglas and Gunn, Numer. Math. 6 (1964) 428 (citation from memory).
"""
# mypy: disable-error-code="no-untyped-def"

from __future__ import annotations

import numpy as np

from pourwright.solver.compilation import kernel


@kernel
def foresee(low, high, step, field):
    """Set what temperature, with half the increment added, is the mean of the step.

    Parameters
    ----------
    low, high : int
        Range of flat indices.
    step : float
        [s].
    field : Field
        Flat; `mean` is written. Equation: mean = T - step**2 / 12 trend, by which the trapezoidal
        rule of the sweeps gains an order wherever space is resolved.
    """
    share = step * step / 12.0
    for n in range(low, high):
        field.mean[n] = field.temperature[n] - share * field.diffusive_trend[n]


@kernel
def _explicit_row(i, j, step, matter, temperature, power, gained_field, row):
    """Heat [J] that enters each cell of a row during a step with temperatures held."""
    nx, ny, nz = temperature.shape
    here = temperature[i, j]
    left, right = temperature[max(i - 1, 0), j], temperature[min(i + 1, nx - 1), j]
    front, back = temperature[i, max(j - 1, 0)], temperature[i, min(j + 1, ny - 1)]
    to_left, to_right = matter.along_x[i, j], matter.along_x[i + 1, j]
    to_front, to_back = matter.along_y[i, j], matter.along_y[i, j + 1]
    below = matter.along_z[i, j]
    gained, weight, fed = gained_field[i, j], matter.capacity[i, j], power[i, j]
    for k in range(nz):
        flow = to_left[k] * (left[k] - here[k]) + to_right[k] * (right[k] - here[k])
        flow += to_front[k] * (front[k] - here[k]) + to_back[k] * (back[k] - here[k])
        row[k] = step * (flow + fed[k]) + weight[k] * gained[k]
    for k in range(1, nz):
        row[k] += step * below[k] * (here[k - 1] - here[k])
    for k in range(nz - 1):
        row[k] += step * below[k + 1] * (here[k + 1] - here[k])


@kernel
def _eliminate(weight, before, after, loss, half, last_factor, last, factor, value):
    """Forward elimination of one row against the row before it; value holds the right side."""
    for k in range(value.size):
        low = half * before[k]
        high = half * after[k]
        inverse = 1.0 / (weight[k] + low + high + half * loss[k] - low * last_factor[k])
        factor[k] = high * inverse
        value[k] = (value[k] + low * last[k]) * inverse


@kernel
def _substitute(factor, value, following):
    """Back substitution of one row by the row after it."""
    for k in range(value.size):
        value[k] += factor[k] * following[k]


@kernel
def _tally(loss, value, sums):
    for k in range(value.size):
        sums[k] += loss[k] * value[k]


@kernel
def sweep_x(low, high, step, matter, mean, power, gained, loss, delta, tally):
    """Work out the explicit right side and eliminate along x.

    Parameters
    ----------
    low, high : int
        Planes low <= j < high.
    step : float
        [s].
    matter : Coefficients
        Capacities and conductances.
    mean : array (nx, ny, nz)
        Temperature of the explicit part [K].
    power : array (nx, ny, nz)
        Entering through faces and by sources [W].
    gained : array (nx, ny, nz)
        Temperature gained by reaction [K].
    loss : tuple of array
        Conductance of bare faces by axis [W/K].
    delta : array (nx, ny, nz)
        Becomes the first increment [K].
    tally : array (ny,)
        Becomes what bare faces across x let pass by the increments [W].
    """
    nx, _, nz = mean.shape
    factor = np.zeros((nx, nz))
    nil = np.zeros(nz)
    sums = np.zeros(nz)
    for j in range(low, high):
        sums[:] = 0.0
        for i in range(nx):
            row = delta[i, j]
            _explicit_row(i, j, step, matter, mean, power, gained, row)
            last_factor = factor[i - 1] if i > 0 else nil
            last = delta[i - 1, j] if i > 0 else nil
            weight, before, after = matter.capacity[i, j], matter.along_x[i, j], matter.along_x[i + 1, j]
            _eliminate(weight, before, after, loss[0][i, j], 0.5 * step, last_factor, last, factor[i], row)
        for back in range(nx):
            i = nx - 1 - back
            if back > 0:
                _substitute(factor[i], delta[i, j], delta[i + 1, j])
            _tally(loss[0][i, j], delta[i, j], sums)
        tally[j] = sums.sum()


@kernel
def _solve_plane(weight, along, loss, half, value, factor, nil, sums):
    """Eliminate a plane along its first axis; value holds the right side, then the increment."""
    n = value.shape[0]
    for j in range(n):
        last_factor = factor[j - 1] if j > 0 else nil
        last = value[j - 1] if j > 0 else nil
        _eliminate(weight[j], along[j], along[j + 1], loss[j], half, last_factor, last, factor[j], value[j])
    for back in range(n):
        j = n - 1 - back
        if back > 0:
            _substitute(factor[j], value[j], value[j + 1])
        _tally(loss[j], value[j], sums)


@kernel
def _finish_row(i, j, step, last_step, increment, now, new, gained, worst):
    """Write a row's new temperature, diffusive rate and its trend; keep the largest miss of the forecast."""
    ahead = 0.5 * (step + last_step)
    here, rate, trend = now.temperature[i, j], now.diffusive_rate[i, j], now.diffusive_trend[i, j]
    temperature = new.temperature[i, j]
    new_rate, new_trend = new.diffusive_rate[i, j], new.diffusive_trend[i, j]
    for k in range(here.size):
        value = here[k] + increment[k, j]
        temperature[k] = value
        found = (increment[k, j] - gained[i, j, k]) / step
        new_rate[k] = found
        new_trend[k] = (found - rate[k]) / ahead
        worst[k] = max(abs(found - rate[k] - ahead * trend[k]), worst[k])


@kernel
def _weigh(plane, weight):
    for j in range(plane.shape[0]):
        for k in range(plane.shape[1]):
            plane[j, k] *= weight[j, k]


@kernel
def _turn(plane, weight, upright):
    for k in range(upright.shape[0]):
        for j in range(upright.shape[1]):
            upright[k, j] = plane[j, k] * weight[k, j]


@kernel
def sweep_yz(low, high, step, last_step, matter, now, new, loss, gained, delta, tally, misses):
    """Eliminate along y, then z, and write the new temperature and rates.

    Parameters
    ----------
    low, high : int
        Planes low <= i < high.
    step, last_step : float
        Lengths of this step and of the last [s].
    matter : Coefficients
        Capacities and conductances.
    now, new : Field
        Before and after; `new` gets temperature, diffusive rate and its trend.
    loss : tuple of array
        Conductance of bare faces by axis [W/K].
    gained : array (nx, ny, nz)
        Temperature gained by reaction [K].
    delta : array (nx, ny, nz)
        First increment [K]; spent.
    tally : array (nx,)
        Becomes what bare faces across y and z let pass by the increments [W].
    misses : array (nx,)
        Becomes by how much the diffusive rate missed its forecast at most [K/s].
    """
    _, ny, nz = delta.shape
    factor_y, factor_z = np.zeros((ny, nz)), np.zeros((nz, ny))
    upright = np.zeros((nz, ny))
    nil_y, nil_z = np.zeros(nz), np.zeros(ny)
    sums_y, sums_z, worst = np.zeros(nz), np.zeros(ny), np.zeros(nz)
    half = 0.5 * step
    for i in range(low, high):
        sums_y[:] = 0.0
        sums_z[:] = 0.0
        worst[:] = 0.0
        plane, weight, turned = delta[i], matter.capacity[i], matter.capacity_turned[i]
        _weigh(plane, weight)
        _solve_plane(weight, matter.along_y[i], loss[1][i], half, plane, factor_y, nil_y, sums_y)
        _turn(plane, turned, upright)
        _solve_plane(turned, matter.along_z_turned[i], loss[2][i], half, upright, factor_z, nil_z, sums_z)
        for j in range(ny):
            _finish_row(i, j, step, last_step, upright, now, new, gained, worst)
        tally[i] = sums_y.sum() + sums_z.sum()
        misses[i] = worst.max()


@kernel
def diffusive_rate(low, high, matter, temperature, power, rate):
    """Evaluate the rate of change by conduction and power as they stand.

    Parameters
    ----------
    low, high : int
        Planes low <= i < high.
    matter : Coefficients
        Capacities and conductances.
    temperature : array (nx, ny, nz)
        [K].
    power : array (nx, ny, nz)
        [W].
    rate : array (nx, ny, nz)
        Written [K/s].
    """
    nil = np.zeros_like(temperature)
    for i in range(low, high):
        for j in range(temperature.shape[1]):
            row, weight = rate[i, j], matter.capacity[i, j]
            _explicit_row(i, j, 1.0, matter, temperature, power, nil, row)
            for k in range(row.size):
                row[k] /= weight[k]
