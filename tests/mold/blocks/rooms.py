"""Small rooms for space blocks."""

from itertools import combinations, product

import numpy as np
from hypothesis import strategies as st

from pourwright.geometry import Grid
from pourwright.mold.blocks.room import BlockRoom

MODULE = 0.02
HUNG = np.array([True, True, True, True, True, False])


def room_of_cells(free, least=1, held=HUNG, slack=(-1, -1, -1)):
    """A room of cells of one module; a cell of slack is half as wide."""
    axes = []
    for count, odd in zip(free.shape, slack, strict=True):
        widths = np.full(count, MODULE)
        widths[[odd] if odd >= 0 else []] = MODULE / 2
        axes.append(np.concatenate([[0.0], np.cumsum(widths)]))
    sides = np.full(3, least * MODULE - 1e-6)
    return BlockRoom(Grid(*axes), free, np.asarray(held), sides, np.array(slack))


@st.composite
def small_rooms(draw, most_cells=5):
    """Rooms of up to five cells a side, some of them taken, some faces not held."""
    shape = tuple(draw(st.integers(1, most_cells)) for _ in range(3))
    bits = draw(st.lists(st.integers(0, 3), min_size=int(np.prod(shape)), max_size=int(np.prod(shape))))
    free = (np.array(bits) > 0).reshape(shape)
    held = draw(st.lists(st.booleans(), min_size=6, max_size=6))
    slack = tuple(draw(st.integers(-1, count - 1)) for count in shape)
    return room_of_cells(free, draw(st.integers(1, 2)), held, slack)


def admissible(room):
    """Every cuboid that may be a block, cell by cell in plain loops."""
    spans = [[(a, b) for a, b in combinations(range(count + 1), 2)] for count in room.free.shape]
    for (i0, i1), (j0, j1), (k0, k1) in product(*spans):
        corners = np.array([i0, i1, j0, j1, k0, k1])
        if may_be(room, corners):
            yield corners


def may_be(room, corners):
    """Whether a cuboid of cells is a block: free, held, thick enough, a multiple of the board one way."""
    low, high = corners[0::2], corners[1::2]
    ends = [axis[[a, b]] for axis, a, b in zip(room.grid.axes, low, high, strict=True)]
    thick = all(end[1] - end[0] >= least for end, least in zip(ends, room.least, strict=True))
    counts = np.array(room.free.shape)
    held = (room.held[0::2] & (low == 0)) | (room.held[1::2] & (high == counts))
    odd = all(a <= s < b for a, b, s in zip(low, high, room.slack, strict=True))
    return bool(thick and held.any() and not odd and room.free[region(corners)].all())


def region(corners):
    """Slices of a cuboid of cells."""
    return tuple(slice(a, b) for a, b in zip(corners[0::2], corners[1::2], strict=True))


def best_by_trying(room, most):
    """Volume of the best arrangement, by trying them all [m3]."""
    blocks = [(corners, float(room.volume(corners)[0])) for corners in admissible(room)]
    blocks.sort(key=lambda each: -each[1])

    def best(first, taken, left):
        found = 0.0
        for n in range(first, len(blocks) if left else first):
            corners, volume = blocks[n]
            # those that follow are no larger
            if volume * left <= found:
                break
            if not taken[region(corners)].any():
                taken[region(corners)] = True
                found = max(found, volume + best(n + 1, taken, left - 1))
                taken[region(corners)] = False
        return found

    return best(0, np.zeros(room.free.shape, dtype=bool), most)
