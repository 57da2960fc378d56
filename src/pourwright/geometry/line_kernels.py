"""Compiled loops that find which stretches of lines are seen."""

import numpy as np
from numba import njit

from pourwright.geometry.mesh import Floats, Integers

SLACK = 1.0
"""How far a surface may lie before a line that is still seen [pixels]: round-off of slanting sides."""


@njit(cache=True)
def _covered(x: float, y: float, z: float, face_at: Integers, planes: Floats) -> bool:
    """Whether the foremost sides at all four pixels around a point pass in front of it."""
    rows, columns = face_at.shape
    left, top = int(np.floor(x - 0.5)), int(np.floor(y - 0.5))
    for row in range(top, top + 2):
        for column in range(left, left + 2):
            if row < 0 or column < 0 or row >= rows or column >= columns:
                return False
            face = face_at[row, column]
            # the plane at the very point: beside a steep side the pixel's own depth says nothing
            if face < 0 or planes[face, 0] * x + planes[face, 1] * y + planes[face, 2] <= z + SLACK:
                return False
    return True


@njit(cache=True)
def seen_stretches(ends: Floats, face_at: Integers, planes: Floats, least: float) -> tuple[Integers, Floats]:
    """Which lines are seen from where to where.

    ``ends`` (n, 2, 3) in pixels and nearness; ``planes`` (m, 3) give nearness over column and row. Answers
    with the number of the line and shares from and to; stretches shorter than ``least`` pixels that are no
    whole line are left out.
    """
    owner, share = [], []
    for line in range(ends.shape[0]):
        dx, dy, dz = ends[line, 1] - ends[line, 0]
        length = np.sqrt(dx * dx + dy * dy)
        steps = max(int(np.ceil(2.0 * length)), 2)
        begin = -1.0
        for step in range(steps + 1):
            t = step / steps
            x, y, z = ends[line, 0, 0] + t * dx, ends[line, 0, 1] + t * dy, ends[line, 0, 2] + t * dz
            shown = not _covered(x, y, z, face_at, planes)
            if shown and begin < 0.0:
                begin = max(t - 0.5 / steps, 0.0)
            if begin >= 0.0 and (not shown or step == steps):
                end = 1.0 if shown else t - 0.5 / steps
                if (begin == 0.0 and end == 1.0) or (end - begin) * length >= least:
                    owner.append(line)
                    share.append((begin, end))
                begin = -1.0
    found = np.empty((len(owner), 2))
    for i in range(len(owner)):
        found[i, 0], found[i, 1] = share[i]
    return np.array(owner, dtype=np.int64), found
