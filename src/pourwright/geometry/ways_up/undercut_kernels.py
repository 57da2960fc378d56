"""Compiled loops that see which faces hide behind others along a pull, and how girth runs along it."""

import numpy as np
from numba import njit

from pourwright.geometry.column_kernels import left_of
from pourwright.geometry.mesh import Floats, Integers


@njit(cache=True)
def turned_points(vertices: Floats, turn: Floats) -> Floats:
    """Points in a turned frame; plain loops beat a library call for three columns."""
    found = np.empty_like(vertices)
    for n in range(vertices.shape[0]):
        x, y, z = vertices[n, 0], vertices[n, 1], vertices[n, 2]
        for axis in range(3):
            found[n, axis] = turn[axis, 0] * x + turn[axis, 1] * y + turn[axis, 2] * z
    return found


@njit(cache=True)
def lattice(points: Floats, count: int) -> Floats:
    """Lowest corner and step of about count x count columns over the shadow, off its symmetry."""
    low = np.array([points[:, 0].min(), points[:, 1].min()])
    wide, deep = points[:, 0].max() - low[0], points[:, 1].max() - low[1]
    step = np.sqrt(max(wide * deep, 1e-300)) / count
    return np.array(
        [low[0] + 0.41421356 * step, low[1] + 0.73205081 * step, step, wide / step + 1, deep / step + 1]
    )


@njit(cache=True)
def met_columns(points: Floats, faces: Integers, grid: Floats) -> tuple[Integers, Floats, Integers]:
    """List every place where a column meets a face: the column, the height, the face."""
    room = 4 * int(grid[3]) * int(grid[4]) + 64
    column, height, which = np.empty(room, np.int64), np.empty(room), np.empty(room, np.int64)
    count, rows = 0, int(grid[4]) + 1
    share = 1.0 / grid[2]
    for face in range(faces.shape[0]):
        i, j, k = faces[face]
        ax, ay, bx, by = points[i, 0], points[i, 1], points[j, 0], points[j, 1]
        cx, cy = points[k, 0], points[k, 1]
        i0 = int(np.ceil((min(ax, bx, cx) - grid[0]) * share))
        i1 = int(np.floor((max(ax, bx, cx) - grid[0]) * share))
        if i1 < i0:
            continue
        j0 = int(np.ceil((min(ay, by, cy) - grid[1]) * share))
        j1 = int(np.floor((max(ay, by, cy) - grid[1]) * share))
        area = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
        if j1 < j0 or area == 0.0:
            continue
        for n in range(max(i0, 0), i1 + 1):
            x = grid[0] + n * grid[2]
            for m in range(max(j0, 0), j1 + 1):
                y = grid[1] + m * grid[2]
                side = left_of(ax, ay, bx, by, x, y)
                if side != left_of(bx, by, cx, cy, x, y) or side != left_of(cx, cy, ax, ay, x, y):
                    continue
                if count == room:
                    room *= 2
                    column, height, which = _grown(column, room), _grown(height, room), _grown(which, room)
                u = ((x - ax) * (cy - ay) - (y - ay) * (cx - ax)) / area
                v = ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / area
                column[count] = n * rows + m
                height[count] = (
                    points[i, 2] + u * (points[j, 2] - points[i, 2]) + v * (points[k, 2] - points[i, 2])
                )
                which[count] = face
                count += 1
    return column[:count], height[:count], which[:count]


@njit(cache=True)
def _grown(values, room):  # type: ignore[no-untyped-def]
    """The same list with more room behind it."""
    wider = np.empty(room, dtype=values.dtype)
    wider[: values.size] = values
    return wider


@njit(cache=True)
def ends_of(column: Integers, height: Floats, count: int) -> tuple[Floats, Floats]:
    """Lowest and highest place of each column."""
    low, high = np.full(count, np.inf), np.full(count, -np.inf)
    for n in range(column.size):
        low[column[n]] = min(low[column[n]], height[n])
        high[column[n]] = max(high[column[n]], height[n])
    return low, high


@njit(cache=True)
def hidden_areas(
    vertices: Floats, faces: Integers, normals: Floats, turns: Floats, count: int, least: float
) -> tuple[Floats, Floats]:
    """For each turn: area that faces its +z and lies behind something, and the same for its -z [m2].

    A place met by a column stands for its cell over the slope of its face; faces steeper than ``least``
    along the pull slide and do not count.
    """
    ahead, behind = np.zeros(turns.shape[0]), np.zeros(turns.shape[0])
    for way in range(turns.shape[0]):
        points = turned_points(vertices, turns[way])
        grid = lattice(points, count)
        column, height, which = met_columns(points, faces, grid)
        low, high = ends_of(column, height, (int(grid[3]) + 1) * (int(grid[4]) + 1))
        up = turns[way, 2]
        for n in range(column.size):
            if not low[column[n]] < height[n] < high[column[n]]:
                continue
            face = which[n]
            facing = normals[face, 0] * up[0] + normals[face, 1] * up[1] + normals[face, 2] * up[2]
            if facing > least:
                ahead[way] += grid[2] ** 2 / facing
            elif facing < -least:
                behind[way] -= grid[2] ** 2 / facing
    return ahead, behind


@njit(cache=True)
def hidden_faces(points: Floats, faces: Integers, count: int) -> Floats:
    """Share of each face's columns with something in front of it on both sides; -1 where there is none."""
    grid = lattice(points, count)
    column, height, which = met_columns(points, faces, grid)
    low, high = ends_of(column, height, (int(grid[3]) + 1) * (int(grid[4]) + 1))
    met, hidden = np.zeros(faces.shape[0]), np.zeros(faces.shape[0])
    for n in range(column.size):
        met[which[n]] += 1.0
        if low[column[n]] < height[n] < high[column[n]]:
            hidden[which[n]] += 1.0
    for face in range(faces.shape[0]):
        hidden[face] = hidden[face] / met[face] if met[face] > 0 else -1.0
    return hidden


@njit(cache=True)
def reaches(points: Floats, faces: Integers, levels: Floats, angles: Floats) -> Floats:
    """How far the section at each rising level reaches toward each angle [m], minus infinity for none."""
    found = np.full((levels.size, angles.size), -np.inf)
    across, along = np.cos(angles), np.sin(angles)
    for face in range(faces.shape[0]):
        for side in range(3):
            a, b = points[faces[face, side]], points[faces[face, (side + 1) % 3]]
            low, high = min(a[2], b[2]), max(a[2], b[2])
            for level in range(np.searchsorted(levels, low), np.searchsorted(levels, high, side="right")):
                share = (levels[level] - a[2]) / (b[2] - a[2]) if high > low else 0.0
                x, y = a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])
                for n in range(angles.size):
                    found[level, n] = max(found[level, n], x * across[n] + y * along[n])
    return found
