"""Corners of a body that come to a point."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.mesh import Floats, Mesh
from pourwright.geometry.thin.edge_lines import edge_folds


@dataclass(frozen=True, slots=True, eq=False)
class Spikes:
    """Points of a body.

    Parameters
    ----------
    places : array (n, 3)
        The sharpest first [m].
    angles : array (n,)
        Whole angle of the round cone that is as pointed [rad].
    """

    places: Floats
    angles: Floats


@checked(widest=Range(0.0, np.pi, "rad"))
def spikes(mesh: Mesh, widest: float = np.radians(60.0)) -> Spikes:
    """Find the vertices at which a body is as pointed as a narrow cone.

    Parameters
    ----------
    mesh : Mesh
        Closed, outward oriented, welded.
    widest : float
        Whole angle of the cone that still counts [rad].

    Returns
    -------
    Spikes

    Notes
    -----
    The solid angle at a vertex is 2 pi less the sum of the turns of its edges, outward ones positive (area of
    a spherical polygon, Girard's theorem); a cone of the half angle a has 2 pi (1 - cos a).

    Examples
    --------
    >>> from pourwright.geometry import cone
    >>> found = spikes(cone(0.02, 0.0, 0.1, 64))
    >>> found.angles.shape, bool(abs(np.degrees(found.angles[0]) - 2 * np.degrees(np.arctan(0.2))) < 0.1)
    ((1,), True)
    """
    folds = edge_folds(mesh)
    ends = mesh.faces.ravel()[folds.halves], np.roll(mesh.faces, -1, axis=1).ravel()[folds.halves]
    turned = np.bincount(np.concatenate(ends), np.tile(folds.turns, 2), len(mesh.vertices))
    used = np.bincount(mesh.faces.ravel(), minlength=len(mesh.vertices)) > 0
    solid = np.clip(2 * np.pi + turned, 0.0, 4 * np.pi)
    angles = 2 * np.arccos(np.clip(1 - solid / (2 * np.pi), -1.0, 1.0))
    found = np.flatnonzero(used & (angles <= widest))
    order = found[np.argsort(angles[found], kind="stable")]
    return Spikes(mesh.vertices[order], angles[order])
