"""Compiled loops that find equal rows and equal edges without sorting them all."""

import numpy as np
import numpy.typing as npt
from numba import njit

from pourwright.geometry.mesh import Floats, Integers

_MIX = np.uint64(0x9E3779B97F4A7C15)


@njit(cache=True)
def _slot(first: int, second: int, third: int, mask: np.uint64) -> int:
    """Spread three numbers over a table whose size is a power of two."""
    mixed = np.uint64(first) * _MIX
    mixed = (mixed ^ (mixed >> np.uint64(29)) ^ np.uint64(second)) * _MIX
    mixed = (mixed ^ (mixed >> np.uint64(29)) ^ np.uint64(third)) * _MIX
    return int(np.int64((mixed ^ (mixed >> np.uint64(32))) & mask))


@njit(cache=True)
def number_rows(rows: Integers, apart: npt.NDArray[np.bool_], number: Integers) -> Integers:
    """Number rows of three by their first appearance, equal ones alike; those marked stay apart.

    Writes each row's number and returns the first row of every number.
    """
    size = 16
    while size < 2 * rows.shape[0]:
        size *= 2
    table = np.full(size, -1, dtype=np.int32)
    first = np.empty(rows.shape[0], dtype=np.int64)
    mask, count = np.uint64(size - 1), 0
    for row in range(rows.shape[0]):
        a, b, c = rows[row, 0], rows[row, 1], rows[row, 2]
        at = _slot(a, b, c, mask)
        found = -1
        while not apart[row] and table[at] >= 0:
            other = first[table[at]]
            if rows[other, 0] == a and rows[other, 1] == b and rows[other, 2] == c:
                found = table[at]
                break
            at = (at + 1) & (size - 1)
        if found < 0:
            found, first[count] = count, row
            if not apart[row]:
                table[at] = count
            count += 1
        number[row] = found
    return first[:count].copy()


@njit(cache=True)
def sides_by_edge(faces: Integers, vertices: int) -> tuple[Integers, Integers]:
    """Order the sides of triangles by their edges: by the lower end, then the higher, then as they come.

    Side 3 f + k runs from corner k of face f to the next. Returns the order and each edge's begin in it.
    """
    count = 3 * faces.shape[0]
    start = np.zeros(vertices + 1, dtype=np.int64)
    for face in range(faces.shape[0]):
        for k in range(3):
            start[min(faces[face, k], faces[face, (k + 1) % 3]) + 1] += 1
    for n in range(vertices):
        start[n + 1] += start[n]
    order, higher = np.empty(count, dtype=np.int64), np.empty(count, dtype=np.int64)
    free = start[:-1].copy()
    for face in range(faces.shape[0]):
        for k in range(3):
            a, b = faces[face, k], faces[face, (k + 1) % 3]
            place = free[min(a, b)]
            order[place], higher[place] = 3 * face + k, max(a, b)
            free[min(a, b)] = place + 1
    fresh = np.empty(count, dtype=np.int64)
    edges = 0
    for n in range(vertices):
        _sort_few(order, higher, start[n], start[n + 1])
        for place in range(start[n], start[n + 1]):
            if place == start[n] or higher[place] != higher[place - 1]:
                fresh[edges] = place
                edges += 1
    return order, fresh[:edges].copy()


@njit(cache=True)
def _sort_few(order: Integers, higher: Integers, begin: int, end: int) -> None:
    """Sort the sides at one vertex; they are few, unless the file is no surface."""
    if end - begin > 64:
        _sort_many(order, higher, begin, end)
        return
    for n in range(begin + 1, end):
        side, key, k = order[n], higher[n], n
        while k > begin and higher[k - 1] > key:
            order[k], higher[k] = order[k - 1], higher[k - 1]
            k -= 1
        order[k], higher[k] = side, key


@njit(cache=True)
def _sort_many(order: Integers, higher: Integers, begin: int, end: int) -> None:
    """Sort as a heap; numba's own sort takes seconds to compile."""
    count = end - begin
    for n in range(count // 2 - 1, -1, -1):
        _sift(order, higher, begin, n, count)
    for n in range(count - 1, 0, -1):
        _swap(order, higher, begin, begin + n)
        _sift(order, higher, begin, 0, n)


@njit(cache=True)
def _sift(order: Integers, higher: Integers, begin: int, n: int, count: int) -> None:
    while 2 * n + 1 < count:
        below = 2 * n + 1
        if below + 1 < count and _before(order, higher, begin + below, begin + below + 1):
            below += 1
        if not _before(order, higher, begin + n, begin + below):
            return
        _swap(order, higher, begin + n, begin + below)
        n = below


@njit(cache=True)
def _before(order: Integers, higher: Integers, a: int, b: int) -> bool:
    return bool(higher[a] < higher[b] or (higher[a] == higher[b] and order[a] < order[b]))


@njit(cache=True)
def _swap(order: Integers, higher: Integers, a: int, b: int) -> None:
    order[a], order[b] = order[b], order[a]
    higher[a], higher[b] = higher[b], higher[a]


@njit(cache=True)
def join_labels(owners: Integers, starts: Integers, labels: Integers) -> int:
    """Give triangles that share an edge the same label, counted in order of appearance; returns how many."""
    parent = np.arange(labels.size)
    for edge in range(starts.size):
        end = starts[edge + 1] if edge + 1 < starts.size else owners.size
        for n in range(starts[edge] + 1, end):
            a, b = _root(parent, owners[n - 1]), _root(parent, owners[n])
            # the lower one leads, so that labels come in order of appearance
            parent[max(a, b)] = min(a, b)
    count = 0
    for face in range(labels.size):
        root = _root(parent, face)
        if root == face:
            labels[face] = count
            count += 1
        else:
            labels[face] = labels[root]
    return count


@njit(cache=True)
def _root(parent: Integers, node: int) -> int:
    while parent[node] != node:
        parent[node] = parent[parent[node]]
        node = parent[node]
    return node


@njit(cache=True)
def _cross(ax: float, ay: float, az: float, bx: float, by: float, bz: float) -> tuple[float, float, float]:
    return ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx


@njit(cache=True)
def thin_faces(vertices: Floats, faces: Integers, least: float) -> Integers:
    """Give the triangles whose area is at most a share of the square of their longest side."""
    found = np.empty(faces.shape[0], dtype=np.int64)
    count = 0
    for face in range(faces.shape[0]):
        a, b, c = faces[face, 0], faces[face, 1], faces[face, 2]
        ux, uy = vertices[b, 0] - vertices[a, 0], vertices[b, 1] - vertices[a, 1]
        uz = vertices[b, 2] - vertices[a, 2]
        vx, vy = vertices[c, 0] - vertices[a, 0], vertices[c, 1] - vertices[a, 1]
        vz = vertices[c, 2] - vertices[a, 2]
        x, y, z = _cross(ux, uy, uz, vx, vy, vz)
        third = (vx - ux) ** 2 + (vy - uy) ** 2 + (vz - uz) ** 2
        longest = max(ux * ux + uy * uy + uz * uz, vx * vx + vy * vy + vz * vz, third)
        if 0.5 * np.sqrt(x * x + y * y + z * z) <= least * longest:
            found[count] = face
            count += 1
    return found[:count].copy()


@njit(cache=True)
def signed_volumes(vertices: Floats, faces: Integers, labels: Integers, middle: Floats, out: Floats) -> None:
    """Add the volume below each triangle, seen from the middle, to its label's."""
    mx, my, mz = middle[0], middle[1], middle[2]
    for face in range(faces.shape[0]):
        a, b, c = faces[face, 0], faces[face, 1], faces[face, 2]
        bx, by, bz = vertices[b, 0] - mx, vertices[b, 1] - my, vertices[b, 2] - mz
        cx, cy, cz = vertices[c, 0] - mx, vertices[c, 1] - my, vertices[c, 2] - mz
        x, y, z = _cross(bx, by, bz, cx, cy, cz)
        along = (vertices[a, 0] - mx) * x + (vertices[a, 1] - my) * y + (vertices[a, 2] - mz) * z
        out[labels[face]] += along / 6
