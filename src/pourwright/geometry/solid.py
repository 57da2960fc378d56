"""Exact measures of the body a closed mesh encloses."""

from dataclasses import dataclass

import numpy as np

from pourwright.geometry.kept import kept
from pourwright.geometry.mesh import Floats, Mesh


@dataclass(frozen=True, slots=True, eq=False)
class Solid:
    """What a body measures, at density 1.

    Parameters
    ----------
    volume : float
        Enclosed volume [m3]; negative when the mesh is inside out.
    area : float
        Surface area [m2].
    centroid : array (3,)
        Centre of volume [m].
    inertia : array (3, 3)
        Inertia tensor about the centroid at density 1 kg/m3 [m5]; multiply by the density.
    lower, upper : array (3,)
        Corners of the bounding box [m].
    """

    volume: float
    area: float
    centroid: Floats
    inertia: Floats
    lower: Floats
    upper: Floats

    @property
    def size(self) -> Floats:
        """Edge lengths of the bounding box, (3,) [m]."""
        return self.upper - self.lower


@kept
def measure(mesh: Mesh) -> Solid:
    """Measure a closed mesh exactly, up to round-off.

    Parameters
    ----------
    mesh : Mesh
        Closed and outward oriented.

    Returns
    -------
    Solid

    Notes
    -----
    Divergence theorem as a sum over signed tetrahedra from a point near the body, so that a shape far from
    the origin loses no digits. For the tetrahedron (0, a, b, c) with s = a + b + c and D = a . (b x c):
    volume D/6, first moment D s/24, second moment D (a a' + b b' + c c' + s s')/120.

    Source: exact integration of polynomials over a simplex; Tonon, J. Math. Stat. 1 (2004) 8 (from memory).

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> found = measure(box([0.4, 0.3, 0.2]))
    >>> round(found.volume, 6), round(found.area, 6), round(float(found.inertia[2, 2]) * 1000, 6)
    (0.024, 0.52, 0.5)
    """
    lower, upper = mesh.bounds
    middle = (lower + upper) / 2
    corners = mesh.triangles - middle
    first, second, third = corners[:, 0], corners[:, 1], corners[:, 2]
    parallelepiped = np.einsum("ij,ij->i", first, np.cross(second, third))
    total = corners.sum(axis=1)
    volume = float(parallelepiped.sum() / 6)
    # a body without volume has no centroid; its middle stands in, and faults refuses it
    centroid = parallelepiped @ total / 24 / volume if volume else np.zeros(3)
    moments = np.einsum("m,mki,mkj->ij", parallelepiped, corners, corners)
    moments = (moments + (parallelepiped[:, None] * total).T @ total) / 120
    moments -= volume * np.outer(centroid, centroid)
    inertia = np.trace(moments) * np.eye(3) - moments
    area = float(np.linalg.norm(mesh.area_vectors, axis=1).sum())
    return Solid(volume, area, centroid + middle, inertia, lower, upper)
