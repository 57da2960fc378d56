"""What space blocks depend on."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field
from functools import lru_cache

from pourwright.geometry import Mesh
from pourwright.geometry.kept import kept
from pourwright.mold.blocks.room import BlockRoom, block_room
from pourwright.mold.choices import MoldChoices


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
        object.__setattr__(self, "digest", _digest(self.mesh))


@kept
def _digest(mesh: Mesh) -> str:
    return hashlib.sha256(mesh.vertices.tobytes() + mesh.faces.tobytes()).hexdigest()


def blocks_asked(mesh: Mesh, inside: tuple[float, float, float], choices: MoldChoices) -> BlocksAsked:
    """Ask for the space blocks of a mold.

    Parameters
    ----------
    mesh : Mesh
        The piece in the pour frame [m].
    inside : tuple of float
        Of the box [m].
    choices : MoldChoices
        Of the mold.

    Returns
    -------
    BlocksAsked
    """
    asked = choices.blocks
    return BlocksAsked(
        mesh,
        inside,
        choices.base,
        choices.wall,
        choices.method,
        choices.block_stock,
        asked.least,
        asked.most,
        asked.worth(choices.rubber.density.value),
        asked.seed,
    )


@lru_cache(maxsize=16)
def room_of(asked: BlocksAsked) -> BlockRoom:
    """Cut the box into cells.

    Parameters
    ----------
    asked : BlocksAsked
        Box, piece and stock.

    Returns
    -------
    BlockRoom
    """
    return block_room(
        asked.mesh, asked.inside, asked.base, asked.wall, min(asked.stock), asked.least, asked.method
    )
