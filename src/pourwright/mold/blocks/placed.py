"""Space blocks of a mold: from the box to cuboids with the panel that each is screwed to."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from pourwright.geometry import Mesh
from pourwright.mold.blocks.block import Point, SpaceBlock, Wall
from pourwright.mold.blocks.room import HAIR, BlockRoom, block_room
from pourwright.mold.blocks.search import fill_room

WALLS: tuple[Wall, ...] = ("left", "right", "front", "back", "base", "base")


@dataclass(frozen=True)
class BlocksAsked:
    """All that space blocks depend on; the same question has the same answer.

    Parameters
    ----------
    mesh : Mesh
        The piece in the pour frame [m]; told from others by its ``digest``.
    inside : tuple of float
        Of the box [m].
    base, wall : float
        Rubber under and around the piece [m].
    method : str
        "hung" or "screwed".
    stock : tuple of float
        Thicknesses of the board [m].
    least : float
        Shortest side [m].
    most : int
        Blocks at most.
    worth : float
        Least volume of a block [m3].
    seed : int
        Of the search.
    """

    mesh: Mesh = field(compare=False)
    inside: tuple[float, float, float]
    base: float
    wall: float
    method: str
    stock: tuple[float, ...]
    least: float
    most: int
    worth: float
    seed: int
    digest: str = ""

    def __post_init__(self) -> None:
        """Take the fingerprint of the mesh."""
        found = hashlib.sha256(self.mesh.vertices.tobytes() + self.mesh.faces.tobytes()).hexdigest()
        object.__setattr__(self, "digest", found)

    @property
    def room(self) -> BlockRoom:
        """The box in cells."""
        return block_room(
            self.mesh, self.inside, self.base, self.wall, min(self.stock), self.least, self.method
        )


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
    room = asked.room
    found = fill_room(room, asked.most, asked.worth, asked.seed)
    blocks = [_block(room, corners, asked.stock) for corners in found.corners]
    return tuple(sorted(blocks, key=lambda block: (-round(block.volume, 9), block.lower)))


def _block(room: BlockRoom, corners: NDArray[np.int64], stock: tuple[float, ...]) -> SpaceBlock:
    lines = list(zip(room.grid.axes, corners[0::2], corners[1::2], strict=True))
    low = np.array([axis[first] for axis, first, _ in lines])
    high = np.array([axis[last] for axis, _, last in lines])
    wall = max(_walls(room, corners, high - low))[1]
    return SpaceBlock(_point(low), _point(high), WALLS[wall], _layers(high - low, stock))


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


def _layers(sides: NDArray[np.float64], stock: tuple[float, ...]) -> int:
    """Fewest boards that make up one of its sides."""
    counts = [side / thick for side in sides for thick in stock]
    whole = [round(count) for count in counts if abs(count - round(count)) < HAIR]
    return min((count for count in whole if count), default=1)
