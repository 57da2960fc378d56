"""Compiled loops over pairs of cuboids of free cells that do not meet: a plane lies between them."""

import numpy as np
from numba import njit

from pourwright.geometry.cuboid_kernels import Bools, all_runs, may_stand, stands, too_narrow, touches
from pourwright.geometry.mesh import Floats, Integers


@njit(cache=True)
def largest_pair(
    free: Bools, lines: tuple[Floats, Floats, Floats], weighed: tuple[Floats, Floats, Floats], held: Bools,
    least: Floats, slack: Integers,
) -> Integers:  # fmt: skip
    """Give the corners of the two cuboids that are largest together (2, 6); as `largest_cuboid`.

    For every line of the grid the largest cuboid before it and the largest behind it are kept; the best sum
    of the two is the best pair. A row of 0 where there is none.
    """
    z = lines[2]
    wx, wy, wz = weighed
    nx, ny, nz = free.shape
    many = max(nx, ny, nz) + 1
    sizes, found = np.zeros((2, 3, many)), np.zeros((2, 3, many, 6), dtype=np.int64)
    for block in all_runs(free):
        i0, i1, j0, j1, k0, k1 = block
        side, odd = stands(free, held, slack, i0, i1, j0, j1)
        if too_narrow(lines, i0, i1, j0, j1, least) or not (side or touches(held, 4, k0, k1, nz)):
            continue
        flat = (wx[i1] - wx[i0]) * (wy[j1] - wy[j0])
        if may_stand(z, k0, k1, side, held, least[2], odd):
            note(sizes, found, flat * (wz[k1] - wz[k0]), block)
        # a plane across the run leaves its lower or its upper part
        for k in range(k0 + 1, k1):
            low, high = flat * (wz[k] - wz[k0]), flat * (wz[k1] - wz[k])
            if low > sizes[0, 2, k] and may_stand(z, k0, k, side, held, least[2], odd):
                sizes[0, 2, k] = low
                found[0, 2, k] = i0, i1, j0, j1, k0, k
            if high > sizes[1, 2, k] and may_stand(z, k, k1, side, held, least[2], odd):
                sizes[1, 2, k] = high
                found[1, 2, k] = i0, i1, j0, j1, k, k1
    return best_split(sizes, found, np.array([nx, ny, nz]))


@njit(cache=True)
def note(sizes: Floats, found: Integers, size: float, block: Integers) -> None:
    """Keep a block for the planes that it ends at, if none so large is known there."""
    for axis in range(3):
        before, behind = block[2 * axis + 1], block[2 * axis]
        if size > sizes[0, axis, before]:
            sizes[0, axis, before], found[0, axis, before] = size, block
        if size > sizes[1, axis, behind]:
            sizes[1, axis, behind], found[1, axis, behind] = size, block


@njit(cache=True)
def best_split(sizes: Floats, found: Integers, counts: Integers) -> Integers:
    """Choose the plane with the largest blocks on both sides."""
    pair, best = np.zeros((2, 6), dtype=np.int64), 0.0
    for axis in range(3):
        count = counts[axis]
        for n in range(1, count + 1):
            if sizes[0, axis, n - 1] > sizes[0, axis, n]:
                sizes[0, axis, n] = sizes[0, axis, n - 1]
                found[0, axis, n] = found[0, axis, n - 1]
        for n in range(count - 1, -1, -1):
            if sizes[1, axis, n + 1] > sizes[1, axis, n]:
                sizes[1, axis, n] = sizes[1, axis, n + 1]
                found[1, axis, n] = found[1, axis, n + 1]
        for n in range(count + 1):
            if sizes[0, axis, n] + sizes[1, axis, n] > best:
                best = sizes[0, axis, n] + sizes[1, axis, n]
                pair[0], pair[1] = found[0, axis, n], found[1, axis, n]
    return pair
