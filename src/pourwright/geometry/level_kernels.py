"""Compiled loops that sum volumes below horizontal planes."""

import numpy as np
from numba import njit

from pourwright.geometry.mesh import Floats, Integers


@njit(cache=True)
def sorted_heights(vertices: Floats, faces: Integers, face: int, middle: float) -> tuple[float, ...]:
    """Give a face's three heights above middle, rising, and its downward projected area [m2]."""
    a, b, c = faces[face, 0], faces[face, 1], faces[face, 2]
    low, mid, high = vertices[a, 2] - middle, vertices[b, 2] - middle, vertices[c, 2] - middle
    abx, aby = vertices[b, 0] - vertices[a, 0], vertices[b, 1] - vertices[a, 1]
    acx, acy = vertices[c, 0] - vertices[a, 0], vertices[c, 1] - vertices[a, 1]
    # three swaps sort three numbers; an array would be allocated per face
    if low > mid:
        low, mid = mid, low
    if mid > high:
        mid, high = high, mid
    if low > mid:
        low, mid = mid, low
    return low, mid, high, 0.5 * (acx * aby - abx * acy)


@njit(cache=True)
def share_below(low: float, mid: float, high: float, z: float) -> tuple[float, float]:
    """Give the share of a face's area below z and the mean depth of the face's part below z [m].

    z lies strictly between low and high; ratios, not products of lengths, keep thin faces exact.
    """
    if z < mid:
        share = (z - low) / (mid - low) * ((z - low) / (high - low))
        return share, share * (z - low) / 3
    rest = (high - z) / (high - mid) * ((high - z) / (high - low)) if high > mid else 0.0
    return 1 - rest, z - (low + mid + high) / 3 + rest * (high - z) / 3


@njit(cache=True)
def volumes_below(vertices: Floats, faces: Integers, levels: Floats, middle: float) -> Floats:
    """Sum the volume below each of many rising levels [m3]; levels are measured from middle."""
    count = levels.size
    part = np.zeros(count)
    cover = np.zeros(count + 1)
    moment = np.zeros(count + 1)
    for face in range(faces.shape[0]):
        low, mid, high, area = sorted_heights(vertices, faces, face, middle)
        # only levels inside the face need the cubic; those above it take the face as a whole
        k = int(np.searchsorted(levels, low, side="right"))
        while k < count and levels[k] < high:
            part[k] += area * share_below(low, mid, high, levels[k])[1]
            k += 1
        cover[k] += area
        moment[k] += area * (low + mid + high) / 3
    below = moved = 0.0
    for k in range(count):
        below += cover[k]
        moved += moment[k]
        part[k] += below * levels[k] - moved
    return part


@njit(cache=True)
def bin_faces(
    vertices: Floats, faces: Integers, edges: Floats, middle: float
) -> tuple[Integers, Integers, Floats, Floats]:
    """List the faces that reach into each slab, and sum area and moment of those wholly below it.

    Returns where each slab's list starts, the lists, the areas [m2] and their moments [m3].
    """
    slabs = edges.size - 1
    first = np.empty(faces.shape[0], dtype=np.int64)
    last = np.empty(faces.shape[0], dtype=np.int64)
    starts = np.zeros(slabs + 1, dtype=np.int64)
    cover = np.zeros(slabs + 1)
    moment = np.zeros(slabs + 1)
    for face in range(faces.shape[0]):
        low, mid, high, area = sorted_heights(vertices, faces, face, middle)
        begin = min(max(int(np.searchsorted(edges, low, side="right")) - 1, 0), slabs - 1)
        end = min(max(int(np.searchsorted(edges, high, side="left")) - 1, begin), slabs - 1)
        first[face], last[face] = begin, end
        for slab in range(begin, end + 1):
            starts[slab + 1] += 1
        cover[end + 1] += area
        moment[end + 1] += area * (low + mid + high) / 3
    starts, cover, moment = np.cumsum(starts), np.cumsum(cover), np.cumsum(moment)
    # a second pass fills the lists, whose lengths are known only now
    listed = np.empty(starts[-1], dtype=np.int64)
    free = starts[:-1].copy()
    for face in range(faces.shape[0]):
        for slab in range(first[face], last[face] + 1):
            listed[free[slab]] = face
            free[slab] += 1
    return starts, listed, cover, moment


@njit(cache=True)
def below(
    vertices: Floats,
    faces: Integers,
    listed: Integers,
    cover: float,
    moment: float,
    z: float,
    middle: float,
    open_: bool,
) -> tuple[float, float]:
    """Give volume [m3] and section area [m2] at z from one slab's faces and what lies wholly below it.

    With ``open_`` a horizontal face at z counts as still above it.
    """
    volume, area = cover * z - moment, cover
    for n in range(listed.size):
        low, mid, high, size = sorted_heights(vertices, faces, listed[n], middle)
        # a horizontal face at z is both at once: the caller says from which side it looks
        if high < z or (high == z and not (open_ and low == high)):
            volume += size * (z - (low + mid + high) / 3)
            area += size
        elif low < z:
            share, depth = share_below(low, mid, high, z)
            volume += size * depth
            area += size * share
    return volume, area
