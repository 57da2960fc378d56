"""What a body stands on: the hull of its lowest places, and how far it reaches beyond."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.geometry.mesh import Floats, Mesh

TOUCHES = 1e-3
TOP = 0.9
SMALLEST = 1e-6
"""Least area of a foot [m2]: less is a point or a line, on which nothing stands."""


@dataclass(frozen=True, slots=True, eq=False)
class Footing:
    """The edges of a foot, each by its outward direction.

    Parameters
    ----------
    outward : array (n, 2)
        Unit directions, level.
    offset : array (n,)
        How far the edge lies along them [m].
    beyond : array (n,)
        How far any place of the body lies beyond the edge; 0 or more [m].
    above : array (n,)
        The same of the upper tenth, below 0 where it lies within [m].
    """

    outward: Floats
    offset: Floats
    beyond: Floats
    above: Floats

    def inside(self, place: Floats) -> Floats:
        """How far a place (2,) lies within each edge; below 0 outside [m]."""
        return np.asarray(self.offset - self.outward @ place)


def footing_of(mesh: Mesh, *, flipped: bool) -> Footing | None:
    """Find what a body stands on.

    Parameters
    ----------
    mesh : Mesh
        The body [m].
    flipped : bool
        Whether it stands on its highest places.

    Returns
    -------
    Footing or None
        None for a body that touches the floor in a point or a line.

    Notes
    -----
    Places within 1 mm of the floor bear: no floor and no casting is truer.

    Examples
    --------
    >>> from pourwright.geometry import cone
    >>> foot = footing_of(cone(0.1, 0.05, 0.3), flipped=True)
    >>> round(float(foot.beyond.max()), 3)
    0.05
    """
    from scipy.spatial import ConvexHull, QhullError  # noqa: PLC0415 - a tenth of a second

    up = (-1.0 if flipped else 1.0) * mesh.vertices[:, 2]
    height, level = up - up.min(), mesh.vertices[:, :2]
    try:
        hull = ConvexHull(level[height <= TOUCHES])
    except (QhullError, ValueError):
        return None
    # of a flat hull "volume" is its area
    if hull.volume < SMALLEST:
        return None
    outward, offset = hull.equations[:, :2], -hull.equations[:, 2]
    out = level @ outward.T - offset
    return Footing(outward, offset, out.max(axis=0), out[height >= TOP * height.max()].max(axis=0))
