"""Bodies of unit cubes, whose caught air can be counted cube by cube."""

import numpy as np
from scipy import ndimage

from pourwright.geometry import Mesh, welded

# corners of the face of a unit cube toward +x, counter-clockwise from outside
_FACE = np.array([[1, 0, 0], [1, 1, 0], [1, 1, 1], [1, 0, 1]])


def cubes(full):
    """Mesh of the cubes that are full, of side 1."""
    quads = []
    padded = np.pad(full, 1)
    for axis in range(3):
        turned = np.roll(_FACE, axis, axis=1)
        for sign, corners in ((1, turned), (-1, _mirrored(turned, axis))):
            bare = padded & ~np.roll(padded, -sign, axis=axis)
            quads.append((np.argwhere(bare)[:, None, :] - 1) + corners)
    points = np.concatenate(quads).reshape(-1, 3).astype(float)
    first = 4 * np.arange(len(points) // 4)[:, None]
    return welded(Mesh(points, np.concatenate([first + np.array(half) for half in ([0, 1, 2], [0, 2, 3])])))


def _mirrored(corners, axis):
    """The opposite face: moved to the other side, and wound the other way round."""
    other = corners.copy()
    other[:, axis] = 0
    return other[::-1]


def sound(full):
    """Whether no two cubes touch along an edge or at a corner only, neither full nor empty ones."""
    padded = np.pad(full, 1).astype(int)
    for axis in range(3):
        for slab in np.moveaxis(padded, axis, 0):
            a, b, c, d = slab[:-1, :-1], slab[1:, :-1], slab[:-1, 1:], slab[1:, 1:]
            if ((a == d) & (b == c) & (a != b)).any():
                return False
    blocks = np.lib.stride_tricks.sliding_window_view(padded, (2, 2, 2))
    mixed = blocks.reshape(-1, 2, 2, 2)
    mixed = np.unique(mixed[(mixed.sum(axis=(1, 2, 3)) % 8) > 0], axis=0)
    return all(ndimage.label(each)[1] < 2 for block in mixed for each in (block, 1 - block))


def caught(space, leaves):
    """Cubes of a space that a liquid, rising layer by layer, never reaches.

    ``leaves`` marks the cubes of the space from which air gets away.
    """
    lost = np.zeros_like(space)
    for layer in range(space.shape[2]):
        open_ = space & ~lost
        open_[:, :, :layer] = False
        labels, count = ndimage.label(open_)
        free = np.zeros(count + 1, dtype=bool)
        free[labels[leaves & open_]] = True
        free[0] = True
        lost |= ~free[labels]
    return int(lost.sum())
