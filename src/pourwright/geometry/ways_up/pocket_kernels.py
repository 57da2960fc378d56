"""Compiled loops that follow how the regions above a falling level are born and meet."""

import numpy as np
import numpy.typing as npt
from numba import njit

from pourwright.geometry.column_kernels import left_of
from pourwright.geometry.mesh import Floats, Integers

Truths = npt.NDArray[np.bool_]
OUTSIDE = -1
"""What a line straight up meets where it meets no face."""


def faces_above(points: Floats, faces: Integers, asking: Integers) -> Integers:
    """Name the first face straight above each asking vertex, ``OUTSIDE`` for none.

    A vertex does not see the faces it belongs to; faces that share an edge never both miss a line.
    """
    across = points[asking, 0]
    order = np.argsort(across, kind="stable")
    return np.asarray(_faces_above(points, faces, asking, order, across[order]))


@njit(cache=True)
def _faces_above(
    points: Floats, faces: Integers, asking: Integers, order: Integers, across: Floats
) -> Integers:
    """Of vertices asking, in rising order along x, where they stand across it."""
    nearest = np.full(asking.size, np.inf)
    found = np.full(asking.size, OUTSIDE, dtype=np.int64)
    for face in range(faces.shape[0]):
        a, b, c = points[faces[face, 0]], points[faces[face, 1]], points[faces[face, 2]]
        first = np.searchsorted(across, min(a[0], b[0], c[0]))
        last = np.searchsorted(across, max(a[0], b[0], c[0]), side="right")
        for n in range(first, last):
            ray = order[n]
            vertex = asking[ray]
            x, y, z = points[vertex]
            if y < min(a[1], b[1], c[1]) or y > max(a[1], b[1], c[1]) or z > max(a[2], b[2], c[2]):
                continue
            if vertex == faces[face, 0] or vertex == faces[face, 1] or vertex == faces[face, 2]:
                continue
            height = _height_at(a, b, c, x, y)
            if z < height < nearest[ray]:
                nearest[ray], found[ray] = height, face
    return found


@njit(cache=True)
def _height_at(a: Floats, b: Floats, c: Floats, x: float, y: float) -> float:
    """Height of a face over a point, minus infinity where it does not lie over it."""
    side = left_of(a[0], a[1], b[0], b[1], x, y)
    if side != left_of(b[0], b[1], c[0], c[1], x, y) or side != left_of(c[0], c[1], a[0], a[1], x, y):
        return -np.inf
    area = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
    if area == 0.0:
        return float(max(a[2], b[2], c[2]))
    u = ((x - a[0]) * (c[1] - a[1]) - (y - a[1]) * (c[0] - a[0])) / area
    v = ((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / area
    return float(a[2] + u * (b[2] - a[2]) + v * (c[2] - a[2]))


@njit(cache=True)
def highest(faces: Integers, starts: Integers, around: Integers, rank: Integers) -> Integers:
    """List the vertices that no neighbour outranks; rank 0 is the highest."""
    found = np.empty(rank.size, dtype=np.int64)
    count = 0
    for vertex in range(rank.size):
        if starts[vertex] == starts[vertex + 1]:
            continue
        alone = True
        for n in range(starts[vertex], starts[vertex + 1]):
            for corner in range(3):
                alone = alone and rank[faces[around[n], corner]] >= rank[vertex]
        if alone:
            found[count] = vertex
            count += 1
    return found[:count].copy()


@njit(cache=True)
def root(parents: Integers, member: int) -> int:
    """Give the first of a set, and shorten the way to it."""
    while parents[member] != member:
        parents[member] = parents[parents[member]]
        member = parents[member]
    return member


@njit(cache=True)
def regions_met(
    faces: Integers,
    starts: Integers,
    around: Integers,
    order: Integers,
    rank: Integers,
    hangs: Integers,
    opened: Truths,
) -> tuple[Integers, Integers, Integers, Integers]:
    """Let the level fall over all vertices; each region is born at a top and ends where it meets an elder.

    ``hangs`` says of a vertex without higher neighbour what it hangs on: a vertex above, -1 the outside,
    -2 nothing (a region is born). At an ``opened`` vertex air leaves. Returns the tops of the regions (region
    0 is the outside, top -1), the region each ended in (-1 for none), the vertex where it did, and the region
    of each vertex.
    """
    count = rank.size
    sets = np.arange(count + 1)
    region_of_set = np.full(count + 1, -1, dtype=np.int64)
    region_of_set[count] = 0
    # one birth a vertex is the most there can be; the lists are cut at the end
    tops = np.full(count + 1, -1, dtype=np.int64)
    into = np.full(count + 1, -1, dtype=np.int64)
    where = np.full(count + 1, -1, dtype=np.int64)
    own = np.full(count, -1, dtype=np.int64)
    born = 1
    for vertex in order:
        if starts[vertex] == starts[vertex + 1]:
            continue
        if hangs[vertex] == -2:
            region_of_set[vertex] = born
            tops[born] = vertex
            born += 1
        elif hangs[vertex] >= -1:
            sets[vertex] = root(sets, count if hangs[vertex] == -1 else hangs[vertex])
        else:
            for n in range(starts[vertex], starts[vertex + 1]):
                for corner in range(3):
                    other = faces[around[n], corner]
                    if rank[other] < rank[vertex]:
                        _meet(sets, region_of_set, into, where, vertex, other)
            if opened[vertex]:
                _meet(sets, region_of_set, into, where, vertex, count)
        own[vertex] = region_of_set[root(sets, vertex)]
    return tops[:born].copy(), into[:born].copy(), where[:born].copy(), own


@njit(cache=True)
def _meet(
    sets: Integers, region_of_set: Integers, into: Integers, where: Integers, vertex: int, other: int
) -> None:
    """Join two sets at a vertex; the younger region ends there."""
    mine, theirs = root(sets, vertex), root(sets, other)
    if mine == theirs:
        return
    a, b = region_of_set[mine], region_of_set[theirs]
    elder = b if a < 0 else (a if b < 0 else min(a, b))
    younger = max(a, b)
    if a >= 0 and b >= 0 and a != b:
        into[younger], where[younger] = elder, vertex
    sets[mine] = theirs
    region_of_set[theirs] = elder


@njit(cache=True)
def volumes_above(points: Floats, faces: Integers, rank: Integers, label: Integers, lips: Floats) -> Floats:
    """Volume of each labelled region above its lip, by the divergence theorem over its faces [m3]."""
    found = np.zeros(lips.size)
    for face in range(faces.shape[0]):
        i, j, k = faces[face]
        top = i if rank[i] < rank[j] else j
        top = top if rank[top] < rank[k] else k
        region = label[top]
        if region < 0:
            continue
        a, b, c = points[i], points[j], points[k]
        area = 0.5 * ((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]))
        found[region] += area * mean_above(a[2] - lips[region], b[2] - lips[region], c[2] - lips[region])
    return found


@njit(cache=True)
def mean_above(a: float, b: float, c: float) -> float:
    """Mean over a triangle of a height that runs evenly between its corners, where it is above zero."""
    low, high = min(a, b, c), max(a, b, c)
    middle = a + b + c - low - high
    if high <= 0.0:
        return 0.0
    if low >= 0.0:
        return (a + b + c) / 3.0
    if middle <= 0.0:
        return high**3 / (3.0 * (high - low) * (high - middle))
    return (a + b + c) / 3.0 - low**3 / (3.0 * (low - high) * (low - middle))
