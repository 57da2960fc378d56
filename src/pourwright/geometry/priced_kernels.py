"""Compiled loops for the dearest cuboid of priced cells: code of the bound, nothing of the search in it."""

import numpy as np
import numpy.typing as npt
from numba import njit

from pourwright.geometry.mesh import Floats, Integers

Bools = npt.NDArray[np.bool_]


@njit(cache=True)
def summed(values: Floats) -> Floats:
    """Sum the values of all cells below each corner of the grid (nx + 1, ny + 1, nz + 1)."""
    nx, ny, nz = values.shape
    sums = np.zeros((nx + 1, ny + 1, nz + 1))
    for i in range(nx):
        for j in range(ny):
            row = 0.0
            for k in range(nz):
                row += values[i, j, k]
                sums[i + 1, j + 1, k + 1] = (
                    sums[i, j + 1, k + 1] + sums[i + 1, j, k + 1] - sums[i, j, k + 1] + row
                )
    return sums


@njit(cache=True)
def dearest_cuboid(
    taken: Floats, values: Floats, lines: tuple[Floats, Floats, Floats], held: Bools, least: Floats,
    slack: Integers, corners: Integers,
) -> float:  # fmt: skip
    """Write the corners of the cuboid of free cells whose values add up to most; return that sum, at least 0.

    taken: sums below each corner of 1 for every cell that is not free. held, least and slack as for
    `largest_cuboid`.
    """
    x, y, z = lines
    sums = summed(values)
    nx, ny, nz = values.shape
    running, full, dearest = np.zeros(nz + 1), np.zeros(nz, dtype=np.bool_), 0.0
    corners[:] = 0
    for i0 in range(nx):
        for i1 in range(i0 + 1, nx + 1):
            some = False
            for j0 in range(ny):
                for j1 in range(j0 + 1, ny + 1):
                    # a wider rectangle of columns has no whole layer either
                    if not layers(taken, sums, i0, i1, j0, j1, running, full):
                        break
                    some = True
                    if x[i1] - x[i0] < least[0] or y[j1] - y[j0] < least[1]:
                        continue
                    if i0 <= slack[0] < i1 and j0 <= slack[1] < j1 and slack[2] >= 0:
                        full[slack[2]] = False
                    side = (held[0] and i0 == 0) or (held[1] and i1 == nx)
                    side = side or (held[2] and j0 == 0) or (held[3] and j1 == ny)
                    sum_, first, last = dearest_stretch(running, full, z, least[2], side, held)
                    if sum_ > dearest:
                        dearest = sum_
                        corners[:] = np.array([i0, i1, j0, j1, first, last])
            if not some:
                break
    return dearest


@njit(cache=True)
def layers(
    taken: Floats, sums: Floats, i0: int, i1: int, j0: int, j1: int, running: Floats, full: Bools
) -> bool:
    """Write running sums over a rectangle of columns, and which layers are free; return whether any is."""
    some, before = False, 0.0
    for k in range(full.size):
        n = k + 1
        running[n] = sums[i1, j1, n] - sums[i0, j1, n] - sums[i1, j0, n] + sums[i0, j0, n]
        shut = taken[i1, j1, n] - taken[i0, j1, n] - taken[i1, j0, n] + taken[i0, j0, n]
        full[k] = shut == before
        some = some or full[k]
        before = shut
    return some


@njit(cache=True)
def dearest_stretch(
    running: Floats, full: Bools, z: Floats, least: float, side: bool, held: Bools
) -> tuple[float, int, int]:
    """Give the stretch of free layers with the largest sum: the largest difference of two running sums.

    A stretch that no side holds starts at a held low end or ends at a held high end.
    """
    best, first, last = 0.0, 0, 0
    start, any_start, held_start = 0, -1, -1
    for k in range(full.size):
        if not full[k]:
            start, any_start, held_start = k + 1, -1, -1
            continue
        while start <= k and z[k + 1] - z[start] >= least:
            if any_start < 0 or running[start] < running[any_start]:
                any_start = start
            holds = side or (held[4] and start == 0)
            if holds and (held_start < 0 or running[start] < running[held_start]):
                held_start = start
            start += 1
        begun = any_start if held[5] and k + 1 == full.size else held_start
        if begun >= 0 and running[k + 1] - running[begun] > best:
            best, first, last = running[k + 1] - running[begun], begun, k + 1
    return best, first, last
