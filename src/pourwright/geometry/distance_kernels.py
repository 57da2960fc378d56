"""Compiled loops for the distance to a surface, and the volume within a distance of it."""

import numpy as np
from numba import njit

from pourwright.geometry.mesh import Floats, Integers

_FACE, _VERTEX, _EDGE = 0, 1, 4  # rows of a triangle's normals: face, three corners, edges ab, bc, ca


@njit(cache=True)
def nearest_on_triangle(t: Floats, x: float, y: float, z: float) -> tuple[int, float, float, float]:
    """Give the row of the nearest feature and the vector from the nearest point of triangle t to (x, y, z).

    Regions of the plane after Ericson, Real-Time Collision Detection (2005), section 5.1.5 (from memory).
    """
    abx, aby, abz = t[1, 0] - t[0, 0], t[1, 1] - t[0, 1], t[1, 2] - t[0, 2]
    acx, acy, acz = t[2, 0] - t[0, 0], t[2, 1] - t[0, 1], t[2, 2] - t[0, 2]
    px, py, pz = x - t[0, 0], y - t[0, 1], z - t[0, 2]
    d1, d2 = abx * px + aby * py + abz * pz, acx * px + acy * py + acz * pz
    if d1 <= 0 and d2 <= 0:
        return _VERTEX, px, py, pz
    bb, cc = abx * abx + aby * aby + abz * abz, acx * acx + acy * acy + acz * acz
    bc = abx * acx + aby * acy + abz * acz
    d3, d4, d5, d6 = d1 - bb, d2 - bc, d1 - bc, d2 - cc
    if d3 >= 0 and d4 <= d3:
        return _VERTEX + 1, px - abx, py - aby, pz - abz
    if d6 >= 0 and d5 <= d6:
        return _VERTEX + 2, px - acx, py - acy, pz - acz
    vc, vb, va = d1 * d4 - d3 * d2, d5 * d2 - d1 * d6, d3 * d6 - d5 * d4
    if vc <= 0 and d1 >= 0 and d3 <= 0:
        row, v, w = _EDGE, d1 / (d1 - d3), 0.0
    elif vb <= 0 and d2 >= 0 and d6 <= 0:
        row, v, w = _EDGE + 2, 0.0, d2 / (d2 - d6)
    elif va <= 0 and d4 - d3 >= 0 and d5 - d6 >= 0:
        w = (d4 - d3) / ((d4 - d3) + (d5 - d6))
        row, v = _EDGE + 1, 1 - w
    else:
        total = va + vb + vc
        row, v, w = _FACE, vb / total, vc / total
    return row, px - v * abx - w * acx, py - v * aby - w * acy, pz - v * abz - w * acz


@njit(cache=True)
def least_possible(spheres: Floats, face: int, x: float, y: float, z: float) -> float:
    """Bound the distance to a triangle from below by the sphere around it."""
    dx, dy, dz = x - spheres[face, 0], y - spheres[face, 1], z - spheres[face, 2]
    return float(np.sqrt(dx * dx + dy * dy + dz * dz) - spheres[face, 3])


@njit(cache=True)
def signed_distance(
    triangles: Floats,
    normals: Floats,
    spheres: Floats,
    listed: Integers,
    x: float,
    y: float,
    z: float,
    out: Floats,
) -> float:
    """Give the signed distance of a point to the listed triangles; write its gradient into out.

    The nearest triangle moves to the front of the list: points asked next lie close, and then most others are
    passed over by their spheres.
    """
    best = np.inf
    nearest, row = 0, 0
    for n in range(listed.size):
        if least_possible(spheres, listed[n], x, y, z) >= best:
            continue
        feature, dx, dy, dz = nearest_on_triangle(triangles[listed[n]], x, y, z)
        length = np.sqrt(dx * dx + dy * dy + dz * dz)
        if length < best:
            best, nearest, row = length, n, feature
            out[0], out[1], out[2] = dx, dy, dz
    face = listed[nearest]
    listed[nearest], listed[0] = listed[0], face
    normal = normals[face, row]
    # on the surface itself the way to it has no direction
    if best < 1e-12:
        out[:] = normal
        return 0.0
    sign = 1.0 if out[0] * normal[0] + out[1] * normal[1] + out[2] * normal[2] >= 0 else -1.0
    for k in range(3):
        out[k] *= sign / best
    return sign * best


@njit(cache=True)
def keep_near(
    spheres: Floats, pool: Integers, start: int, count: int, x: float, y: float, z: float, limit: float
) -> int:
    """Append to the pool those of a list that may lie within limit of the point; return how many."""
    kept = 0
    for n in range(start, start + count):
        if least_possible(spheres, pool[n], x, y, z) <= limit:
            pool[start + count + kept] = pool[n]
            kept += 1
    return kept


@njit(cache=True)
def share_of_cube(alpha: float, gradient: Floats) -> float:
    """Give the volume share of a unit cube on the low side of a plane.

    The plane is alpha = sum |g_i| x_i / sum |g_i| with x from 0 to 1; Scardovelli and Zaleski, J. Comput.
    Phys. 164 (2000) 228 (from memory).
    """
    x, y, z = abs(gradient[0]), abs(gradient[1]), abs(gradient[2])
    m1, m3 = min(x, y, z), max(x, y, z)
    m2 = max(min(x, y), min(max(x, y), z))
    total = m1 + m2 + m3
    # the formula divides by all three; so small a slope moves the share by less than 1e-5
    m1, m2, m3 = max(m1 / total, 1e-5), max(m2 / total, 1e-5), max(m3 / total, 1e-5)
    total = m1 + m2 + m3
    m1, m2, m3 = m1 / total, m2 / total, m3 / total
    a = min(max(min(alpha, 1 - alpha), 0.0), 0.5)
    if a < m1:
        share = a**3 / (6 * m1 * m2 * m3)
    elif a < m2:
        share = a * (a - m1) / (2 * m2 * m3) + m1 * m1 / (6 * m2 * m3)
    elif a < min(m1 + m2, m3):
        share = (a * a * (3 * (m1 + m2) - a) + m1 * m1 * (m1 - 3 * a) + m2 * m2 * (m2 - 3 * a)) / (
            6 * m1 * m2 * m3
        )
    elif m3 < m1 + m2:
        cubes = m1 * m1 * (m1 - 3 * a) + m2 * m2 * (m2 - 3 * a) + m3 * m3 * (m3 - 3 * a)
        share = (a * a * (3 - 2 * a) + cubes) / (6 * m1 * m2 * m3)
    else:
        share = (2 * a - m1 - m2) / (2 * m3)
    return float(share if alpha <= 0.5 else 1 - share)


@njit(cache=True)
def volume_within(
    triangles: Floats,
    normals: Floats,
    spheres: Floats,
    corner: Floats,
    side: float,
    finest: float,
    offset: float,
) -> float:
    """Sum the volume where the signed distance is at most offset, over a cube that holds it all.

    A cube no part of the level surface can reach counts whole or not at all; others are halved down to the
    finest size, where a plane with the true distance and gradient cuts them.
    """
    faces = triangles.shape[0]
    # last in, first out: what lies behind a list in the pool is no longer wanted when it comes up
    levels = int(np.ceil(np.log2(max(side / finest, 1.0)))) + 3
    pool = np.empty(levels * faces, dtype=np.int64)
    pool[:faces] = np.arange(faces)
    stack = np.empty((8 * levels, 4))
    lists = np.empty((8 * levels, 2), dtype=np.int64)
    stack[0, :3], stack[0, 3] = corner + side / 2, side
    lists[0, 0], lists[0, 1] = 0, faces
    gradient = np.empty(3)
    depth, volume = 1, 0.0
    while depth > 0:
        depth -= 1
        x, y, z, width = stack[depth]
        start, count = lists[depth]
        radius = width * np.sqrt(3.0) / 2
        found = signed_distance(triangles, normals, spheres, pool[start : start + count], x, y, z, gradient)
        level = found - offset
        if level >= radius:
            continue
        if level <= -radius:
            volume += width**3
        elif width <= finest * 1.0000001:
            slope = abs(gradient[0]) + abs(gradient[1]) + abs(gradient[2])
            volume += width**3 * share_of_cube(0.5 - level / width / slope, gradient)
        else:
            # from any point of the cube the nearest face is at most a diagonal farther than from its centre
            kept = keep_near(spheres, pool, start, count, x, y, z, abs(found) + 2 * radius)
            for part in range(8):
                stack[depth, 0] = x + width / 4 * (2 * (part & 1) - 1)
                stack[depth, 1] = y + width / 4 * (2 * (part >> 1 & 1) - 1)
                stack[depth, 2] = z + width / 4 * (2 * (part >> 2) - 1)
                stack[depth, 3] = width / 2
                lists[depth, 0], lists[depth, 1] = start + count, kept
                depth += 1
    return volume


@njit(cache=True)
def fill_distances(
    triangles: Floats, normals: Floats, spheres: Floats, x: Floats, y: Floats, z: Floats, band: float
) -> Floats:
    """Give the signed distance at every point of a lattice, clipped to the band.

    Blocks of points are halved along their longest side; each half keeps only triangles that can be
    nearest in it.
    """
    faces = triangles.shape[0]
    result = np.empty((x.size, y.size, z.size))
    halvings = int(np.ceil(np.log2(x.size)) + np.ceil(np.log2(y.size)) + np.ceil(np.log2(z.size))) + 3
    pool = np.empty(halvings * faces, dtype=np.int64)
    pool[:faces] = np.arange(faces)
    blocks = np.empty((2 * halvings, 8), dtype=np.int64)
    blocks[0] = np.array([0, x.size, 0, y.size, 0, z.size, 0, faces])
    gradient = np.empty(3)
    depth = 1
    while depth > 0:
        depth -= 1
        i0, i1, j0, j1, k0, k1, start, count = blocks[depth]
        sides = np.array([x[i1 - 1] - x[i0], y[j1 - 1] - y[j0], z[k1 - 1] - z[k0]])
        cx, cy, cz = (x[i0] + x[i1 - 1]) / 2, (y[j0] + y[j1 - 1]) / 2, (z[k0] + z[k1 - 1]) / 2
        radius = np.sqrt((sides**2).sum()) / 2
        found = signed_distance(
            triangles, normals, spheres, pool[start : start + count], cx, cy, cz, gradient
        )
        if abs(found) - radius >= band or (i1 - i0) * (j1 - j0) * (k1 - k0) == 1:
            result[i0:i1, j0:j1, k0:k1] = min(max(found, -band), band)
            continue
        kept = keep_near(spheres, pool, start, count, cx, cy, cz, abs(found) + 2 * radius)
        axis = int(np.argmax(sides))
        for half in range(2):
            block = np.array([i0, i1, j0, j1, k0, k1, start + count, kept])
            block[2 * axis + 1 - half] = blocks_middle(i0, i1, j0, j1, k0, k1, axis)
            blocks[depth] = block
            depth += 1
    return result


@njit(cache=True)
def blocks_middle(i0: int, i1: int, j0: int, j1: int, k0: int, k1: int, axis: int) -> int:
    """Give the middle index along an axis."""
    if axis == 0:
        return (i0 + i1) // 2
    return (j0 + j1) // 2 if axis == 1 else (k0 + k1) // 2
