"""How much wood no arrangement of space blocks can exceed, by other means than the search."""

from __future__ import annotations

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array, hstack, identity, vstack

from pourwright.geometry.cuboid_kernels import widest_cuboids
from pourwright.mold.blocks.room import BlockRoom

SECONDS = 3.0
MOST = 20_000


def most_wood(room: BlockRoom, most: int) -> float:
    """Bound the volume of blocks from above.

    Parameters
    ----------
    room : BlockRoom
        The box in cells.
    most : int
        Blocks at most.

    Returns
    -------
    float
        Volume [m3].

    Notes
    -----
    Every block lies in a cuboid of free cells that no larger one holds. So many of those cover as many cells
    as any so many blocks; which cover most is an integer program (k-coverage), and what its solver proves
    within three seconds is the bound. Where there are more than 20,000 of them it is all free cells.
    """
    cells = np.argwhere(room.free)
    widths = [np.diff(axis) for axis in room.grid.axes]
    volumes = np.prod([widths[n][cells[:, n]] for n in range(3)], axis=0) if len(cells) else np.zeros(0)
    corners, found = widest_cuboids(room.free, *room.grid.axes, room.held, room.least, MOST)
    if found == 0:
        return 0.0
    if found > MOST:
        return float(volumes.sum())
    covers = _covers(room, corners)
    reached = np.asarray(covers.sum(axis=1)).ravel() > 0
    return _covered(covers[reached], volumes[reached], most)


def _covers(room: BlockRoom, corners: np.ndarray[tuple[int, ...], np.dtype[np.int64]]) -> csr_array:
    """Which cell (row) lies in which cuboid (column)."""
    number = np.full(room.free.shape, -1)
    number[room.free] = np.arange(room.free.sum())
    held = [number[b[0] : b[1], b[2] : b[3], b[4] : b[5]].ravel() for b in corners]
    columns = np.repeat(np.arange(len(held)), [len(each) for each in held])
    rows = np.concatenate(held)
    return csr_array((np.ones(len(rows)), (rows, columns)), shape=(int(room.free.sum()), len(held)))


def _covered(covers: csr_array, volumes: np.ndarray[tuple[int], np.dtype[np.float64]], most: int) -> float:
    cells, cuboids = covers.shape
    scale = float(volumes.sum())
    # choose cuboids x, count cells y <= sum of x over those that hold them
    gain = np.concatenate([np.zeros(cuboids), -volumes / scale])
    seen = hstack([-covers, identity(cells)], format="csr")
    few = csr_array(np.concatenate([np.ones(cuboids), np.zeros(cells)])[None, :])
    limits = np.concatenate([np.zeros(cells), [float(most)]])
    found = milp(
        gain,
        constraints=LinearConstraint(vstack([seen, few], format="csr"), -np.inf, limits),
        bounds=Bounds(0.0, 1.0),
        integrality=np.concatenate([np.ones(cuboids), np.zeros(cells)]),
        options={"time_limit": SECONDS, "mip_rel_gap": 0.002},
    )
    proven = getattr(found, "mip_dual_bound", None)
    return scale * min(1.0, -float(proven)) if proven is not None else scale
