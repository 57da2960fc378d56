"""Space blocks of a mold: from the box to cuboids with the panel that each is screwed to."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from pourwright.mold.blocks.asked import BlocksAsked, room_of
from pourwright.mold.blocks.glue_up import glue_up
from pourwright.mold.blocks.room import BlockRoom
from pourwright.mold.blocks.search import fill_room
from pourwright.mold.space_block import Point, SpaceBlock, Wall

WALLS: tuple[Wall, ...] = ("left", "right", "front", "back", "base", "base")


@lru_cache(maxsize=16)
def placed_blocks(asked: BlocksAsked) -> tuple[SpaceBlock, ...]:
    """Place space blocks.

    Parameters
    ----------
    asked : BlocksAsked
        Box, piece and stock.

    Returns
    -------
    tuple of SpaceBlock
        Largest first.
    """
    room = room_of(asked)
    found = fill_room(room, asked.most, asked.worth, asked.seed)
    blocks = [_block(room, corners, asked.stock) for corners in found.corners]
    return tuple(sorted(blocks, key=lambda block: (-round(block.volume, 9), block.lower)))


def _block(room: BlockRoom, corners: NDArray[np.int64], stock: tuple[float, ...]) -> SpaceBlock:
    lines = list(zip(room.grid.axes, corners[0::2], corners[1::2], strict=True))
    low = np.array([axis[first] for axis, first, _ in lines])
    high = np.array([axis[last] for axis, _, last in lines])
    wall = max(_walls(room, corners, high - low))[1]
    layers = glue_up(_point(high - low), stock).layers
    return SpaceBlock(_point(low), _point(high), WALLS[wall], layers)


def _point(place: NDArray[np.float64]) -> Point:
    x, y, z = (float(each) for each in place)
    return (x, y, z)


def _walls(
    room: BlockRoom, corners: NDArray[np.int64], sides: NDArray[np.float64]
) -> Iterator[tuple[float, int]]:
    """Faces that hold the block, by their contact area; of equal ones the later."""
    for axis, count in enumerate(room.free.shape):
        area = round(float(np.prod(np.delete(sides, axis))), 9)
        for end, touches in enumerate((corners[2 * axis] == 0, corners[2 * axis + 1] == count)):
            if touches and room.held[2 * axis + end]:
                yield area, 2 * axis + end
