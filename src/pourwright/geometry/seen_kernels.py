"""Compiled loop that finds the foremost triangle behind every pixel of a view."""

import numpy as np
from numba import njit

from pourwright.geometry.mesh import Floats, Integers


@njit(cache=True)
def foremost(points: Floats, faces: Integers, height: int, width: int) -> tuple[Integers, Floats]:
    """Face number, -1 for none, and distance toward the viewer at every pixel's middle.

    ``points`` (n, 3) hold column, row and nearness in pixels; of two faces equally near the first is taken.
    """
    face_at = np.full((height, width), -1, dtype=np.int64)
    near_at = np.full((height, width), -np.inf)
    for face in range(faces.shape[0]):
        ax, ay, az = points[faces[face, 0]]
        bx, by, bz = points[faces[face, 1]]
        cx, cy, cz = points[faces[face, 2]]
        twice = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
        if twice == 0.0:
            continue
        left = max(int(np.ceil(min(ax, bx, cx) - 0.5)), 0)
        right = min(int(np.floor(max(ax, bx, cx) - 0.5)), width - 1)
        top = max(int(np.ceil(min(ay, by, cy) - 0.5)), 0)
        bottom = min(int(np.floor(max(ay, by, cy) - 0.5)), height - 1)
        for row in range(top, bottom + 1):
            y = row + 0.5
            for column in range(left, right + 1):
                x = column + 0.5
                u = ((bx - x) * (cy - y) - (by - y) * (cx - x)) / twice
                v = ((cx - x) * (ay - y) - (cy - y) * (ax - x)) / twice
                w = 1.0 - u - v
                if u < 0.0 or v < 0.0 or w < 0.0:
                    continue
                near = u * az + v * bz + w * cz
                if near > near_at[row, column]:
                    near_at[row, column] = near
                    face_at[row, column] = face
    return face_at, near_at
