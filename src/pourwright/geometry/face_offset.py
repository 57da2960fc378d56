"""Move the faces of a body outward or inward, each by an amount of its own, and keep it one closed body."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pourwright.geometry.face_offset_flats import flat_parts, reparted
from pourwright.geometry.face_offset_slivers import Slivers
from pourwright.geometry.faults import Fault, find_faults
from pourwright.geometry.mesh import Floats, Integers, Mesh
from pourwright.geometry.welding import welded

Truths = npt.NDArray[np.bool_]
TINY = 1e-30
ROUND = float(np.tan(np.radians(12.5)) ** 2)
"""Faces that turn by less than twice this angle are one round surface: as for inner corners."""
SAME_SIDE = 0.25
"""How much of their lean faces must share to make a knife edge of it, as a square."""
SHARPEST = 1e-5
"""A sharper edge than this, about 0.4 degrees, has no place to go."""
SLACK = 1e-9
"""Triangles with less than this share of the largest area may turn over."""
CLOSER, ROUNDS = 0.2, 40
"""How far a round surface may move where small triangles are closed up, as a share of the amounts."""
SHORTEST = 1.0 / 64
"""Share of the amounts that faces are moved by at a time, where they fold when moved by more."""


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
        The same triangles with their vertices moved, whether it is still a body or not.

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
    planes = _planes(mesh, np.broadcast_to(np.asarray(amounts, dtype=np.float64), (len(mesh.faces),)))
    inverse = np.where(planes.kept, 1.0 / np.maximum(planes.sizes, TINY), 0.0)
    along = np.einsum("nji,nj->ni", planes.axes, planes.wanted)
    return Mesh(mesh.vertices + np.einsum("nij,nj->ni", planes.axes, inverse * along), mesh.faces)


def offset_body(mesh: Mesh, amounts: npt.ArrayLike) -> tuple[Mesh, tuple[Fault, ...]]:
    """Move every face along its normal, and look whether it is still a body.

    Parameters
    ----------
    mesh : Mesh
        Closed, outward oriented, welded.
    amounts : array (m,) or float
        How far outward each face goes [m]; below 0 inward.

    Returns
    -------
    tuple of Mesh and tuple of Fault
        The moved body; no fault where it is sound, else folded, or as `find_faults`.

    Notes
    -----
    As `offset_faces`, at once where nothing turns over, else bit by bit. Flat parts whose triangles turn
    over are parted into new ones; other small triangles, which an edge wanders over, are closed up first,
    where the surface stays within a twentieth of the greatest amount, a round one within a fifth.

    Examples
    --------
    A slot 4 mm wide does not survive 3 mm on each of its sides.

    >>> from pourwright.geometry.primitives import revolve
    >>> slot = [(0, 0), (5, 0), (5, 2), (3, 2), (3, 1), (2.6, 1), (2.6, 2), (0, 2)]
    >>> body, faults = offset_body(revolve(1e-2 * np.array(slot), 64), 0.003)
    >>> [fault.kind for fault in faults]
    ['folded']
    """
    base, far = mesh, np.broadcast_to(np.asarray(amounts, dtype=np.float64), (len(mesh.faces),))
    tolerance = CLOSER * float(np.abs(far).max(initial=0.0))
    done, step = 0.0, 1.0
    while done < 1.0:
        step = min(step, 1.0 - done)
        moved, origins, left = _step(base, far, step, tolerance)
        if not left.size:
            base, far, done = moved, far[origins], done + step
        elif step > SHORTEST:
            step /= 4.0
        else:
            place = moved.triangles[left[-1]].mean(axis=0)
            return moved, (Fault("folded", "the surface folds over", place, count=int(left.size)),)
    whole = welded(base)
    return whole, tuple(fault for fault in find_faults(whole) if fault.refused)


def _step(base: Mesh, far: Floats, share: float, tolerance: float) -> tuple[Mesh, Integers, Integers]:
    """Move the faces by a share of their amounts; closes up what is in the way.

    Gives the moved mesh and where each of its triangles comes from; or, where some are folded all the
    same, the mesh before it moved and these.
    """
    origins = np.arange(len(base.faces))
    for _ in range(ROUNDS):
        amounts = share * far[origins]
        moved = offset_faces(base, amounts)
        left = _folded(base, moved)
        if left.size:
            moved, sources, left = reparted(base, moved, flat_parts(base, amounts), left)
            if not left.size:
                return moved, origins[sources], left
            planes = _planes(base, amounts)
            smaller, which = Slivers(base, planes.sharpness, planes.axes[:, :, 0], tolerance).closed(left)
            if len(which) == len(base.faces):
                return base, origins, left
            base, origins = smaller, origins[which]
        else:
            return moved, origins, left
    return base, origins, left


def _folded(before: Mesh, after: Mesh) -> Integers:
    """Triangles that turned over, the smallest first."""
    old, new = before.area_vectors, after.area_vectors
    areas = np.maximum(np.linalg.norm(old, axis=1), np.linalg.norm(new, axis=1))
    folded = np.flatnonzero(((old * new).sum(axis=1) <= 0.0) & (areas > SLACK * areas.max()))
    return folded[np.argsort(areas[folded], kind="stable")]


@dataclass(frozen=True, slots=True, eq=False)
class _Planes:
    """Where the moved planes at each vertex meet, along the axes in which they differ most to least."""

    sizes: Floats
    axes: Floats
    wanted: Floats
    kept: Truths

    @property
    def sharpness(self) -> Integers:
        """1 for a vertex of a smooth surface, 2 on an edge, 3 at a corner (n,)."""
        return np.asarray(self.kept.sum(axis=1), dtype=np.int64)


def _planes(mesh: Mesh, far: Floats) -> _Planes:
    count, vectors = len(mesh.vertices), mesh.area_vectors
    normals = vectors / np.maximum(np.linalg.norm(vectors, axis=1), TINY)[:, None]
    angles, vertex, face = _corner_angles(mesh).ravel(), mesh.faces.ravel(), np.repeat(np.arange(len(far)), 3)
    matrix, wanted, mean = np.zeros((count, 3, 3)), np.zeros((count, 3)), np.zeros((count, 3))
    for row in range(3):
        pulled = angles * normals[face, row]
        mean[:, row] = np.bincount(vertex, weights=pulled, minlength=count)
        wanted[:, row] = np.bincount(vertex, weights=pulled * far[face], minlength=count)
        for column in range(row, 3):
            entry = np.bincount(vertex, weights=pulled * normals[face, column], minlength=count)
            matrix[:, row, column] = matrix[:, column, row] = entry
    sizes, axes = np.linalg.eigh(matrix)
    largest = np.maximum(sizes[:, -1:], TINY)
    # at a knife edge the faces hardly differ either, but all lean to the same side
    lean = np.einsum("nji,nj->ni", axes, mean)
    alike = lean**2 > SAME_SIDE * np.trace(matrix, axis1=1, axis2=2)[:, None] * np.maximum(sizes, TINY)
    kept = (sizes > ROUND * largest) | (alike & (sizes > SHARPEST * largest))
    return _Planes(sizes, axes, wanted, kept)


def _corner_angles(mesh: Mesh) -> Floats:
    """Angle of each triangle at each of its corners (m, 3) [rad]; 0 in triangles without area."""
    corners = mesh.triangles
    ahead = np.roll(corners, -1, axis=1) - corners
    behind = np.roll(corners, 1, axis=1) - corners
    across = np.linalg.norm(np.cross(ahead, behind), axis=2)
    angles = np.arctan2(across, (ahead * behind).sum(axis=2))
    return np.where(across > 0.0, angles, 0.0)
