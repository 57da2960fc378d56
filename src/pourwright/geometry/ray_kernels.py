"""Compiled loop that follows rays to the first triangle they meet."""

import numpy as np
from numba import njit

from pourwright.geometry.mesh import Floats, Integers


@njit(cache=True)
def first_hits(triangles: Floats, starts: Floats, ways: Floats, least: float) -> tuple[Floats, Integers]:
    """Distance along each way to the nearest triangle beyond ``least``, infinite for none, and which it is.

    Moeller and Trumbore, J. Graph. Tools 2 (1997) 21 (from memory).
    """
    found = np.full(starts.shape[0], np.inf)
    which = np.zeros(starts.shape[0], dtype=np.int64)
    for ray in range(starts.shape[0]):
        dx, dy, dz = ways[ray]
        for face in range(triangles.shape[0]):
            ax, ay, az = triangles[face, 0]
            ux, uy, uz = triangles[face, 1, 0] - ax, triangles[face, 1, 1] - ay, triangles[face, 1, 2] - az
            vx, vy, vz = triangles[face, 2, 0] - ax, triangles[face, 2, 1] - ay, triangles[face, 2, 2] - az
            px, py, pz = dy * vz - dz * vy, dz * vx - dx * vz, dx * vy - dy * vx
            volume = ux * px + uy * py + uz * pz
            # a triangle that the ray runs along is no other side
            if volume == 0.0:
                continue
            sx, sy, sz = starts[ray, 0] - ax, starts[ray, 1] - ay, starts[ray, 2] - az
            along = (sx * px + sy * py + sz * pz) / volume
            if along < 0.0 or along > 1.0:
                continue
            qx, qy, qz = sy * uz - sz * uy, sz * ux - sx * uz, sx * uy - sy * ux
            across = (dx * qx + dy * qy + dz * qz) / volume
            if across < 0.0 or along + across > 1.0:
                continue
            distance = (vx * qx + vy * qy + vz * qz) / volume
            if least < distance < found[ray]:
                found[ray] = distance
                which[ray] = face
    return found, which
