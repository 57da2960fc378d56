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
    return np.int64((mixed ^ (mixed >> np.uint64(32))) & mask)


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
        ranks = np.argsort(higher[begin:end], kind="mergesort")
        order[begin:end] = order[begin:end][ranks]
        higher[begin:end] = higher[begin:end][ranks]
        return
    for n in range(begin + 1, end):
        side, key, k = order[n], higher[n], n
        while k > begin and higher[k - 1] > key:
            order[k], higher[k] = order[k - 1], higher[k - 1]
            k -= 1
        order[k], higher[k] = side, key


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
def signed_volumes(vertices: Floats, faces: Integers, labels: Integers, middle: Floats, out: Floats) -> None:
    """Add the volume below each triangle, seen from the middle, to its label's."""
    for face in range(faces.shape[0]):
        a = vertices[faces[face, 0]] - middle
        b = vertices[faces[face, 1]] - middle
        c = vertices[faces[face, 2]] - middle
        cross = (b[1] * c[2] - b[2] * c[1], b[2] * c[0] - b[0] * c[2], b[0] * c[1] - b[1] * c[0])
        out[labels[face]] += (a[0] * cross[0] + a[1] * cross[1] + a[2] * cross[2]) / 6
