"""The box in cells: lines at whole boards from either panel, the wall kept, what holds."""

import numpy as np
import pytest

from pourwright.geometry import box
from pourwright.mold.blocks.room import block_room

MODULE, WALL = 0.018, 0.02


def room(side, method="hung", base=WALL, inside=(0.23, 0.2, 0.2)):
    """A cube in a box, in cells of 18 mm."""
    return block_room(box([side] * 3), inside, base, WALL, MODULE, 0.036, method)


def test_lines_are_whole_boards_from_both_panels_with_the_rest_in_the_middle():
    found = room(0.1)
    for axis, slack, (low, high) in zip(
        found.grid.axes, found.slack, ((-0.115, 0.115), (-0.1, 0.1), (-WALL, 0.18)), strict=True
    ):
        assert axis[[0, -1]] == pytest.approx([low, high])
        widths = np.diff(axis)
        assert np.delete(widths, slack) == pytest.approx(MODULE)
        # 230 mm are 12 boards and 14 mm, 200 mm are 11 boards and 2 mm
        assert widths[slack] == pytest.approx((high - low) % MODULE)


def test_a_box_of_whole_boards_has_no_rest():
    found = room(0.1, inside=(0.216, 0.216, 0.198))
    assert found.slack.tolist() == [-1, -1, -1]
    assert found.free.shape == (12, 12, 11)


def test_what_is_free_keeps_the_wall_beside_and_the_base_below():
    # inside 230 mm: 45 mm of room beside the wall are two boards
    found = room(0.1, base=0.03)
    low, high = found.grid.x[:-1], found.grid.x[1:]
    beside = (low >= 0.07 - 1e-9) | (high <= -0.07 + 1e-9)
    middle = np.abs(found.grid.centers[1]) < 0.03
    across = found.free[:, middle][:, :, 4]
    assert (across == beside[:, None]).all()
    assert not found.free[4:8, 4:7, found.grid.z[:-1] < -1e-9].any()


@pytest.mark.parametrize(("method", "held"), [("hung", [1, 1, 1, 1, 1, 0]), ("screwed", [1, 1, 1, 1, 0, 1])])
def test_panels_and_the_board_hold_and_the_open_side_does_not(method, held):
    assert room(0.1, method).held.tolist() == [bool(each) for each in held]
