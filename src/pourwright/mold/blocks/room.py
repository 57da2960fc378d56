"""Where space blocks may be: the box in cells of the stock's thickness, and which of them keep clear."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from pourwright.geometry import Grid, Mesh
from pourwright.geometry.clearance import clear_cells
from pourwright.geometry.cuboid_kernels import all_runs

Array = NDArray[np.float64]
Bools = NDArray[np.bool_]
Integers = NDArray[np.int64]
HAIR = 1e-6


@dataclass(frozen=True, eq=False)
class BlockRoom:
    """The inside of the box in cells.

    Parameters
    ----------
    grid : Grid
        Lines at multiples of the module from either panel; what is left over lies in the middle [m].
    free : array (nx, ny, nz)
        Cells that keep the least rubber from the piece.
    held : array (6,)
        Whether a block may be screwed to what lies at low x, high x, low y, high y, low z, high z.
    least : array (3,)
        Shortest side of a block [m].
    slack : array (3,)
        The cell along each axis that is no multiple of the module; -1 where there is none.
    """

    grid: Grid
    free: Bools
    held: Bools
    least: Array
    slack: Integers

    @cached_property
    def work(self) -> int:
        """Runs over all rectangles of columns: how long a look at all cuboids takes."""
        return max(len(all_runs(self.free)), 1)

    def volume(self, corners: Integers) -> Array:
        """Volume of cuboids of cells (n, 6) [m3]."""
        cuts = np.atleast_2d(corners)
        sides = [axis[cuts[:, 2 * n + 1]] - axis[cuts[:, 2 * n]] for n, axis in enumerate(self.grid.axes)]
        return np.asarray(sides[0] * sides[1] * sides[2])


def block_room(
    mesh: Mesh,
    inside: tuple[float, float, float],
    base: float,
    wall: float,
    module: float,
    least: float,
    method: str,
) -> BlockRoom:
    """Cut the box into cells and find those that blocks may fill.

    Parameters
    ----------
    mesh : Mesh
        The piece in the pour frame [m].
    inside : tuple of float
        Inside of the box [m].
    base : float
        Rubber under the piece [m].
    wall : float
        Least rubber around it [m].
    module : float
        Thickness of the stock: sides of blocks are whole multiples of it [m].
    least : float
        Shortest side of a block [m].
    method : str
        "hung" or "screwed": a screwed master's base board is at the mouth.

    Returns
    -------
    BlockRoom
    """
    x, slack_x = _lines(-inside[0] / 2, inside[0], module)
    y, slack_y = _lines(-inside[1] / 2, inside[1], module)
    z, slack_z = _lines(-base, inside[2], module)
    grid = Grid(x, y, z)
    hung = method == "hung"
    return BlockRoom(
        grid,
        clear_cells(mesh, grid, max(wall, base)) if wall == base else _clear(mesh, grid, wall, base),
        np.array([True, True, True, True, hung, not hung]),
        np.full(3, least - HAIR),
        np.array([slack_x, slack_y, slack_z]),
    )


def _clear(mesh: Mesh, grid: Grid, wall: float, base: float) -> Bools:
    """Beside the piece its wall, below it the base."""
    free = clear_cells(mesh, grid, wall)
    if base > wall:
        below = grid.z[:-1] < float(mesh.bounds[0, 2])
        free[:, :, below] &= clear_cells(mesh, grid, base)[:, :, below]
    return free


def _lines(start: float, length: float, module: float) -> tuple[Array, int]:
    """Multiples of the module from both ends, and which cell holds what is left over."""
    count = int((length + HAIR) / module)
    left = length - count * module
    if left <= HAIR:
        return start + length * np.arange(count + 1) / count, -1
    low = (count + 1) // 2
    near = start + module * np.arange(low + 1)
    far = start + length - module * np.arange(count - low, -1, -1)
    return np.concatenate([near, far]), low
