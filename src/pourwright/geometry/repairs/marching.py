"""Which triangles stand in a cube whose corners are inside or outside, for all 256 cases."""

from __future__ import annotations

from functools import cache
from typing import TypeAlias

import numpy as np

from pourwright.geometry.mesh import Integers

Loop: TypeAlias = list[int]

CORNERS = np.array([[n & 1, n >> 1 & 1, n >> 2] for n in range(8)])
"""Corner n of a cube stands at these steps along x, y, z."""
EDGES = tuple((a, a | 1 << axis) for axis in range(3) for a in range(8) if not a >> axis & 1)
"""Corners of each of the 12 edges: four along x, four along y, four along z."""
MOST = 5
"""Most triangles of any case."""


@cache
def triangle_table() -> tuple[Integers, Integers]:
    """Make the table of triangles.

    Returns
    -------
    counts : array (256,)
        Triangles of each case; bit n of a case tells that corner n is inside.
    corners : array (256, 5, 3)
        Edges that carry their corners.

    Notes
    -----
    On each side of a cube, lines part inside from outside corners; where two inside corners face each other
    across the side they are parted from each other. The side's corners alone decide, so the cubes on both
    sides draw the same lines and the surface is closed. Lines join to loops. A loop is cut into triangles by
    lines that lie in no side of the cube, so that no edge is ever met by more than two triangles.
    The cubes are those of Lorensen and Cline, Computer Graphics 21 (1987) 163 (from memory).

    Examples
    --------
    >>> counts, corners = triangle_table()
    >>> int(counts[1]), corners[1, 0].tolist()
    (1, [0, 4, 8])
    """
    counts = np.zeros(256, dtype=np.int64)
    corners = np.zeros((256, MOST, 3), dtype=np.int64)
    for case in range(256):
        for loop in _loops(case):
            for triangle in _cut(loop):
                corners[case, counts[case]] = triangle
                counts[case] += 1
    return counts, corners


def _sides() -> list[list[int]]:
    """Corners around each side of the cube, counter-clockwise seen from outside."""
    sides = []
    for axis in range(3):
        first, second = 1 << (axis + 1) % 3, 1 << (axis + 2) % 3
        around = [0, first, first | second, second]
        sides.append([corner | 1 << axis for corner in around])
        sides.append(around[::-1])
    return sides


def _loops(case: int) -> list[Loop]:
    """Join the lines on the sides to loops that run clockwise seen from outside the body."""
    onward: dict[int, int] = {}
    for side in _sides():
        inside = [case >> corner & 1 for corner in side]
        for n in range(4):
            # a line begins where the side's border leaves the body and ends where it came in before
            if inside[n] and not inside[(n + 1) % 4]:
                back = n
                while inside[(back - 1) % 4]:
                    back -= 1
                leaves = _edge(side[n], side[(n + 1) % 4])
                onward[leaves] = _edge(side[(back - 1) % 4], side[back % 4])
    loops = []
    while onward:
        loop = [min(onward)]
        while (following := onward.pop(loop[-1])) != loop[0]:
            loop.append(following)
        loops.append(loop)
    return loops


def _edge(one: int, other: int) -> int:
    return EDGES.index((min(one, other), max(one, other)))


def _cut(loop: Loop) -> list[tuple[int, int, int]]:
    """Fan a loop from the first corner whose diagonals all lie within the cube; every case has one."""
    count = len(loop)
    starts = (loop[n:] + loop[:n] for n in range(count))
    fan = next(s for s in starts if not any(_in_a_side(s[0], s[n]) for n in range(2, count - 1)))
    return [(fan[0], fan[n + 1], fan[n]) for n in range(1, count - 1)]


def _in_a_side(one: int, other: int) -> bool:
    ends = np.array([*EDGES[one], *EDGES[other]])
    return any(len(set((ends >> axis & 1).tolist())) == 1 for axis in range(3))
