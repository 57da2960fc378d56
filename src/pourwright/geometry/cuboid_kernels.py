"""Compiled loops over the cuboids of free cells in a grid."""

import numpy as np
import numpy.typing as npt
from numba import njit

from pourwright.geometry.mesh import Floats, Integers

Bools = npt.NDArray[np.bool_]


@njit(cache=True)
def free_sums(free: Bools) -> Integers:
    """Count the free cells below each corner of the grid (nx + 1, ny + 1, nz + 1)."""
    nx, ny, nz = free.shape
    sums = np.zeros((nx + 1, ny + 1, nz + 1), dtype=np.int64)
    for i in range(nx):
        for j in range(ny):
            row = 0
            for k in range(nz):
                row += free[i, j, k]
                sums[i + 1, j + 1, k + 1] = (
                    sums[i, j + 1, k + 1] + sums[i + 1, j, k + 1] - sums[i, j, k + 1] + row
                )
    return sums


@njit(cache=True)
def all_free(sums: Integers, i0: int, i1: int, j0: int, j1: int, k0: int, k1: int) -> bool:
    """Say whether every cell of a cuboid is free."""
    upper = sums[i1, j1, k1] - sums[i0, j1, k1] - sums[i1, j0, k1] + sums[i0, j0, k1]
    lower = sums[i1, j1, k0] - sums[i0, j1, k0] - sums[i1, j0, k0] + sums[i0, j0, k0]
    return bool(upper - lower == (i1 - i0) * (j1 - j0) * (k1 - k0))


@njit(cache=True)
def runs_of(sums: Integers, i0: int, i1: int, j0: int, j1: int, out: Integers) -> int:
    """Write the longest runs along z over a rectangle of columns into out; return how many."""
    found, start = 0, -1
    for k in range(sums.shape[2]):
        full = k < sums.shape[2] - 1 and all_free(sums, i0, i1, j0, j1, k, k + 1)
        if full and start < 0:
            start = k
        if not full and start >= 0:
            out[found, 0], out[found, 1] = start, k
            found += 1
            start = -1
    return found


@njit(cache=True)
def largest_cuboid(
    free: Bools, lines: tuple[Floats, Floats, Floats], weighed: tuple[Floats, Floats, Floats], held: Bools,
    least: Floats, slack: Integers,
) -> Integers:  # fmt: skip
    """Give the corners of the largest free cuboid that touches a held face; all 0 where there is none.

    Sides are measured by ``lines``, largest is meant by ``weighed``, which may be the same. held: which of
    the six faces of the grid hold (low x, high x, low y, high y, low z, high z). least: shortest side along
    each axis. slack: the cell along each axis that is no multiple of the module, or -1: no
    cuboid holds all three.
    """
    x, y, z = lines
    wx, wy, wz = weighed
    sums = free_sums(free)
    nx, ny, nz = free.shape
    corners, largest = np.zeros(6, dtype=np.int64), 0.0
    runs = np.empty((nz + 1, 2), dtype=np.int64)
    highest = np.diff(wz).max()
    for i0 in range(nx):
        for i1 in range(i0 + 1, nx + 1):
            if x[i1] - x[i0] < least[0]:
                continue
            for j0 in range(ny):
                for j1 in range(j0 + 1, ny + 1):
                    flat = (wx[i1] - wx[i0]) * (wy[j1] - wy[j0])
                    count = sums[i1, j1, nz] - sums[i0, j1, nz] - sums[i1, j0, nz] + sums[i0, j0, nz]
                    if y[j1] - y[j0] < least[1] or flat * highest * count <= largest * (i1 - i0) * (j1 - j0):
                        continue
                    side = touches(held, 0, i0, i1, nx) or touches(held, 2, j0, j1, ny)
                    middle = i0 <= slack[0] < i1 and j0 <= slack[1] < j1
                    for n in range(runs_of(sums, i0, i1, j0, j1, runs)):
                        k0, k1 = runs[n]
                        tall = flat * (wz[k1] - wz[k0])
                        if z[k1] - z[k0] < least[2] or tall <= largest or (middle and k0 <= slack[2] < k1):
                            continue
                        if side or touches(held, 4, k0, k1, nz):
                            largest = tall
                            corners[:] = np.array([i0, i1, j0, j1, k0, k1])
    return corners


@njit(cache=True)
def touches(held: Bools, face: int, first: int, last: int, count: int) -> bool:
    """Say whether a run of cells along an axis ends at a face that holds."""
    return bool((held[face] and first == 0) or (held[face + 1] and last == count))


@njit(cache=True)
def widest_cuboids(
    free: Bools, x: Floats, y: Floats, z: Floats, held: Bools, least: Floats, most: int
) -> tuple[Integers, int]:
    """List every free cuboid that touches a held face and lies in no larger one; return how many there are.

    The list ends at ``most``; the count goes on, so that a reader knows whether it is whole.
    """
    sums = free_sums(free)
    nx, ny, nz = free.shape
    corners = np.zeros((most, 6), dtype=np.int64)
    runs = np.empty((nz + 1, 2), dtype=np.int64)
    found = 0
    for i0 in range(nx):
        for i1 in range(i0 + 1, nx + 1):
            if x[i1] - x[i0] < least[0]:
                continue
            for j0 in range(ny):
                for j1 in range(j0 + 1, ny + 1):
                    if y[j1] - y[j0] < least[1]:
                        continue
                    side = touches(held, 0, i0, i1, nx) or touches(held, 2, j0, j1, ny)
                    for n in range(runs_of(sums, i0, i1, j0, j1, runs)):
                        k0, k1 = runs[n]
                        stands = z[k1] - z[k0] >= least[2] and (side or touches(held, 4, k0, k1, nz))
                        if not stands or grows(sums, i0, i1, j0, j1, k0, k1):
                            continue
                        if found < most:
                            corners[found] = np.array([i0, i1, j0, j1, k0, k1])
                        found += 1
    return corners[: min(found, most)], found


@njit(cache=True)
def grows(sums: Integers, i0: int, i1: int, j0: int, j1: int, k0: int, k1: int) -> bool:
    """Say whether a layer of free cells lies beside a cuboid, along x or y."""
    nx, ny = sums.shape[0] - 1, sums.shape[1] - 1
    if (i0 > 0 and all_free(sums, i0 - 1, i0, j0, j1, k0, k1)) or (
        i1 < nx and all_free(sums, i1, i1 + 1, j0, j1, k0, k1)
    ):
        return True
    return bool(
        (j0 > 0 and all_free(sums, i0, i1, j0 - 1, j0, k0, k1))
        or (j1 < ny and all_free(sums, i0, i1, j1, j1 + 1, k0, k1))
    )
