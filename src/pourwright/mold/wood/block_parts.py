"""The boards that space blocks are glued up from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pourwright.materials.records import Board
from pourwright.mold.blocks.glue_up import glue_up
from pourwright.mold.blocks.letter import letter
from pourwright.mold.space_block import SpaceBlock
from pourwright.mold.wood.part import WoodPart

LAID = "any; sealed all round against the rubber"


def block_parts(
    blocks: Sequence[SpaceBlock], board: Board, stock: tuple[float, ...], oversize: float
) -> tuple[WoodPart, ...]:
    """List the boards of every space block, the largest block first.

    Parameters
    ----------
    blocks : sequence of SpaceBlock
        In the order of their letters.
    board : Board
        That they are sawn from.
    stock : tuple of float
        Its thicknesses in the shop [m].
    oversize : float
        Left on every edge of a board that is glued to others, for trimming the dry block [m].

    Returns
    -------
    tuple of WoodPart
        Marked with letter and number of the board; the longer side is the length.
    """
    return tuple(
        part for number, block in enumerate(blocks) for part in _boards(number, block, board, stock, oversize)
    )


def _boards(
    number: int, block: SpaceBlock, board: Board, stock: tuple[float, ...], oversize: float
) -> Iterator[WoodPart]:
    glued = glue_up(block.size, stock)
    short, long = sorted(side for axis, side in enumerate(block.size) if axis != glued.axis)
    name = letter(number)
    for layer in range(glued.layers):
        yield WoodPart(
            mark=name if glued.layers == 1 else f"{name}{layer + 1}",
            belongs="space block", board=board, length=long, width=short, thickness=glued.board,
            oversize=oversize if glued.layers > 1 else 0.0, face=LAID,
        )  # fmt: skip
