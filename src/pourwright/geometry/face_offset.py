"""Move the faces of a body outward or inward, each by an amount of its own, and keep it one closed body."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.faults import Fault, find_faults
from pourwright.geometry.mesh import Floats, Mesh
from pourwright.geometry.welding import welded

Truths = npt.NDArray[np.bool_]
TINY = 1e-30
ROUND = float(np.tan(np.radians(12.5)) ** 2)
"""Faces that turn by less than twice this angle are one round surface: as for inner corners."""
SAME_SIDE = 0.25
"""How much of their lean faces must share to make a knife edge of it, as a square."""
SHARPEST = 1e-5
"""A sharper edge than this, about 0.4 degrees, has no place to go."""


def facing(mesh: Mesh, direction: npt.ArrayLike, within: float = np.pi / 4) -> Truths:
    """Find the faces that look along a direction.

    Parameters
    ----------
    mesh : Mesh
        Outward oriented.
    direction : array (3,)
        Of any length.
    within : float
        Largest angle between normal and direction [rad].

    Returns
    -------
    array of bool (m,)
        A face without area looks nowhere.

    Examples
    --------
    >>> from pourwright.geometry.primitives import box
    >>> int(facing(box([0.1, 0.1, 0.1]), [1.0, 0.0, 0.0]).sum())
    2
    """
    toward = np.asarray(direction, dtype=np.float64)
    toward = toward / np.linalg.norm(toward)
    vectors = mesh.area_vectors
    areas = np.linalg.norm(vectors, axis=1)
    # a little room, so that faces at exactly that angle do not hang on round-off
    return np.asarray((vectors @ toward >= (np.cos(within) - 1e-9) * areas) & (areas > 0))


def offset_faces(mesh: Mesh, amounts: npt.ArrayLike) -> Mesh:
    """Move every face along its normal.

    Parameters
    ----------
    mesh : Mesh
        Closed, outward oriented, welded.
    amounts : array (m,) or float
        How far outward each face goes [m]; below 0 inward.

    Returns
    -------
    Mesh
        The same triangles with their vertices moved; `offset_faults` says whether it is still a body.

    Notes
    -----
    Each vertex goes where the moved planes of its faces meet: the least squares of n . x = d over its faces,
    weighted by their angle there. Directions in which the faces hardly differ, as along a round surface, are
    left out, so that a round surface grows along its normals, and two amounts on one round surface blend.

    Examples
    --------
    A box grows by 1 mm at its sides and 3 mm at its top.

    >>> from pourwright.geometry.primitives import box
    >>> body = box([0.1, 0.1, 0.1])
    >>> grown = offset_faces(body, np.where(facing(body, [0, 0, 1]), 0.003, 0.001))
    >>> (grown.bounds[1] - grown.bounds[0]).round(6).tolist()
    [0.102, 0.102, 0.104]
    """
    count = len(mesh.vertices)
    far = np.broadcast_to(np.asarray(amounts, dtype=np.float64), (len(mesh.faces),))
    vectors = mesh.area_vectors
    normals = vectors / np.maximum(np.linalg.norm(vectors, axis=1), TINY)[:, None]
    angles = _corner_angles(mesh).ravel()
    vertex, face = mesh.faces.ravel(), np.repeat(np.arange(len(mesh.faces)), 3)
    matrix, wanted, mean = np.zeros((count, 3, 3)), np.zeros((count, 3)), np.zeros((count, 3))
    for row in range(3):
        pulled = angles * normals[face, row]
        mean[:, row] = np.bincount(vertex, weights=pulled, minlength=count)
        wanted[:, row] = np.bincount(vertex, weights=pulled * far[face], minlength=count)
        for column in range(row, 3):
            entry = np.bincount(vertex, weights=pulled * normals[face, column], minlength=count)
            matrix[:, row, column] = matrix[:, column, row] = entry
    return Mesh(mesh.vertices + _least_moves(matrix, wanted, mean), mesh.faces)


def _corner_angles(mesh: Mesh) -> Floats:
    """Angle of each triangle at each of its corners (m, 3) [rad]; 0 in triangles without area."""
    corners = mesh.triangles
    ahead = np.roll(corners, -1, axis=1) - corners
    behind = np.roll(corners, 1, axis=1) - corners
    across = np.linalg.norm(np.cross(ahead, behind), axis=2)
    angles = np.arctan2(across, (ahead * behind).sum(axis=2))
    return np.where(across > 0.0, angles, 0.0)


def _least_moves(matrix: Floats, wanted: Floats, mean: Floats) -> Floats:
    """Shortest moves (n, 3) that meet the planes best, along the directions in which they differ."""
    sizes, axes = np.linalg.eigh(matrix)
    largest = np.maximum(sizes[:, -1:], TINY)
    # at a knife edge the faces hardly differ either, but all lean to the same side
    lean = np.einsum("nji,nj->ni", axes, mean)
    alike = lean**2 > SAME_SIDE * np.trace(matrix, axis1=1, axis2=2)[:, None] * np.maximum(sizes, TINY)
    kept = (sizes > ROUND * largest) | (alike & (sizes > SHARPEST * largest))
    inverse = np.where(kept, 1.0 / np.maximum(sizes, TINY), 0.0)
    along = np.einsum("nji,nj->ni", axes, wanted)
    return np.asarray(np.einsum("nij,nj->ni", axes, inverse * along))


@checked(slack=Range(0.0, 1.0))
def offset_faults(before: Mesh, after: Mesh, slack: float = 1e-9) -> tuple[Fault, ...]:
    """Look for what moving the faces did to a body.

    Parameters
    ----------
    before, after : Mesh
        The same triangles.
    slack : float
        Triangles with less than this share of the largest area may turn over: they are slivers.

    Returns
    -------
    tuple of Fault
        Empty where it is still a sound body: folded where a face turned over, else as `find_faults`.

    Examples
    --------
    A slot 4 mm wide does not survive 3 mm on each of its sides.

    >>> from pourwright.geometry.primitives import revolve
    >>> slot = [(0, 0), (0.05, 0), (0.05, 0.02), (0.03, 0.02), (0.03, 0.01), (0.026, 0.01), (0.026, 0.02), (0, 0.02)]
    >>> body = revolve(slot, 64)
    >>> [fault.kind for fault in offset_faults(body, offset_faces(body, 0.003))]
    ['folded']
    """
    old, new = before.area_vectors, after.area_vectors
    areas = np.linalg.norm(old, axis=1)
    turned = (old * new).sum(axis=1) <= 0.0
    folded = np.flatnonzero(turned & (areas > slack * areas.max()))
    if folded.size:
        place = before.triangles[folded[np.argmax(areas[folded])]].mean(axis=0)
        return (Fault("folded", "the surface folds over", place, count=int(folded.size)),)
    return tuple(fault for fault in find_faults(welded(after)) if fault.refused)
