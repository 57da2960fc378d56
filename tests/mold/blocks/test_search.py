"""What the search for space blocks finds may always be built, and is never more than the bound."""

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.mold.blocks.bound import most_wood
from pourwright.mold.blocks.search import fill_room
from tests.mold.blocks.rooms import MODULE, may_be, region, room_of_cells, small_rooms


@settings(max_examples=60, deadline=None)
@given(room=small_rooms(), most=st.integers(1, 5), worth=st.floats(0.0, 8 * MODULE**3))
def test_blocks_may_be_built_and_stay_below_the_bound(room, most, worth):
    found = fill_room(room, most, worth, rounds=20)
    assert len(found.corners) <= most
    taken = np.zeros(room.free.shape, dtype=int)
    for corners in found.corners:
        assert may_be(room, corners)
        assert room.volume(corners)[0] >= worth
        taken[region(corners)] += 1
    assert taken.max(initial=0) <= 1
    assert found.volume == pytest.approx(room.volume(found.corners).sum() if len(found.corners) else 0.0)
    assert found.volume <= most_wood(room, most, looks=80) * (1 + 1e-9)


def test_one_block_fills_an_empty_box_and_two_an_angle():
    empty = room_of_cells(np.ones((4, 3, 2), dtype=bool))
    assert fill_room(empty, 3, 0.0).volume == pytest.approx(24 * MODULE**3)
    angle = np.ones((4, 4, 2), dtype=bool)
    angle[1:, 1:] = False
    # 4 + 3 columns of two cells
    found = fill_room(room_of_cells(angle), 3, 0.0)
    assert len(found.corners) == 2
    assert found.volume == pytest.approx(14 * MODULE**3)


def test_a_hole_in_the_middle_is_held_by_no_panel():
    free = np.zeros((5, 5, 5), dtype=bool)
    free[1:4, 1:4, 1:5] = True
    # it reaches the open top only, where a hung master's box has no board
    assert len(fill_room(room_of_cells(free), 4, 0.0).corners) == 0
    held = fill_room(room_of_cells(free, held=[False, False, False, False, False, True]), 4, 0.0)
    assert held.volume == pytest.approx(36 * MODULE**3)


def test_the_same_seed_gives_the_same_blocks():
    draw = np.random.default_rng(3)
    room = room_of_cells(draw.random((7, 7, 7)) > 0.2)
    first, second = (fill_room(room, 6, 0.0, seed=5, rounds=30) for _ in range(2))
    assert np.array_equal(first.corners, second.corners)
