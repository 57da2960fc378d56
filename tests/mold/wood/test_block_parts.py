"""Boards of space blocks: together they are the block."""

import pytest

from pourwright.mold.space_block import SpaceBlock
from pourwright.mold.wood.block_parts import block_parts

PAIR = (
    SpaceBlock((0.0, 0.0, 0.0), (0.054, 0.2, 0.1), "left", 3),
    SpaceBlock((0.0, 0.0, 0.0), (0.1, 0.018, 0.05), "base", 1),
)


def test_boards_add_up_to_the_block(materials) -> None:
    parts = block_parts(PAIR, materials.board["mdf"], (0.018,), 0.005)
    assert [part.mark for part in parts] == ["A1", "A2", "A3", "B"]
    assert sum(part.volume for part in parts) == pytest.approx(sum(block.volume for block in PAIR))


def test_only_glued_boards_are_sawn_oversize(materials) -> None:
    glued, *_, alone = block_parts(PAIR, materials.board["mdf"], (0.018,), 0.005)
    assert glued.sawn == pytest.approx((0.210, 0.110))
    assert alone.sawn == pytest.approx((0.100, 0.050))
