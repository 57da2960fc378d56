"""Whether a stiff core comes out of the piece through the open face."""

from __future__ import annotations

import numpy as np

from pourwright.geometry import Mesh

STUCK = 0.01
"""A core with less than this share of its face under the casting comes out with a knock."""
UP = 0.02
"""Faces that look up by less than this (a degree) are held by nothing."""
AT_TOP = 1e-5


def comes_out(core: Mesh) -> bool:
    """Say whether a core can be drawn straight up.

    Parameters
    ----------
    core : Mesh
        In the pour frame, its top in the open face [m].

    Returns
    -------
    bool
        Whether next to none of its faces look up into the casting: it is nowhere wider below than above.

    Examples
    --------
    >>> from pourwright.geometry import cone
    >>> comes_out(cone(0.05, 0.06, 0.1)), comes_out(cone(0.06, 0.05, 0.1))
    (True, False)
    """
    areas = core.area_vectors
    sizes = np.linalg.norm(areas, axis=1)
    below = core.triangles[:, :, 2].min(axis=1) < core.bounds[1, 2] - AT_TOP
    held = below & (areas[:, 2] > UP * sizes)
    return bool(sizes[held].sum() < STUCK * sizes.sum())
