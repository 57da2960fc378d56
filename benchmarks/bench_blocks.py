"""Space blocks on four pieces: share of the bound, and what search and bound take, in one compiled process.

Goal: within 6 % of the bound for the same number, module and least block on each, 3 % on average, 5 s each.
Baseline: the largest cuboid again and again, what one would write first; it has the same cells, stock, number
and least side. Both are held against the same bound.
"""

from time import perf_counter

import numpy as np

from benchmarks.block_pieces import PIECES
from pourwright.geometry import Mesh
from pourwright.geometry.cuboid_kernels import largest_cuboid
from pourwright.mold.blocks.bound import most_wood
from pourwright.mold.blocks.room import BlockRoom, block_room
from pourwright.mold.blocks.search import fill_room
from pourwright.mold.defaults import DEFAULTS

WALL, BASE, MODULE = 0.02, 0.019, 0.018
LEAST, WORTH = DEFAULTS["least_block"].value, DEFAULTS["least_displaced"].value
NUMBERS = (8, 12, 16)


def room_of(mesh: Mesh, method: str) -> BlockRoom:
    """The box of a piece in cells of 18 mm."""
    x, y, z = (float(side) for side in mesh.bounds[1] - mesh.bounds[0])
    inside = (x + 2 * WALL, y + 2 * WALL, z + BASE)
    return block_room(mesh, inside, BASE, WALL, MODULE, LEAST, method)


def by_largest(room: BlockRoom, most: int) -> float:
    """Volume of the largest cuboid, the largest of what is left, and so on [m3]."""
    free, whole = room.free.copy(), 0.0
    for _ in range(most):
        block = largest_cuboid(free, room.grid.axes, room.grid.axes, room.held, room.least, room.slack)
        volume = float(room.volume(block)[0])
        if volume < WORTH:
            break
        free[block[0] : block[1], block[2] : block[3], block[4] : block[5]] = False
        whole += volume
    return whole


def main() -> None:
    """Print the table."""
    warm = room_of(PIECES["bracket"](), "hung")
    most_wood(warm, 2, fill_room(warm, 2, WORTH, rounds=5).volume)
    by_largest(warm, 1)
    print("piece             most  blocks   hold     bound    share   largest first   cells   search   bound")
    for most in NUMBERS:
        shares = []
        for name, make in PIECES.items():
            mesh, begun = make(), perf_counter()
            room = room_of(mesh, "screwed" if name == "hourglass" else "hung")
            cells = perf_counter()
            found = fill_room(room, most, WORTH)
            searched = perf_counter()
            bound = most_wood(room, len(found.corners), found.volume)
            bounded = perf_counter()
            shares.append(found.volume / bound)
            print(
                f"{name:17s} {most:4d} {len(found.corners):7d} {1e3 * found.volume:7.2f} l"
                f" {1e3 * bound:7.2f} l"
                f" {shares[-1]:7.1%} {by_largest(room, most) / bound:15.1%} {cells - begun:7.2f}"
                f" {searched - cells:7.2f} s {bounded - searched:6.2f} s"
            )
        print(f"{'':17s} {most:4d} {'on average':>33s} {np.mean(shares):8.1%}, least {min(shares):.1%}")
