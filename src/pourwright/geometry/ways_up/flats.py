"""Flat faces of a body, and of the hull it stands on: the directions worth standing it by."""

from dataclasses import dataclass

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.mesh import Floats, Mesh

_CELLS = 2000
"""Normals are gathered in cells of this many to the unit: half a thousandth is below what a file rounds."""
_MOST = 200
"""Cells that are gathered, the largest first."""


@dataclass(frozen=True, slots=True, eq=False)
class Flat:
    """All flat area that faces one way.

    Parameters
    ----------
    direction : array (3,)
        Outward, of length 1.
    area : float
        [m2]
    """

    direction: Floats
    area: float


@checked(least_share=Range(0, 1), within=Range(0, np.pi / 4, unit="rad"))
def flat_faces(mesh: Mesh, least_share: float = 0.01, within: float = np.radians(1.0)) -> tuple[Flat, ...]:
    """Find the directions that much of a surface faces, the most first.

    Parameters
    ----------
    mesh : Mesh
        Outward oriented.
    least_share : float
        Share of the whole surface that counts.
    within : float
        Directions nearer to each other than this are one [rad].

    Returns
    -------
    tuple of Flat

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> flats = flat_faces(box([0.3, 0.2, 0.1]))
    >>> [(flat.direction.round(6).tolist(), round(flat.area, 3)) for flat in flats[:2]]
    [([0.0, 0.0, -1.0], 0.06), ([0.0, 0.0, 1.0], 0.06)]
    """
    return gathered(mesh.area_vectors, least_share, within)


def hull_faces(mesh: Mesh, least_share: float = 0.02, within: float = np.radians(1.0)) -> tuple[Flat, ...]:
    """Find the directions that the flat faces of the convex hull look, the largest first.

    Parameters
    ----------
    mesh : Mesh
        Not flat.
    least_share : float
        Share of the hull's surface that counts.
    within : float
        As in ``flat_faces`` [rad].

    Returns
    -------
    tuple of Flat
        A body stands on such a face also where only the ends of its legs lie in it.

    Examples
    --------
    >>> from pourwright.geometry import cone
    >>> hull_faces(cone(0.1, 0.05, 0.3))[0].direction.round(6).tolist()
    [0.0, 0.0, -1.0]
    """
    from scipy.spatial import ConvexHull  # noqa: PLC0415 - a tenth of a second that only ways ask for

    used = np.unique(mesh.faces)
    points = mesh.vertices[used]
    hull = ConvexHull(points)
    first, second, third = points[hull.simplices.T]
    areas = 0.5 * np.linalg.norm(np.cross(second - first, third - first), axis=1)
    return gathered(hull.equations[:, :3] * areas[:, None], least_share, within)


@checked(within=Range(0, np.pi / 4, unit="rad"))
def levelled(mesh: Mesh, way: Floats, within: float = np.radians(1.0)) -> tuple[Floats, float]:
    """Turn a direction that somebody wrote by hand onto the flat face it is meant for.

    Parameters
    ----------
    mesh : Mesh
        Outward oriented.
    way : array (3,)
        Unit vector.
    within : float
        How far a face may look aside [rad].

    Returns
    -------
    tuple of array (3,) and float
        The direction of the nearest flat face that near, ahead or behind, and how far it was turned [rad];
        the direction as it came where there is none.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> way, turned = levelled(box([0.3, 0.2, 0.1]), np.array([0.0, 0.0099998, 0.99995]))
    >>> way.tolist(), round(np.degrees(turned), 2)
    ([0.0, 0.0, 1.0], np.float64(0.57))
    """
    flats = [flat.direction for flat in flat_faces(mesh)]
    nearest = max([*flats, *(-flat for flat in flats)], key=lambda flat: float(way @ flat), default=way)
    angle = float(np.arctan2(np.linalg.norm(np.cross(way, nearest)), way @ nearest))
    return (nearest, angle) if angle <= within else (way, 0.0)


def gathered(vectors: Floats, least_share: float, within: float) -> tuple[Flat, ...]:
    """Gather area vectors (n, 3) [m2] that point the same way, the most first."""
    areas = np.linalg.norm(vectors, axis=1)
    vectors, areas = vectors[areas > 0], areas[areas > 0]
    cells = np.round(vectors / areas[:, None] * _CELLS).astype(np.int64) + _CELLS
    side = 2 * _CELLS + 1
    _, inverse = np.unique((cells[:, 0] * side + cells[:, 1]) * side + cells[:, 2], return_inverse=True)
    sums = np.stack([np.bincount(inverse, vectors[:, axis]) for axis in range(3)], axis=1)
    sizes = np.linalg.norm(sums, axis=1)
    order = np.lexsort((*np.round(sums, 12).T, -sizes.round(12)))[:_MOST]
    found, lengths, count = np.empty((len(order), 3)), np.empty(len(order)), 0
    # the largest takes in what lies within; a round side stays many small ones
    for index in order:
        alike = found[:count] @ (sums[index] / sizes[index]) > np.cos(within) * lengths[:count]
        near = int(alike.argmax()) if alike.any() else count
        found[near] = sums[index] + (found[near] if near < count else 0.0)
        lengths[near] = np.linalg.norm(found[near])
        count = max(count, near + 1)
    flats = [Flat(found[n] / lengths[n], float(lengths[n])) for n in range(count)]
    kept = [flat for flat in flats if flat.area >= least_share * areas.sum()]
    return tuple(sorted(kept, key=lambda flat: -round(flat.area, 12)))
