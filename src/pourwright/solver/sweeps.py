"""One step of conduction: Douglas-Gunn alternating directions in delta form, compiled.

Each direction solves (C - dt/2 L) d = previous by elimination; the innermost loop runs over
neighbouring lines, so that it is vectorised. Lines are independent: any split of the outer
loop gives the same bits. A plane is worked on in scratch that stays in the cache, and only the
stretches of rows that hold matter are visited.

Arrays are addressed flat, by unsigned places: the compiler then neither checks for negative ones nor
builds views. A loop has few arrays, as it vectorises only what it can tell apart with few checks.

Source: Douglas and Gunn, Numer. Math. 6 (1964) 428 (citation from memory).
"""
# mypy: disable-error-code="no-untyped-def"

from __future__ import annotations

import numpy as np

from pourwright.solver.compilation import inlined, kernel
from pourwright.solver.problem import Array

PAD = 8
"""Entries between rows of scratch, so that rows of 2**n do not fall on the same lines of the cache."""
TILE = 16
CHUNK, SCRATCH = 1024, 131072
"""Entries of neighbouring rows worked on together, and most of them in scratch."""


@inlined
def _place(i, j, k, ny, nz):
    return np.uint64((i * ny + j) * nz + k)


@inlined
def _larger(one, other):
    """Larger of two, where what is no number is larger than all."""
    return one if one > other or np.isnan(one) else other


@kernel
def foresee(low, high, step, rows, field):
    """Set what temperature, with half the increment added, is the mean of the step.

    Parameters
    ----------
    low, high : int
        Planes low <= i < high.
    step : float
        [s].
    rows : Rows
        Where there is matter.
    field : Field
        Flat; `mean` is written. Equation: mean = T - step**2 / 12 trend, by which the trapezoidal
        rule of the sweeps gains an order wherever space is resolved.
    """
    _, ny, nz = rows.shape
    mean, heat, trend = field.mean, field.temperature, field.diffusive_trend
    share = step * step / 12.0
    for i in range(low, high):
        for j in range(rows.box[i, 0], rows.box[i, 1]):
            here = _place(i, j, rows.low[i, j], ny, nz)
            for n in range(here, here + np.uint64(rows.high[i, j] - rows.low[i, j])):
                mean[n] = heat[n] - share * trend[n]


@inlined
def _flow_across(n, along, before, after, mean, here, ways, row, to, fresh):
    """Power that enters a row from the rows on both sides; added to what is there unless that is stale."""
    one_way, other_way = ways
    for k in range(n):
        flow = along[before + k] * (mean[one_way + k] - mean[here + k])
        flow += along[after + k] * (mean[other_way + k] - mean[here + k])
        row[to + k] = flow if fresh else row[to + k] + flow


@inlined
def _flow_within(n, along, place, mean, here, row, to):
    """Add the power that enters a row's cells from each other."""
    one = np.uint64(1)
    for k in range(one, n):
        row[to + k] += along[place + k] * (mean[here + k - one] - mean[here + k])
    for k in range(n - one):
        row[to + k] += along[place + k + one] * (mean[here + k + one] - mean[here + k])


@inlined
def _explicit_row(i, j, n, first, shape, along, values, row, to):
    """Set a row to the power [W] that enters each cell with temperatures held."""
    nx, ny, nz = shape
    here = _place(i, j, first, ny, nz)
    # beyond the rim a cell faces itself: the conductance there is nil, and so no branch is needed
    ways = _place(max(i - 1, 0), j, first, ny, nz), _place(min(i + 1, nx - 1), j, first, ny, nz)
    _flow_across(n, along[0], here, here + np.uint64(ny * nz), values, here, ways, row, to, True)
    ways = _place(i, max(j - 1, 0), first, ny, nz), _place(i, min(j + 1, ny - 1), first, ny, nz)
    before = _place(i, j, first, ny + 1, nz)
    _flow_across(n, along[1], before, before + np.uint64(nz), values, here, ways, row, to, False)
    _flow_within(n, along[2], _place(i, j, first, ny, nz + 1), values, here, row, to)


@inlined
def _add(n, factor, given, here, row, to):
    for k in range(n):
        row[to + k] += factor * given[here + k]


@inlined
def _add_product(n, factor, weight, given, here, row, to):
    for k in range(n):
        row[to + k] += factor * weight[here + k] * given[here + k]


@inlined
def _multiply(n, weight, given, place, here, row, to):
    for k in range(n):
        row[to + k] = weight[here + k] * given[place + k]


@inlined
def _weigh(n, half, capacity, here, bare, loss, weight):
    if bare:
        for k in range(n):
            weight[k] = capacity[here + k] + half * loss[here + k]
    else:
        for k in range(n):
            weight[k] = capacity[here + k]


@inlined
def _eliminate(n, half, scale, along, before, after, weight, factor, value, to, last):
    """Forward elimination of a row against the last; scaled, value is the right side; weight is spent."""
    # three short loops rather than one: each has few arrays, and so is vectorised
    for k in range(n):
        low = half * along[before + k]
        weight[k] = 1.0 / (weight[k] + low + half * along[after + k] - low * factor[last + k])
    for k in range(n):
        factor[to + k] = half * along[after + k] * weight[k]
    for k in range(n):
        value[to + k] = (scale * value[to + k] + half * along[before + k] * value[last + k]) * weight[k]


@inlined
def _substitute(n, factor, value, to, following):
    """Back substitution of a row by the row after it."""
    for k in range(n):
        value[to + k] += factor[to + k] * value[following + k]


@inlined
def _tally(n, loss, here, value, to, sums, at):
    for k in range(n):
        sums[at + k] += loss[here + k] * value[to + k]


@inlined
def _summed(sums, low, high):
    """Add up a stretch and clear it."""
    total = 0.0
    for k in range(low, high):
        total += sums[k]
        sums[k] = 0.0
    return total


@inlined
def _turn(value, width, first, last, low, high, to, to_width, start):
    """Copy rows first to last of a plane, columns low to high, into columns of another."""
    one, wide = np.uint64(1), np.uint64(width)
    for column in range(low, high):
        target, source = np.uint64(start + column * to_width + first), np.uint64(first * width + column)
        if last - first == TILE:  # written out by fours: left to the compiler it takes half as long again
            for _ in range(4):
                to[target] = value[source]
                to[target + one] = value[source + wide]
                to[target + np.uint64(2)] = value[source + np.uint64(2) * wide]
                to[target + np.uint64(3)] = value[source + np.uint64(3) * wide]
                target, source = target + np.uint64(4), source + np.uint64(4) * wide
        else:
            for j in range(np.uint64(last - first)):
                to[target + j] = value[source + j * wide]


@inlined
def _forward_along_y(i, step, matter, rows, sources, lines, scratch):
    """Set the right side of a plane row by row and eliminate along y."""
    mean, power, gained = sources
    lows, highs, bare, capacity, along, loss = lines
    factor, value, weight = scratch
    _, ny, nz = rows.shape
    wide = nz + PAD
    conductances = matter.along_x, along, matter.along_z
    for j in range(rows.box[i, 0], rows.box[i, 1]):
        first = lows[i, j]
        n = np.uint64(highs[i, j] - first)
        if n == 0:
            continue
        here, to = _place(i, j, first, ny, nz), _place(0, j, first, 0, wide)
        _explicit_row(i, j, n, first, rows.shape, conductances, mean, value, to)
        if rows.fed[i, j]:
            _add(n, 1.0, power, here, value, to)
        if rows.reacts[i, j]:
            _add_product(n, 1.0 / step, capacity, gained, here, value, to)
        _weigh(n, 0.5 * step, capacity, here, bare[i, j], loss, weight)
        before, last = _place(i, j, first, ny + 1, nz), _place(0, max(j - 1, 0), first, 0, wide)
        after = before + np.uint64(nz)
        _eliminate(n, 0.5 * step, step, along, before, after, weight, factor, value, to, last)


@inlined
def _forward_along_z(i, step, rows, shape, lines, scratch):
    """Eliminate a turned plane along z; it holds the increment along y."""
    lows, highs, bare, capacity, along, loss = lines
    factor, value, weight = scratch
    nz, ny = shape
    wide = ny + PAD
    for k in range(rows.box[i, 2], rows.box[i, 3]):
        first = lows[i, k]
        n = np.uint64(highs[i, k] - first)
        if n == 0:
            continue
        here, to = _place(i, k, first, nz, ny), _place(0, k, first, 0, wide)
        # delta form: what the sweep before found, times capacity, is the right side here
        _weigh(n, 0.5 * step, capacity, here, bare[i, k], loss, weight)
        _multiply(n, capacity, value, to, here, value, to)
        before, last = _place(i, k, first, nz + 1, ny), _place(0, max(k - 1, 0), first, 0, wide)
        after = before + np.uint64(ny)
        _eliminate(n, 0.5 * step, 1.0, along, before, after, weight, factor, value, to, last)


@inlined
def _backward(i, box, shape, lines, scratch, turned, turned_wide, start):
    """Substitute a plane from its last row on, copy it turned, and tally what bare faces let pass."""
    lows, highs, bare, _, _, loss = lines
    factor, value, sums = scratch
    wide = shape[1] + PAD
    begin, end, low, high = box
    for j in range(end - 1, begin - 1, -1):
        first = lows[i, j]
        n, to = np.uint64(highs[i, j] - first), _place(0, j, first, 0, wide)
        if j < end - 1:
            _substitute(n, factor, value, to, to + np.uint64(wide))
        if bare[i, j]:
            here = _place(i, j, first, shape[0], shape[1])
            _tally(n, loss, here, value, to, sums, np.uint64(first))
        # rows from j on are done, and still in the cache: turn them before they leave it
        if (j - begin) % TILE == 0:
            _turn(value, wide, j, min(j + TILE, end), low, high, turned, turned_wide, start)
    return _summed(sums, np.uint64(0), np.uint64(shape[1]))


def scratch_yz(shape: tuple[int, int, int]) -> tuple[Array, ...]:
    """Make what `sweep_yz` works in: a plane and its factors as it lies and turned, two rows.

    Parameters
    ----------
    shape : tuple of int
        Cells along x, y, z.

    Returns
    -------
    tuple of array
    """
    _, ny, nz = shape
    flat, upright = ny * (nz + PAD), nz * (ny + PAD)
    row = max(ny, nz)
    return tuple(np.zeros(size) for size in (flat, flat, upright, upright, row, row))


def scratch_x(shape: tuple[int, int, int]) -> tuple[Array, ...]:
    """Make what `sweep_x` works in: neighbouring rows of a plane and their factors, a row, misses and sums.

    Parameters
    ----------
    shape : tuple of int
        Cells along x, y, z.

    Returns
    -------
    tuple of array
    """
    nx, _, nz = shape
    together = max(1, min(CHUNK // nz, SCRATCH // (nx * nz)))
    size = nx * (together * nz + PAD)
    row = together * nz
    return np.zeros(size), np.zeros(size), np.zeros(nz), np.zeros(row), np.zeros(row)


@kernel
def sweep_yz(low, high, step, matter, rows, mean, power, gained, loss, delta, tally, scratch):
    """Work out the explicit right side and eliminate along y, then z.

    Parameters
    ----------
    low, high : int
        Planes low <= i < high.
    step : float
        [s].
    matter : Coefficients
        Capacities and conductances.
    rows : Rows
        Where there is matter.
    mean : array (cells,)
        Temperature of the explicit part [K].
    power : array (cells,)
        Entering through faces and by sources [W].
    gained : array (cells,)
        Temperature gained by reaction [K].
    loss : tuple of array
        Conductance of bare faces by axis [W/K].
    delta : array (cells,)
        Becomes the second increment [K].
    tally : array (nx,)
        Becomes what bare faces across y and z let pass by the increments [W].
    scratch : tuple of array
        From `scratch_yz`.
    """
    _, ny, nz = rows.shape
    flat = scratch[0], scratch[1], scratch[4]
    upright, sums = (scratch[2], scratch[3], scratch[4]), scratch[5]
    capacity, turned = matter.capacity, matter.capacity_turned
    along_y = rows.low, rows.high, rows.bare_y, capacity, matter.along_y, loss[1]
    along_z = (
        rows.turned_low, rows.turned_high, rows.bare_z, turned, matter.along_z_turned,
        loss[2],
    )  # fmt: skip
    for i in range(low, high):
        j_low, j_high, k_low, k_high = rows.box[i, 0], rows.box[i, 1], rows.box[i, 2], rows.box[i, 3]
        _forward_along_y(i, step, matter, rows, (mean, power, gained), along_y, flat)
        box = j_low, j_high, k_low, k_high
        passed = _backward(i, box, (ny, nz), along_y, (flat[0], flat[1], sums), upright[1], ny + PAD, 0)
        _forward_along_z(i, step, rows, (nz, ny), along_z, upright)
        box = k_low, k_high, j_low, j_high
        over = upright[0], upright[1], sums
        tally[i] = passed + _backward(i, box, (nz, ny), along_z, over, delta, nz, i * ny * nz)


@inlined
def _finish(n, here, steps, value, to, gained, reacts, fields, change, worst, at):
    """Write a row's new temperature, diffusive rate and its trend; keep the largest miss of the forecast."""
    heats, drifts, trends = fields
    pace, ahead = 1.0 / steps[0], 0.5 * (steps[0] + steps[1])
    share = 1.0 / ahead
    for k in range(n):
        heats[1][here + k] = heats[0][here + k] + value[to + k]
    # what the reaction gained is no part of the diffusive rate, or its leaps would be forecast too
    if reacts:
        for k in range(n):
            change[k] = value[to + k] - gained[here + k]
    else:
        for k in range(n):
            change[k] = value[to + k]
    for k in range(n):
        drifts[1][here + k] = change[k] * pace
    for k in range(n):
        change[k] = change[k] * pace - drifts[0][here + k]
    for k in range(n):
        trends[1][here + k] = change[k] * share
        worst[at + k] = _larger(abs(change[k] - ahead * trends[0][here + k]), worst[at + k])


@inlined
def _forward_along_x(i, span, step, rows, delta, lines, scratch):
    """Eliminate neighbouring rows of a plane against those of the plane before."""
    _, ny, nz = rows.shape
    capacity, along, loss = lines
    factor, value, weight = scratch
    begin, end, wide = span
    for j in range(begin, end):
        first = rows.low[i, j]
        n, at = np.uint64(rows.high[i, j] - first), (j - begin) * nz + first
        if n == 0:
            continue
        here, to = _place(i, j, first, ny, nz), _place(0, i, at, 0, wide)
        _weigh(n, 0.5 * step, capacity, here, rows.bare_x[i, j], loss, weight)
        # the same once more: capacity times the increment along z
        _multiply(n, capacity, delta, here, here, value, to)
        after, last = here + np.uint64(ny * nz), _place(0, max(i - 1, 0), at, 0, wide)
        _eliminate(n, 0.5 * step, 1.0, along, here, after, weight, factor, value, to, last)


@inlined
def _backward_along_x(i, span, steps, rows, gained, loss, scratch, fields, worst, sums):
    """Substitute neighbouring rows of a plane by those of the plane after, and finish them."""
    nx, ny, nz = rows.shape
    factor, value, change = scratch
    begin, end, wide = span
    for j in range(begin, end):
        first = rows.low[i, j]
        n, at = np.uint64(rows.high[i, j] - first), (j - begin) * nz + first
        if n == 0:
            continue
        here, to, place = _place(i, j, first, ny, nz), _place(0, i, at, 0, wide), np.uint64(at)
        if i < nx - 1:
            _substitute(n, factor, value, to, to + np.uint64(wide))
        if rows.bare_x[i, j]:
            _tally(n, loss, here, value, to, sums, place)
        reacts = rows.reacts[i, j]
        _finish(n, here, steps, value, to, gained, reacts, fields, change, worst, place)


@kernel
def sweep_x(low, high, steps, matter, rows, now, new, loss, gained, delta, tallies, scratch):
    """Eliminate along x and write the new temperature and rates.

    Parameters
    ----------
    low, high : int
        Planes low <= j < high.
    steps : tuple of float
        Lengths of this step and of the last [s].
    matter : Coefficients
        Capacities and conductances.
    rows : Rows
        Where there is matter.
    now, new : Field
        Before and after; `new` gets temperature, diffusive rate and its trend.
    loss : tuple of array
        Conductance of bare faces by axis [W/K].
    gained : array (cells,)
        Temperature gained by reaction [K].
    delta : array (cells,)
        Second increment [K].
    tallies : tuple of array (ny,)
        Become what bare faces across x let pass by the increments [W], and by how much the diffusive
        rate missed its forecast at most [K/s].
    scratch : tuple of array
        From `scratch_x`.
    """
    nx, _, nz = rows.shape
    tally, misses = tallies
    worst, sums = scratch[3], scratch[4]
    # several rows side by side: a sweep along x jumps a whole plane, too far for one short row
    together, wide = worst.size // nz, worst.size + PAD
    lines = matter.capacity, matter.along_x, loss[0]
    fields = (
        (now.temperature, new.temperature),
        (now.diffusive_rate, new.diffusive_rate),
        (now.diffusive_trend, new.diffusive_trend),
    )
    for begin in range(low, high, together):
        span = begin, min(begin + together, high), wide
        for k in range(np.uint64(worst.size)):
            worst[k] = 0.0
        for i in range(nx):
            _forward_along_x(i, span, steps[0], rows, delta, lines, scratch[:3])
        for i in range(nx - 1, -1, -1):
            _backward_along_x(i, span, steps, rows, gained, lines[2], scratch[:3], fields, worst, sums)
        for j in range(begin, span[1]):
            first, end = np.uint64((j - begin) * nz), np.uint64((j - begin + 1) * nz)
            tally[j], misses[j] = _summed(sums, first, end), 0.0
            for k in range(first, end):
                misses[j] = _larger(worst[k], misses[j])


@kernel
def diffusive_rate(low, high, matter, rows, temperature, power, rate):
    """Evaluate the rate of change by conduction and power as they stand.

    Parameters
    ----------
    low, high : int
        Planes low <= i < high.
    matter : Coefficients
        Capacities and conductances.
    rows : Rows
        Where there is matter.
    temperature : array (cells,)
        [K].
    power : array (cells,)
        [W].
    rate : array (cells,)
        Written [K/s].
    """
    _, ny, nz = rows.shape
    along = matter.along_x, matter.along_y, matter.along_z
    for i in range(low, high):
        for j in range(rows.box[i, 0], rows.box[i, 1]):
            first = rows.low[i, j]
            n, here = np.uint64(rows.high[i, j] - first), _place(i, j, first, ny, nz)
            if n > 0:
                _explicit_row(i, j, n, first, rows.shape, along, temperature, rate, here)
                for k in range(here, here + n):
                    rate[k] = (rate[k] + power[k]) / matter.capacity[k]
