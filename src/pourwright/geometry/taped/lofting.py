"""A closed mesh through outlines that lie one above the other."""

import numpy as np

from pourwright.geometry.mesh import Floats, Mesh


def loft(heights: Floats, outlines: Floats) -> Mesh:
    """Join outlines of equally many points into a closed body.

    Parameters
    ----------
    heights : array (m,)
        Rising [m].
    outlines : array (m, n, 2)
        Points of each outline, counter-clockwise seen from above, each star-shaped about the axis [m]; the
        first and the last may be one point, all zero.

    Returns
    -------
    Mesh
        Ends that are no point are closed flat.

    Examples
    --------
    >>> from pourwright.geometry import measure
    >>> square = np.array([[1.0, 0.0], [0.0, 1.0], [-1.0, 0.0], [0.0, -1.0]])
    >>> pyramid = loft(np.array([0.0, 3.0]), np.stack([square, 0 * square]))
    >>> round(measure(pyramid).volume, 9), len(pyramid.faces)
    (2.0, 8)
    """
    pointed = np.abs(outlines).max(axis=(1, 2)) == 0
    bottom, top = (np.array([[0.0, 0.0, heights[end]]]) for end in (0, -1))
    low, high = int(pointed[0]), len(heights) - int(pointed[-1])
    kept, count = outlines[low:high], outlines.shape[1]
    rings = np.concatenate(
        [kept, np.broadcast_to(heights[low:high, None, None], (*kept.shape[:2], 1))], axis=2
    )
    vertices = np.concatenate([rings.reshape(-1, 3), bottom, top])
    return Mesh(vertices, _faces(len(kept), count))


def _faces(rings: int, count: int) -> np.ndarray:
    """Strips between rings, and a fan at both ends."""
    around = np.arange(count)
    beside = (around + 1) % count
    low = count * np.arange(rings - 1)[:, None]
    a, b, c, d = low + around, low + beside, low + count + beside, low + count + around
    strips = np.stack([np.stack([a, b, c], axis=-1), np.stack([a, c, d], axis=-1)], axis=2).reshape(-1, 3)
    bottom, top, last = count * rings, count * rings + 1, count * (rings - 1)
    below = np.stack([np.full(count, bottom), beside, around], axis=1)
    above = np.stack([np.full(count, top), last + around, last + beside], axis=1)
    return np.concatenate([strips, below, above])
