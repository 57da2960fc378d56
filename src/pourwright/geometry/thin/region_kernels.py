"""Compiled union of scattered places in rising order of their size."""

import numpy as np
import numpy.typing as npt
from numba import njit

from pourwright.geometry.mesh import Floats, Integers


@njit(cache=True)
def lasting(
    order: Integers, sizes: Floats, near: Integers, links: npt.NDArray[np.bool_], grown: float
) -> npt.NDArray[np.bool_]:
    """Mark the smallest place of every region that has grown so many times before it meets a smaller one.

    order : places (n,) in rising order; near (n, k) and links: what lies beside each, where it is linked.
    """
    count = len(sizes)
    others, starts = both_ways(near, links)
    root, lasts = np.full(count, -1), np.zeros(count, dtype=np.bool_)
    for here in order:
        root[here] = here
        for other in others[starts[here] : starts[here + 1]]:
            if root[other] < 0:
                continue
            low, high = root_of(root, here), root_of(root, other)
            if low == high:
                continue
            if sizes[high] < sizes[low] or (sizes[high] == sizes[low] and high < low):
                low, high = high, low
            lasts[high] |= sizes[here] > grown * sizes[high]
            root[high] = low
    for here in range(count):
        lasts[root_of(root, here)] = True
    return lasts


@njit(cache=True)
def root_of(root: Integers, one: int) -> int:
    """Follow a place to the smallest of its region, and shorten the way there."""
    while root[one] != one:
        root[one] = root[root[one]]
        one = root[one]
    return one


@njit(cache=True)
def both_ways(near: Integers, links: npt.NDArray[np.bool_]) -> tuple[Integers, Integers]:
    """List what is linked to each place, by itself or by the other, and where each list starts."""
    count = len(near)
    starts = np.zeros(count + 2, dtype=np.int64)
    for one in range(count):
        for k in range(near.shape[1]):
            if links[one, k] and near[one, k] != one:
                starts[one + 2] += 1
                starts[near[one, k] + 2] += 1
    for one in range(count):
        starts[one + 2] += starts[one + 1]
    others = np.empty(starts[count + 1], dtype=np.int64)
    for one in range(count):
        for k in range(near.shape[1]):
            other = near[one, k]
            if links[one, k] and other != one:
                others[starts[one + 1]] = other
                starts[one + 1] += 1
                others[starts[other + 1]] = one
                starts[other + 1] += 1
    return others, starts
