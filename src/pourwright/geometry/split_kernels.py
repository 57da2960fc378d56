"""Compiled loops that cut a surface into the cells of a grid."""

import numpy as np
from numba import njit

from pourwright.geometry.mesh import Floats, Integers

_CORNERS = 24  # a triangle cut by six planes has at most nine


@njit(cache=True)
def copy_corner(source: Floats, i: int, target: Floats, j: int) -> None:
    """Copy one corner number by number: with numba's row assignment the whole cut takes twice as long."""
    target[j, 0], target[j, 1], target[j, 2] = source[i, 0], source[i, 1], source[i, 2]


@njit(cache=True)
def cut(rest: Floats, count: int, axis: int, value: float, low: Floats, high: Floats) -> tuple[int, int]:
    """Cut a convex polygon by the plane axis = value; corners on the plane belong to both parts."""
    n_low = n_high = 0
    for i in range(count):
        j = i + 1 if i + 1 < count else 0
        here, there = rest[i, axis] - value, rest[j, axis] - value
        if here <= 0:
            copy_corner(rest, i, low, n_low)
            n_low += 1
        if here >= 0:
            copy_corner(rest, i, high, n_high)
            n_high += 1
        if here * there < 0:
            share = here / (here - there)
            for k in range(3):
                low[n_low, k] = rest[i, k] + share * (rest[j, k] - rest[i, k])
            # exactly the plane, so that the next cut meets the same corner
            low[n_low, axis] = value
            copy_corner(low, n_low, high, n_high)
            n_low += 1
            n_high += 1
    return n_low, n_high


@njit(cache=True)
def peel(rest: Floats, count: int, axis: int, value: float, piece: Floats, spare: Floats) -> tuple[int, int]:
    """Move the part of rest up to value into piece; return the corners of both."""
    highest = rest[0, axis]
    for i in range(1, count):
        highest = max(highest, rest[i, axis])
    if highest <= value:
        for i in range(count):
            copy_corner(rest, i, piece, i)
        return count, 0
    n_piece, n_rest = cut(rest, count, axis, value, piece, spare)
    for i in range(n_rest):
        copy_corner(spare, i, rest, i)
    return n_piece, n_rest


@njit(cache=True)
def first_cell(polygon: Floats, count: int, axis: int, edges: Floats, normal: float) -> int:
    """Find the cell where the polygon begins; one that lies in a grid plane goes to its inner side."""
    lowest = highest = polygon[0, axis]
    for i in range(1, count):
        lowest = min(lowest, polygon[i, axis])
        highest = max(highest, polygon[i, axis])
    # the body lies behind the face, so a face in a plane belongs to the cell behind it
    if lowest == highest and normal > 0:
        return int(np.searchsorted(edges, lowest, side="left")) - 1
    return int(np.searchsorted(edges, lowest, side="right")) - 1


@njit(cache=True)
def area_and_mean(polygon: Floats, count: int, normal: Floats, out: Floats, n: int) -> None:
    """Write area vector [m2] and mean height [m] of a flat convex polygon into row n of out."""
    total = moment = 0.0
    ax = ay = az = 0.0
    for i in range(1, count - 1):
        ux, uy, uz = (
            polygon[i, 0] - polygon[0, 0],
            polygon[i, 1] - polygon[0, 1],
            polygon[i, 2] - polygon[0, 2],
        )
        vx, vy = polygon[i + 1, 0] - polygon[0, 0], polygon[i + 1, 1] - polygon[0, 1]
        vz = polygon[i + 1, 2] - polygon[0, 2]
        cx, cy, cz = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
        weight = cx * normal[0] + cy * normal[1] + cz * normal[2]
        ax, ay, az = ax + cx, ay + cy, az + cz
        total += weight
        moment += weight * (uz + vz) / 3
    out[n, 0], out[n, 1], out[n, 2] = 0.5 * ax, 0.5 * ay, 0.5 * az
    out[n, 3] = polygon[0, 2] + (moment / total if total > 0 else 0.0)


@njit(cache=True)
def unit_normal(polygon: Floats, normal: Floats) -> None:
    """Write the unit normal of a triangle into normal; zero for a triangle without area."""
    ux, uy, uz = polygon[1, 0] - polygon[0, 0], polygon[1, 1] - polygon[0, 1], polygon[1, 2] - polygon[0, 2]
    vx, vy, vz = polygon[2, 0] - polygon[0, 0], polygon[2, 1] - polygon[0, 1], polygon[2, 2] - polygon[0, 2]
    cx, cy, cz = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
    length = np.sqrt(cx * cx + cy * cy + cz * cz)
    scale = 1 / length if length > 0 else 0.0
    normal[0], normal[1], normal[2] = cx * scale, cy * scale, cz * scale


@njit(cache=True)
def split_column(
    rest: Floats,
    count: int,
    z: Floats,
    normal: Floats,
    base: int,
    cells: Integers,
    data: Floats,
    n: int,
    work: Floats,
) -> int:
    """Cut one column's polygon by height and append its pieces; return their new number.

    Slot 0 of a column gathers what lies below the grid, slot k + 1 what lies in cell k.
    """
    piece, spare = work[0], work[1]
    k = first_cell(rest, count, 2, z, normal[2])
    while count >= 3 and k < z.size - 1:
        n_piece, count = peel(rest, count, 2, z[k + 1], piece, spare)
        if n_piece >= 3:
            cells[n] = base + k + 1
            area_and_mean(piece, n_piece, normal, data, n)
            n += 1
        k += 1
    return n


@njit(cache=True)
def split_faces(
    vertices: Floats, faces: Integers, x: Floats, y: Floats, z: Floats
) -> tuple[Integers, Floats]:
    """Cut every face into the cells it crosses.

    Returns the slot of each piece in an (nx, ny, nz + 1) array, and its area vector and mean height, (n, 4).
    """
    room = 2 * faces.shape[0] + 1024
    cells = np.empty(room, dtype=np.int64)
    data = np.empty((room, 4))
    work = np.empty((2, _CORNERS, 3))
    rest, strip, column, spare = (
        np.empty((_CORNERS, 3)), np.empty((_CORNERS, 3)), np.empty((_CORNERS, 3)), np.empty((_CORNERS, 3)),
    )  # fmt: skip
    normal = np.empty(3)
    n = 0
    for face in range(faces.shape[0]):
        for corner in range(3):
            copy_corner(vertices, faces[face, corner], rest, corner)
        unit_normal(rest, normal)
        count = 3
        i = first_cell(rest, count, 0, x, normal[0])
        while count >= 3 and i < x.size - 1:
            n_strip, count = peel(rest, count, 0, x[i + 1], strip, spare)
            j = first_cell(strip, n_strip, 1, y, normal[1]) if n_strip >= 3 and i >= 0 else y.size
            while n_strip >= 3 and j < y.size - 1:
                n_column, n_strip = peel(strip, n_strip, 1, y[j + 1], column, spare)
                if n_column >= 3 and j >= 0:
                    # doubled, not sized beforehand: how often a face is cut is known only by cutting it
                    if n + z.size + 1 > cells.size:
                        cells = np.concatenate((cells, np.empty(cells.size + z.size, dtype=np.int64)))
                        data = np.concatenate((data, np.empty((data.shape[0] + z.size, 4))))
                    base = (i * (y.size - 1) + j) * z.size
                    n = split_column(column, n_column, z, normal, base, cells, data, n, work)
                j += 1
            i += 1
    return cells[:n], data[:n]
