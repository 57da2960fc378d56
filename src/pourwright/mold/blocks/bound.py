"""How much wood no arrangement of space blocks can exceed, by other means than the search."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from pourwright.geometry.priced_kernels import dearest_cuboid, summed
from pourwright.mold.blocks.room import BlockRoom

Array = NDArray[np.float64]
LOOKS, WORK = 2500, 5e8
"""Looks for the dearest block at most; cells that all of them together go through, about two seconds."""
NEAR, ROUND_OFF = 2e-3, 1e-9
SMOOTH, LONGER, SHORTER, PATIENCE = 0.1, 1.1, 0.8, 10


def most_wood(room: BlockRoom, most: int, reached: float = 0.0, looks: int | None = None) -> float:
    """Bound the volume of blocks from above.

    Parameters
    ----------
    room : BlockRoom
        The box in cells.
    most : int
        Blocks at most.
    reached : float
        Volume that an arrangement is known to hold [m3]: the looks end near it. Any number gives a bound.
    looks : int, optional
        For better prices; more in small rooms where left out.

    Returns
    -------
    float
        Volume [m3].

    Notes
    -----
    Put a price on every cell, 0 or more. No cell lies in two blocks, so that many blocks hold no more than
    the prices of all cells together and, for each block, what the dearest of all admissible cuboids holds
    beyond its cells' prices. That is so for any prices (Lagrange's dual of packing cuboids); those that
    bound best are sought by the volume algorithm of Barahona and Anbil, Math. Program. 87 (2000) 385.
    """
    free = room.free
    if most < 1 or not free.any():
        return 0.0
    cells = _volumes(room)
    whole = float(cells.sum())
    taken = summed(np.where(free, 0.0, 1.0))
    corners = np.zeros(6, dtype=np.int64)
    prices, best_prices, best = np.zeros(free.shape), np.zeros(free.shape), np.inf
    direction, length, since = np.zeros(free.shape), 1.0, 0
    for look in range(_looks(room) if looks is None else looks):
        dearest = dearest_cuboid(
            taken, cells - prices, room.grid.axes, room.held, room.least, room.slack, corners
        )
        bound = float(prices.sum()) + most * dearest
        if bound < best * (1 - ROUND_OFF):
            best, best_prices, since = bound, prices, 0
            length *= LONGER
        else:
            since += 1
        if since == PATIENCE:
            length, since = length * SHORTER, 0
        if best <= reached * (1 + NEAR):
            break
        # dearer where more than one block wants a cell, cheaper where none does
        missing = np.where(free, 1.0, 0.0)
        missing[corners[0] : corners[1], corners[2] : corners[3], corners[4] : corners[5]] -= most
        direction = missing if look == 0 else (1 - SMOOTH) * direction + SMOOTH * missing
        step = length * (bound - min(reached, bound)) / max(float((direction**2).sum()), ROUND_OFF)
        prices = np.maximum(best_prices - step * direction, 0.0) * free
    return min(best, whole) * (1 + ROUND_OFF)


def _volumes(room: BlockRoom) -> Array:
    """Of every free cell [m3]; 0 of the others."""
    x, y, z = (np.diff(axis) for axis in room.grid.axes)
    return np.asarray(x[:, None, None] * y[:, None] * z * room.free)


def _looks(room: BlockRoom) -> int:
    """As many as take the same time in every room."""
    return int(np.clip(WORK / (room.work * room.free.shape[2]), 300, LOOKS))
