"""The bound of space blocks against trying all arrangements, and against a linear program."""

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st
from scipy.optimize import linprog

from pourwright.geometry.priced_kernels import dearest_cuboid, summed
from pourwright.mold.blocks.bound import most_wood
from pourwright.mold.blocks.search import fill_room
from tests.mold.blocks.rooms import MODULE, admissible, best_by_trying, region, room_of_cells, small_rooms


def packing(room, most):
    """Best of all cuboids that may also be taken by halves, no cell more than once: a linear program [m3]."""
    blocks = list(admissible(room))
    if not blocks:
        return 0.0
    covers = np.zeros((room.free.size + 1, len(blocks)))
    covers[-1] = 1.0
    for n, corners in enumerate(blocks):
        cells = np.zeros(room.free.shape)
        cells[region(corners)] = 1.0
        covers[:-1, n] = cells.ravel()
    most_of_each = np.append(np.ones(room.free.size), most)
    volumes = np.array([room.volume(corners)[0] for corners in blocks]) / MODULE**3
    return MODULE**3 * -linprog(-volumes, A_ub=covers, b_ub=most_of_each, bounds=(0, None)).fun


@settings(max_examples=20, deadline=None)
@given(room=small_rooms(most_cells=3), most=st.integers(1, 3))
def test_it_is_no_less_than_the_best_by_trying_all(room, most):
    best = best_by_trying(room, most)
    assert most_wood(room, most, looks=150) >= best * (1 - 1e-12)
    assert fill_room(room, most, 0.0, rounds=15).volume <= best * (1 + 1e-9)


@settings(max_examples=15, deadline=None)
@given(room=small_rooms(most_cells=4), most=st.integers(1, 4))
def test_its_prices_come_down_to_the_linear_program(room, most):
    best = packing(room, most)
    assert best * (1 - 1e-9) <= most_wood(room, most, looks=1500) <= best * 1.01


@pytest.mark.parametrize("most", [1, 2, 3, 5])
def test_where_no_halves_help_it_is_what_trying_all_finds(most):
    """A stair of three steps along two panels: one block for each step."""
    free = np.zeros((4, 3, 3), dtype=bool)
    free[0], free[1, :, :2], free[2, :, :1] = True, True, True
    room = room_of_cells(free)
    assert most_wood(room, most, looks=1500) == pytest.approx(best_by_trying(room, most), rel=5e-3)


@settings(max_examples=40, deadline=None)
@given(room=small_rooms(most_cells=4), seed=st.integers(0, 99))
def test_the_dearest_cuboid_is_that_of_plain_loops(room, seed):
    values = np.random.default_rng(seed).normal(size=room.free.shape)
    corners = np.zeros(6, dtype=np.int64)
    found = dearest_cuboid(
        summed(np.where(room.free, 0.0, 1.0)),
        values,
        room.grid.axes,
        room.held,
        room.least,
        room.slack,
        corners,
    )
    sums = [values[region(block)].sum() for block in admissible(room)]
    assert found == pytest.approx(max([0.0, *sums]), abs=1e-9)
    if found > 0:
        assert values[region(corners)].sum() == pytest.approx(found)


def test_no_free_cell_holds_no_wood():
    assert most_wood(room_of_cells(np.zeros((3, 3, 3), dtype=bool)), 4) == 0.0
