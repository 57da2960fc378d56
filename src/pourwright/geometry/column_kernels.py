"""Compiled loops that shoot vertical columns through a surface."""

import numpy as np
from numba import njit

from pourwright.geometry.mesh import Floats, Integers


@njit(cache=True)
def left_of(ax: float, ay: float, bx: float, by: float, x: float, y: float) -> bool:
    """Tell whether (x, y) lies left of a to b, the same for both faces that share the edge.

    The edge is always judged in one direction, and a point on it counts as left of that: no column is lost or
    counted twice where faces meet.
    """
    if ax < bx or (ax == bx and ay < by):
        return (bx - ax) * (y - ay) - (by - ay) * (x - ax) >= 0
    return (ax - bx) * (y - by) - (ay - by) * (x - bx) < 0


@njit(cache=True)
def column_range(low: float, high: float, columns: Floats) -> tuple[int, int]:
    """Give the columns between low and high."""
    return int(np.searchsorted(columns, low)), int(np.searchsorted(columns, high, side="right"))


@njit(cache=True)
def visit(
    vertices: Floats, faces: Integers, xs: Floats, ys: Floats, free: Integers, heights: Floats, signs: Floats
) -> None:
    """Count the crossings of each column (no heights given) or write their heights and signs.

    A crossing counts +1 where the column enters the body from below, -1 where it leaves.
    """
    for face in range(faces.shape[0]):
        a, b, c = vertices[faces[face, 0]], vertices[faces[face, 1]], vertices[faces[face, 2]]
        i0, i1 = column_range(min(a[0], b[0], c[0]), max(a[0], b[0], c[0]), xs)
        j0, j1 = column_range(min(a[1], b[1], c[1]), max(a[1], b[1], c[1]), ys)
        if i0 == i1 or j0 == j1:
            continue
        # only columns within the face's box are asked
        area = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
        for i in range(i0, i1):
            for j in range(j0, j1):
                x, y = xs[i], ys[j]
                side = left_of(a[0], a[1], b[0], b[1], x, y)
                if side != left_of(b[0], b[1], c[0], c[1], x, y) or side != left_of(
                    c[0], c[1], a[0], a[1], x, y
                ):
                    continue
                column = i * ys.size + j
                if heights.size:
                    u = ((x - a[0]) * (c[1] - a[1]) - (y - a[1]) * (c[0] - a[0])) / area if area != 0 else 0.0
                    v = ((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / area if area != 0 else 0.0
                    heights[free[column]] = a[2] + u * (b[2] - a[2]) + v * (c[2] - a[2])
                    signs[free[column]] = -1.0 if side else 1.0
                free[column] += 1


@njit(cache=True)
def sort_columns(starts: Integers, heights: Floats, signs: Floats) -> None:
    """Sort every column's crossings by height; columns are short, so by insertion."""
    for column in range(starts.size - 1):
        for n in range(starts[column] + 1, starts[column + 1]):
            height, sign, k = heights[n], signs[n], n
            while k > starts[column] and heights[k - 1] > height:
                heights[k], signs[k] = heights[k - 1], signs[k - 1]
                k -= 1
            heights[k], signs[k] = height, sign


@njit(cache=True)
def crossings(vertices: Floats, faces: Integers, xs: Floats, ys: Floats) -> tuple[Integers, Floats, Floats]:
    """Give where each column's list starts, the heights of its crossings, rising, and their signs."""
    starts = np.zeros(xs.size * ys.size + 1, dtype=np.int64)
    nothing = np.empty(0)
    visit(vertices, faces, xs, ys, starts[1:], nothing, nothing)
    starts = np.cumsum(starts)
    heights = np.empty(starts[-1])
    signs = np.empty(starts[-1])
    visit(vertices, faces, xs, ys, starts[:-1].copy(), heights, signs)
    sort_columns(starts, heights, signs)
    return starts, heights, signs


@njit(cache=True)
def wrong_winding(
    starts: Integers, heights: Floats, signs: Floats, thinnest: float
) -> tuple[Integers, Integers, Floats]:
    """Find how often space is enclosed: lowest and highest count, the column of each and the height there.

    Slices thinner than thinnest are round-off of the file's numbers. A column that ends inside counts as
    unclosed. Returns (lowest, highest, unclosed columns), the three columns, and the three heights.
    """
    found = np.zeros(3, dtype=np.int64)
    columns = np.full(3, -1, dtype=np.int64)
    places = np.zeros(3)
    for column in range(starts.size - 1):
        winding = 0.0
        for n in range(starts[column], starts[column + 1]):
            winding += signs[n]
            last = n + 1 == starts[column + 1]
            if last and winding != 0:
                found[2] += 1
                if columns[2] < 0:
                    columns[2], places[2] = column, heights[n]
            # numbers rounded to 7 digits let touching faces cross by a hair
            if last or heights[n + 1] - heights[n] <= thinnest:
                continue
            middle = (heights[n] + heights[n + 1]) / 2
            if winding < found[0]:
                found[0], columns[0], places[0] = int(winding), column, middle
            if winding > found[1]:
                found[1], columns[1], places[1] = int(winding), column, middle
    return found, columns, places


@njit(cache=True)
def hidden_depths(starts: Integers, heights: Floats) -> tuple[int, int, float, int, float]:
    """Measure what lies between the parts of each column.

    Returns columns that meet the body, columns that meet it more than once, the deepest gap [m], its
    column and the height of its middle.
    """
    met = parted = 0
    deepest, where, height = 0.0, -1, 0.0
    # crossings come in pairs, in and out; what lies between two pairs is hidden
    for column in range(starts.size - 1):
        begin, end = starts[column], starts[column + 1]
        if end - begin < 2:
            continue
        met += 1
        gaps = 0.0
        for n in range(begin + 1, end - 1, 2):
            gaps += heights[n + 1] - heights[n]
        if gaps > 0:
            parted += 1
        if gaps > deepest:
            deepest, where, height = gaps, column, (heights[begin + 1] + heights[begin + 2]) / 2
    return met, parted, deepest, where, height
