"""Where a body has inner corners: edges that its surface folds inward at."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.mesh import Floats, Mesh


@dataclass(frozen=True, slots=True, eq=False)
class Creases:
    """Inner corners of a body, edge by edge.

    Parameters
    ----------
    ends : array (n, 2, 3)
        Both ends of each edge [m].
    angles : array (n,)
        By how much the surface turns there [rad]; a flat one turns by 0.
    """

    ends: Floats
    angles: Floats

    @property
    def middles(self) -> Floats:
        """Middle of each edge (n, 3) [m]."""
        return np.asarray(self.ends.mean(axis=1))


@checked(least=Range(0.0, np.pi, "rad"))
def inner_creases(mesh: Mesh, least: float = np.radians(25.0)) -> Creases:
    """Find the edges at which a surface folds inward.

    Parameters
    ----------
    mesh : Mesh
        Closed, outward oriented, welded.
    least : float
        Least turn that counts [rad]: the small steps of a round surface do not.

    Returns
    -------
    Creases
        In the order of the faces.

    Examples
    --------
    A box has outer corners only.

    >>> from pourwright.geometry import box
    >>> len(inner_creases(box([0.1, 0.1, 0.1])).angles)
    0
    """
    first, second, one, other, sides = _pairs(mesh)
    normals = mesh.area_vectors
    normals = normals / np.maximum(np.linalg.norm(normals, axis=1), 1e-30)[:, None]
    cosine = np.clip((normals[one] * normals[other]).sum(axis=1), -1.0, 1.0)
    # inward: the far corner of the second face lies in front of the first
    across = mesh.vertices[sides] - mesh.vertices[first]
    inward = (normals[one] * across).sum(axis=1) > 1e-9
    found = inward & (np.arccos(cosine) >= least)
    ends = np.stack([mesh.vertices[first[found]], mesh.vertices[second[found]]], axis=1)
    return Creases(ends, np.arccos(cosine[found]))


def _pairs(mesh: Mesh) -> tuple[np.ndarray, ...]:
    """Ends of each edge, its two faces, and the corner of the second face that is off the edge."""
    faces = mesh.faces
    start, end = faces.reshape(-1), np.roll(faces, -1, axis=1).reshape(-1)
    face = np.repeat(np.arange(len(faces)), 3)
    off = np.roll(faces, -2, axis=1).reshape(-1)
    low, high = np.minimum(start, end), np.maximum(start, end)
    order = np.lexsort((start, high, low))
    low, high = low[order], high[order]
    twins = np.flatnonzero((low[1:] == low[:-1]) & (high[1:] == high[:-1]))
    here, there = order[twins], order[twins + 1]
    return start[here], end[here], face[here], face[there], off[there]
