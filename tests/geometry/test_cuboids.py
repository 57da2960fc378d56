"""Largest cuboids and pairs of free cells against plain loops over all of them."""

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.geometry.cuboid_kernels import all_runs, largest_cuboid
from pourwright.geometry.pair_kernels import largest_pair
from tests.mold.blocks.rooms import admissible, may_be, region, small_rooms


def asked(room):
    lines = room.grid.axes
    return room.free, lines, lines, room.held, room.least, room.slack


@settings(max_examples=40, deadline=None)
@given(room=small_rooms(most_cells=4))
def test_the_largest_cuboid(room):
    found = largest_cuboid(*asked(room))
    best = max((room.volume(block)[0] for block in admissible(room)), default=0.0)
    assert room.volume(found)[0] == pytest.approx(best)
    assert may_be(room, found) or not found.any()


@settings(max_examples=40, deadline=None)
@given(room=small_rooms(most_cells=3))
def test_the_largest_pair(room):
    blocks = [(room.volume(block)[0], block) for block in admissible(room)]
    best = max((volume for volume, _ in blocks), default=0.0)
    for (one, first), (other, second) in combinations(blocks, 2):
        taken = np.zeros(room.free.shape, dtype=int)
        taken[region(first)] += 1
        taken[region(second)] += 1
        if one + other > best and taken.max() == 1:
            best = one + other
    found = [block for block in largest_pair(*asked(room)) if block.any()]
    assert sum(room.volume(block)[0] for block in found) == pytest.approx(best)
    assert all(may_be(room, block) for block in found)
    if len(found) == 2:
        assert not np.intersect1d(
            *[np.ravel_multi_index(cells(block), room.free.shape) for block in found]
        ).size


def cells(corners):
    """Indices of the cells of a cuboid."""
    spans = [np.arange(a, b) for a, b in zip(corners[0::2], corners[1::2], strict=True)]
    return tuple(each.ravel() for each in np.meshgrid(*spans, indexing="ij"))


@settings(max_examples=25, deadline=None)
@given(room=small_rooms(most_cells=4), data=st.data())
def test_runs_are_free_and_end_at_what_is_not(room, data):
    runs = all_runs(room.free)
    assert len({tuple(run) for run in runs}) == len(runs)
    for run in runs:
        assert room.free[region(run)].all()
        for ends in ((run[4] - 1, run[4]), (run[5], run[5] + 1)):
            beyond = np.array([*run[:4], *ends])
            outside = ends[0] < 0 or ends[1] > room.free.shape[2]
            assert outside or not room.free[region(beyond)].all()
    # the column of any free cell has its run
    if room.free.any():
        i, j, k = data.draw(st.sampled_from(np.argwhere(room.free).tolist()))
        single = runs[(runs[:, 0] == i) & (runs[:, 1] == i + 1) & (runs[:, 2] == j) & (runs[:, 3] == j + 1)]
        assert ((single[:, 4] <= k) & (k < single[:, 5])).sum() == 1
