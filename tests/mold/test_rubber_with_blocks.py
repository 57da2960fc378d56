"""Rubber around a master and space blocks: nothing is lost, and levels are where a box says."""

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.geometry import box, level_volume
from pourwright.mold.rubber import RubberPour
from pourwright.mold.space_block import SpaceBlock

MASTER = box([0.10, 0.12, 0.20]).moved([0.0, 0.0, 0.10])
BASE, AREA = 0.02, 0.20 * 0.22
# two posts of 5 x 5 cm, the first 10 cm high on the floor, the second right under the top
LOW = SpaceBlock((-0.10, -0.11, -0.02), (-0.05, -0.06, 0.08), "left", 2)
HIGH = SpaceBlock((0.05, 0.06, 0.10), (0.10, 0.11, 0.20), "right", 2)


def pour(method: str, *blocks: SpaceBlock) -> RubberPour:
    """A master of 10 x 12 x 20 cm in a box of 20 x 22 cm."""
    return RubberPour(level_volume(MASTER), method, BASE, AREA, blocks)  # type: ignore[arg-type]


@pytest.mark.parametrize("method", ["hung", "screwed"])
def test_rubber_blocks_and_master_fill_the_box(method: str) -> None:
    found = pour(method, LOW, HIGH)
    wood = 2 * 0.05 * 0.05 * 0.10
    assert found.wood == pytest.approx(wood, rel=1e-12)
    assert found.volume + wood + 0.10 * 0.12 * 0.20 == pytest.approx(AREA * 0.22, rel=1e-9)


def test_a_block_counts_from_its_foot_to_its_top() -> None:
    """Hung: the low post stands from 0 to 10 cm above the box's floor, the high one from 12 to 22 cm."""
    levels = np.array([0.05, 0.10, 0.11, 0.17, 0.22])
    wood = np.array([0.05, 0.10, 0.10, 0.15, 0.20]) * 0.05 * 0.05
    assert pour("hung", LOW, HIGH).wood_below(levels) == pytest.approx(wood, abs=1e-12)


def test_a_screwed_box_stands_on_its_head() -> None:
    """The high post is the low one: from the floor, at the mouth, to 10 cm."""
    assert float(pour("screwed", HIGH).wood_below(0.04)) == pytest.approx(0.04 * 0.05 * 0.05, abs=1e-12)
    assert float(pour("screwed", LOW).wood_below(0.11)) == 0.0


def test_the_fill_mark_stands_higher_by_the_wood_below_it() -> None:
    found = pour("hung", LOW)
    mark = found.fill_mark()
    assert mark is not None
    assert mark * AREA - min(mark, 0.10) * 0.05 * 0.05 == pytest.approx(found.volume, rel=1e-9)


@settings(max_examples=30, deadline=None)
@given(st.floats(0.0, 1.0), st.sampled_from(["hung", "screwed"]))
def test_the_level_of_a_volume_holds_that_volume(share: float, method: str) -> None:
    found = pour(method, LOW, HIGH)
    volume = share * found.volume
    assert float(found.rubber_below(found.level_after(volume))) == pytest.approx(volume, abs=1e-12)
