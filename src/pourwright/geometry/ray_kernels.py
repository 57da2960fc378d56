"""Compiled loops that follow rays to the first triangle they meet."""

import numpy as np
from numba import njit

from pourwright.geometry.mesh import Floats, Integers


@njit(cache=True)
def along_ray(triangle: Floats, start: Floats, way: Floats) -> float:
    """Distance along a way to a triangle, negative where it misses it.

    Moeller and Trumbore, J. Graph. Tools 2 (1997) 21 (from memory).
    """
    dx, dy, dz = way
    ax, ay, az = triangle[0]
    ux, uy, uz = triangle[1, 0] - ax, triangle[1, 1] - ay, triangle[1, 2] - az
    vx, vy, vz = triangle[2, 0] - ax, triangle[2, 1] - ay, triangle[2, 2] - az
    px, py, pz = dy * vz - dz * vy, dz * vx - dx * vz, dx * vy - dy * vx
    volume = ux * px + uy * py + uz * pz
    # a triangle that the ray runs along is no other side
    if volume == 0.0:
        return -1.0
    sx, sy, sz = start[0] - ax, start[1] - ay, start[2] - az
    along = (sx * px + sy * py + sz * pz) / volume
    if along < 0.0 or along > 1.0:
        return -1.0
    qx, qy, qz = sy * uz - sz * uy, sz * ux - sx * uz, sx * uy - sy * ux
    across = (dx * qx + dy * qy + dz * qz) / volume
    if across < 0.0 or along + across > 1.0:
        return -1.0
    return float((vx * qx + vy * qy + vz * qz) / volume)


@njit(cache=True)
def first_hits(triangles: Floats, starts: Floats, ways: Floats, least: float) -> tuple[Floats, Integers]:
    """Distance to the nearest triangle beyond ``least``, infinite for none, and which it is."""
    found = np.full(starts.shape[0], np.inf)
    which = np.zeros(starts.shape[0], dtype=np.int64)
    for ray in range(starts.shape[0]):
        for face in range(triangles.shape[0]):
            distance = along_ray(triangles[face], starts[ray], ways[ray])
            if least < distance < found[ray]:
                found[ray] = distance
                which[ray] = face
    return found, which
