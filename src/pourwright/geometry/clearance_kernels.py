"""Compiled loops for the cells of a grid that keep clear of a body."""

import numpy as np
import numpy.typing as npt
from numba import njit

from pourwright.geometry.distance_kernels import (
    blocks_middle,
    keep_near,
    nearest_on_triangle,
    signed_distance,
)
from pourwright.geometry.mesh import Floats, Integers

Bools = npt.NDArray[np.bool_]


@njit(cache=True)
def cells_clear(
    triangles: Floats, normals: Floats, spheres: Floats, x: Floats, y: Floats, z: Floats, least: float,
    finest: float,
) -> Bools:  # fmt: skip
    """Say which cells have no point nearer to the surface than ``least``; what is not decided counts as near.

    Blocks of cells are halved along their longest side; each half keeps only triangles that can be nearest.
    """
    faces = triangles.shape[0]
    cells = np.array([x.size - 1, y.size - 1, z.size - 1])
    result = np.zeros((cells[0], cells[1], cells[2]), dtype=np.bool_)
    # a single cell is halved further: three times for each halving of its side
    widest = max(np.diff(x).max(), np.diff(y).max(), np.diff(z).max())
    inner = 3 * (int(np.ceil(np.log2(max(widest / finest, 1.0)))) + 2)
    halvings = int(np.ceil(np.log2(cells[0])) + np.ceil(np.log2(cells[1])) + np.ceil(np.log2(cells[2]))) + 3
    pool = np.empty((halvings + inner) * faces, dtype=np.int64)
    pool[:faces] = np.arange(faces)
    blocks = np.empty((2 * halvings, 8), dtype=np.int64)
    blocks[0] = np.array([0, cells[0], 0, cells[1], 0, cells[2], 0, faces])
    gradient, box = np.empty(3), np.empty((2, 3))
    depth = 1
    while depth > 0:
        depth -= 1
        i0, i1, j0, j1, k0, k1, start, count = blocks[depth]
        box[0, 0], box[0, 1], box[0, 2] = x[i0], y[j0], z[k0]
        box[1, 0], box[1, 1], box[1, 2] = x[i1], y[j1], z[k1]
        middle = (box[0] + box[1]) / 2
        sides = box[1] - box[0]
        radius = np.sqrt((sides**2).sum()) / 2
        found = signed_distance(
            triangles,
            normals,
            spheres,
            pool[start : start + count],
            middle[0],
            middle[1],
            middle[2],
            gradient,
        )
        if found - radius >= least:
            result[i0:i1, j0:j1, k0:k1] = True
            continue
        if found + radius < least:
            continue
        kept = keep_near(
            spheres, pool, start, count, middle[0], middle[1], middle[2], abs(found) + 2 * radius
        )
        if (i1 - i0) * (j1 - j0) * (k1 - k0) == 1:
            result[i0, j0, k0] = box_clear(
                triangles, normals, spheres, pool, start + count, kept, box, least, finest
            )
            continue
        several = np.array([i1 - i0, j1 - j0, k1 - k0]) > 1
        axis = int(np.argmax(np.where(several, sides, -1.0)))
        for half in range(2):
            block = np.array([i0, i1, j0, j1, k0, k1, start + count, kept])
            block[2 * axis + 1 - half] = blocks_middle(i0, i1, j0, j1, k0, k1, axis)
            blocks[depth] = block
            depth += 1
    return result


@njit(cache=True)
def box_clear(
    triangles: Floats, normals: Floats, spheres: Floats, pool: Integers, first: int, many: int, box: Floats,
    least: float, finest: float,
) -> bool:  # fmt: skip
    """Say whether one cell is clear, by halving it until every part is decided or as small as finest."""
    parts = 128
    stack = np.empty((parts, 6))
    lists = np.empty((parts, 2), dtype=np.int64)
    stack[0, :3], stack[0, 3:] = box[0], box[1]
    lists[0, 0], lists[0, 1] = first, many
    gradient = np.empty(3)
    depth = 1
    while depth > 0:
        depth -= 1
        lower, upper = stack[depth, :3].copy(), stack[depth, 3:].copy()
        start, count = lists[depth]
        middle, sides = (lower + upper) / 2, upper - lower
        radius = np.sqrt((sides**2).sum()) / 2
        found = signed_distance(
            triangles,
            normals,
            spheres,
            pool[start : start + count],
            middle[0],
            middle[1],
            middle[2],
            gradient,
        )
        if found < least:
            return False
        if found - radius >= least:
            continue
        kept = keep_near(
            spheres, pool, start, count, middle[0], middle[1], middle[2], abs(found) + 2 * radius
        )
        if box_apart(triangles, pool[start + count : start + count + kept], middle, sides / 2) >= least:
            continue
        if sides.max() <= finest:
            return False
        axis = int(np.argmax(sides))
        for half in range(2):
            stack[depth, :3], stack[depth, 3:] = lower, upper
            stack[depth, axis + 3 * (1 - half)] = middle[axis]
            lists[depth, 0], lists[depth, 1] = start + count, kept
            depth += 1
    return True


@njit(cache=True)
def box_apart(triangles: Floats, listed: Integers, middle: Floats, half: Floats) -> float:
    """Bound the distance of a box from the listed triangles from below.

    A triangle lies behind the plane through its point nearest to the middle of the box; the corners of
    the box reach towards that plane by their own share only. Exact for a flat side under a level box.
    """
    least = np.inf
    for n in range(listed.size):
        _, dx, dy, dz = nearest_on_triangle(triangles[listed[n]], middle[0], middle[1], middle[2])
        length = np.sqrt(dx * dx + dy * dy + dz * dz)
        if length < 1e-12:
            return -np.inf
        reach = (abs(dx) * half[0] + abs(dy) * half[1] + abs(dz) * half[2]) / length
        least = min(least, length - reach)
    return least
