"""Compiled loop for the distance of points to a surface."""

import numpy as np
from numba import njit

from pourwright.geometry.distance_kernels import least_possible, nearest_on_triangle
from pourwright.geometry.mesh import Floats


@njit(cache=True)
def distances_to(triangles: Floats, spheres: Floats, points: Floats) -> Floats:
    """Give the distance of each point to the nearest triangle, most of them passed over by their spheres."""
    found = np.empty(points.shape[0])
    nearest = 0
    for n in range(points.shape[0]):
        x, y, z = points[n, 0], points[n, 1], points[n, 2]
        _, dx, dy, dz = nearest_on_triangle(triangles[nearest], x, y, z)
        best = np.sqrt(dx * dx + dy * dy + dz * dz)
        for face in range(triangles.shape[0]):
            if least_possible(spheres, face, x, y, z) >= best:
                continue
            _, dx, dy, dz = nearest_on_triangle(triangles[face], x, y, z)
            length = np.sqrt(dx * dx + dy * dy + dz * dz)
            if length < best:
                best, nearest = length, face
        found[n] = best
    return found
