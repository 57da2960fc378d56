"""Compiled loops that lay a new surface around the places that are enclosed once or more."""

import numpy as np
from numba import njit

from pourwright.geometry.mesh import Floats, Integers

_CLOSEST = 0.02
"""How near to a lattice point a corner may lie, as a share of the step: nearer ones would coincide."""


@njit(cache=True)
def borders(starts: Integers, heights: Floats, signs: Floats) -> tuple[Integers, Floats]:
    """Keep of each column's crossings those where it comes from outside to inside or back."""
    kept = np.zeros(starts.size, dtype=np.int64)
    places = np.empty(heights.size)
    count = 0
    for column in range(starts.size - 1):
        winding = 0.0
        for n in range(starts[column], starts[column + 1]):
            before = winding > 0.5
            winding += signs[n]
            if (winding > 0.5) != before:
                places[count] = heights[n]
                count += 1
        kept[column + 1] = count
    return kept, places[:count].copy()


@njit(cache=True)
def fill_inside(starts: Integers, places: Floats, z: Floats, inside: np.ndarray) -> None:
    """Mark the lattice points inside, column by column; inside is (nx, ny, nz)."""
    ny = inside.shape[1]
    for i in range(inside.shape[0]):
        for j in range(ny):
            column = i * ny + j
            for n in range(starts[column], starts[column + 1] - 1, 2):
                low = np.searchsorted(z, places[n])
                high = np.searchsorted(z, places[n + 1])
                inside[i, j, low:high] = 1


@njit(cache=True)
def border_between(starts: Integers, places: Floats, column: int, low: float, high: float) -> float:
    """Share of the way from low to high where a column's border lies; half-way where round-off hides it."""
    begin, end = starts[column], starts[column + 1]
    n = begin + np.searchsorted(places[begin:end], low)
    share = 0.5
    if n < end and places[n] <= high:
        share = (places[n] - low) / (high - low)
    return min(max(share, _CLOSEST), 1.0 - _CLOSEST)


@njit(cache=True)
def lay_corners(
    inside: np.ndarray,
    origin: Floats,
    step: float,
    along_x: tuple[Integers, Floats],
    along_y: tuple[Integers, Floats],
    along_z: tuple[Integers, Floats],
    i: int,
    numbers: Integers,
    corners: Floats,
    count: int,
) -> int:
    """Give corners to the edges that start in layer i and pass the border; return how many there are now.

    numbers is (3, ny, nz): the corner on the edge from each point along x, y and z, -1 without one. Where no
    corners are given (an empty array) they are only counted.
    """
    nx, ny, nz = inside.shape
    numbers[:] = -1
    for j in range(ny):
        for k in range(nz):
            here = inside[i, j, k]
            x, y, z = origin[0] + step * i, origin[1] + step * j, origin[2] + step * k
            if i + 1 < nx and inside[i + 1, j, k] != here:
                if corners.shape[0]:
                    share = border_between(along_x[0], along_x[1], j * nz + k, x, x + step)
                    corners[count, 0], corners[count, 1], corners[count, 2] = x + share * step, y, z
                numbers[0, j, k] = count
                count += 1
            if j + 1 < ny and inside[i, j + 1, k] != here:
                if corners.shape[0]:
                    share = border_between(along_y[0], along_y[1], k * nx + i, y, y + step)
                    corners[count, 0], corners[count, 1], corners[count, 2] = x, y + share * step, z
                numbers[1, j, k] = count
                count += 1
            if k + 1 < nz and inside[i, j, k + 1] != here:
                if corners.shape[0]:
                    share = border_between(along_z[0], along_z[1], i * ny + j, z, z + step)
                    corners[count, 0], corners[count, 1], corners[count, 2] = x, y, z + share * step
                numbers[2, j, k] = count
                count += 1
    return count


@njit(cache=True)
def case_of(inside: np.ndarray, i: int, j: int, k: int) -> int:
    """Number the case of a cube by its corners."""
    case = 0
    for n in range(8):
        if inside[i + (n & 1), j + (n >> 1 & 1), k + (n >> 2)]:
            case |= 1 << n
    return case


@njit(cache=True)
def count_faces(inside: np.ndarray, counts: Integers) -> int:
    """Count the triangles of all cubes."""
    total = 0
    for i in range(inside.shape[0] - 1):
        for j in range(inside.shape[1] - 1):
            for k in range(inside.shape[2] - 1):
                total += counts[case_of(inside, i, j, k)]
    return total


@njit(cache=True)
def lay_faces(
    inside: np.ndarray,
    i: int,
    before: Integers,
    behind: Integers,
    counts: Integers,
    table: Integers,
    edges: Integers,
    faces: Integers,
    count: int,
) -> int:
    """Lay the triangles of the cubes between layers i and i + 1; return how many there are now.

    edges is (12, 4): axis of each edge of a cube, and the steps from the cube to where it starts.
    """
    for j in range(inside.shape[1] - 1):
        for k in range(inside.shape[2] - 1):
            case = case_of(inside, i, j, k)
            for n in range(counts[case]):
                for corner in range(3):
                    edge = table[case, n, corner]
                    layer = behind if edges[edge, 1] else before
                    faces[count, corner] = layer[edges[edge, 0], j + edges[edge, 2], k + edges[edge, 3]]
                count += 1
    return count


@njit(cache=True)
def windings_at(vertices: Floats, faces: Integers, points: Floats) -> Floats:
    """Winding number of points by the crossings above each."""
    found = np.zeros(points.shape[0])
    for face in range(faces.shape[0]):
        a, b, c = vertices[faces[face, 0]], vertices[faces[face, 1]], vertices[faces[face, 2]]
        area = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
        if area == 0.0:
            continue
        low_x, high_x = min(a[0], b[0], c[0]), max(a[0], b[0], c[0])
        low_y, high_y = min(a[1], b[1], c[1]), max(a[1], b[1], c[1])
        for n in range(points.shape[0]):
            x, y, z = points[n, 0], points[n, 1], points[n, 2]
            if x < low_x or x > high_x or y < low_y or y > high_y:
                continue
            u = ((x - a[0]) * (c[1] - a[1]) - (y - a[1]) * (c[0] - a[0])) / area
            v = ((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / area
            if u >= 0 and v >= 0 and u + v <= 1 and a[2] + u * (b[2] - a[2]) + v * (c[2] - a[2]) > z:
                found[n] += 1.0 if area > 0 else -1.0
    return found
