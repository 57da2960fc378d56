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
def runs_of(sums: Integers, i0: int, i1: int, j0: int, j1: int, out: Integers) -> int:
    """Write the longest runs of free cells along z over a rectangle of columns into out; return how many."""
    found, start, last = 0, -1, 0
    whole, count = (i1 - i0) * (j1 - j0), sums.shape[2] - 1
    for k in range(count):
        below = sums[i1, j1, k + 1] - sums[i0, j1, k + 1] - sums[i1, j0, k + 1] + sums[i0, j0, k + 1]
        full = below - last == whole
        last = below
        if full and start < 0:
            start = k
        if not full and start >= 0:
            out[found, 0], out[found, 1] = start, k
            found += 1
            start = -1
    if start >= 0:
        out[found, 0], out[found, 1] = start, count
        found += 1
    return found


@njit(cache=True)
def touches(held: Bools, face: int, first: int, last: int, count: int) -> bool:
    """Say whether a run of cells along an axis ends at a face that holds."""
    return bool((held[face] and first == 0) or (held[face + 1] and last == count))


@njit(cache=True)
def all_runs(free: Bools) -> Integers:
    """List the longest runs of free cells along z over every rectangle of columns, by corners (n, 6)."""
    sums = free_sums(free)
    nx, ny, nz = free.shape
    runs, listed, found = np.empty((nz + 1, 2), dtype=np.int64), np.empty((1024, 6), dtype=np.int64), 0
    for i0 in range(nx):
        for i1 in range(i0 + 1, nx + 1):
            before = found
            for j0 in range(ny):
                for j1 in range(j0 + 1, ny + 1):
                    count = runs_of(sums, i0, i1, j0, j1, runs)
                    # a wider rectangle has none either
                    if count == 0:
                        break
                    if found + count > len(listed):
                        listed = np.concatenate((listed, np.empty_like(listed)))
                    for n in range(count):
                        listed[found] = i0, i1, j0, j1, runs[n, 0], runs[n, 1]
                        found += 1
            if found == before:
                break
    return listed[:found]


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
    z = lines[2]
    wx, wy, wz = weighed
    corners, largest = np.zeros(6, dtype=np.int64), 0.0
    for i0, i1, j0, j1, k0, k1 in all_runs(free):
        tall = (wx[i1] - wx[i0]) * (wy[j1] - wy[j0]) * (wz[k1] - wz[k0])
        if tall <= largest or too_narrow(lines, i0, i1, j0, j1, least):
            continue
        side, odd = stands(free, held, slack, i0, i1, j0, j1)
        if may_stand(z, k0, k1, side, held, least[2], odd):
            largest = tall
            corners[:] = i0, i1, j0, j1, k0, k1
    return corners


@njit(cache=True)
def too_narrow(
    lines: tuple[Floats, Floats, Floats], i0: int, i1: int, j0: int, j1: int, least: Floats
) -> bool:
    """Say whether a rectangle of columns has a side below the shortest."""
    return bool(lines[0][i1] - lines[0][i0] < least[0] or lines[1][j1] - lines[1][j0] < least[1])


@njit(cache=True)
def stands(free: Bools, held: Bools, slack: Integers, i0: int, i1: int, j0: int, j1: int) -> tuple[bool, int]:
    """Say whether a side holds a rectangle of columns, and which cell along z it must not hold, or -1."""
    side = touches(held, 0, i0, i1, free.shape[0]) or touches(held, 2, j0, j1, free.shape[1])
    return side, slack[2] if i0 <= slack[0] < i1 and j0 <= slack[1] < j1 else -1


@njit(cache=True)
def may_stand(z: Floats, k0: int, k1: int, side: bool, held: Bools, least: float, odd: int) -> bool:
    """Say whether part of a run is thick enough, held, and without the cell that makes it no multiple."""
    if z[k1] - z[k0] < least or k0 <= odd < k1:
        return False
    return side or touches(held, 4, k0, k1, z.size - 1)
