"""Flat parts of a surface whose outline has moved: they are parted into triangles anew."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from pourwright.geometry.connectivity import edges_of
from pourwright.geometry.drawn.outlines_offset import triangulated
from pourwright.geometry.mesh import Floats, Integers, Mesh

FLAT = 1e-10
"""Faces whose normals differ by less, as 1 - cosine, lie in one plane."""


def flat_parts(mesh: Mesh, amounts: Floats) -> Integers:
    """Number the flat parts of a surface that move alike.

    Parameters
    ----------
    mesh : Mesh
        Closed, welded.
    amounts : array (m,)
        How far each face goes [m].

    Returns
    -------
    array (m,)
        The same number for all faces of a part.

    Examples
    --------
    >>> from pourwright.geometry.primitives import box
    >>> int(flat_parts(box([1, 1, 1]), np.zeros(12)).max()) + 1
    6
    """
    from scipy.sparse import coo_array  # noqa: PLC0415 - a tenth of a second that only folds need
    from scipy.sparse.csgraph import connected_components  # noqa: PLC0415

    edges = edges_of(mesh)
    vectors = mesh.area_vectors
    normals = vectors / np.maximum(np.linalg.norm(vectors, axis=1), 1e-300)[:, None]
    twins = edges.starts[edges.uses == 2]
    one, other = edges.faces[twins], edges.faces[twins + 1]
    flat = ((normals[one] * normals[other]).sum(axis=1) > 1.0 - FLAT) & (amounts[one] == amounts[other])
    links = (np.ones(int(flat.sum())), (one[flat], other[flat]))
    count = len(mesh.faces)
    return np.asarray(connected_components(coo_array(links, shape=(count, count)), directed=False)[1])


def reparted(before: Mesh, after: Mesh, parts: Integers, folded: Integers) -> tuple[Mesh, Integers, Integers]:
    """Part flat parts with folded triangles into new ones, where their outlines still enclose them.

    Parameters
    ----------
    before, after : Mesh
        The same triangles, before and after their corners moved.
    parts : array (m,)
        Number of the flat part of each.
    folded : array of int
        Triangles that turned over.

    Returns
    -------
    tuple of Mesh and two arrays of int
        ``after`` with other triangles in these parts; for each triangle one of before in its part; and the
        triangles that are folded all the same, of parts whose outline crosses itself.
    """
    kept = np.ones(len(after.faces), dtype=bool)
    fresh, sources = [], []
    for part in np.unique(parts[folded]):
        mine = np.flatnonzero(parts == part)
        found = _parted(after, mine, before.area_vectors[mine].sum(axis=0))
        if found is not None:
            kept[mine] = False
            fresh.append(found)
            sources.append(np.full(len(found), mine[0]))
    left = np.flatnonzero(kept)
    mesh = Mesh(after.vertices, np.concatenate([after.faces[left], *fresh]))
    return mesh, np.concatenate([left, *sources]), folded[kept[folded]]


def _parted(mesh: Mesh, faces: Integers, normal: Floats) -> Integers | None:
    """New triangles of one flat part; None where none fit into its outline."""
    loops = list(_loops(mesh.faces[faces]))
    if not loops:
        return None
    first = np.cross(normal, np.eye(3)[np.abs(normal).argmin()])
    first /= np.linalg.norm(first)
    axes = np.stack([first, np.cross(normal / np.linalg.norm(normal), first)], axis=1)
    outlines = [mesh.vertices[loop] @ axes for loop in loops]
    corners, points = np.concatenate(loops), np.concatenate(outlines)
    triangles = triangulated(outlines)
    a, b, c = (points[triangles[:, i]] for i in range(3))
    areas = 0.5 * ((b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0])
    enclosed = sum(_area(outline) for outline in outlines)
    if not len(areas) or np.abs(areas).sum() > enclosed * (1 + 1e-9) or enclosed <= 0:
        return None
    return np.asarray(corners[triangles])


def _loops(faces: Integers) -> Iterator[Integers]:
    """Closed outlines of some triangles, the surface to their left; none where two of them touch."""
    begin, end = faces.ravel(), np.roll(faces, -1, axis=1).ravel()
    inside = set(zip(end.tolist(), begin.tolist(), strict=True))
    ahead: dict[int, int] = {}
    for one, other in zip(begin.tolist(), end.tolist(), strict=True):
        if (one, other) not in inside:
            if one in ahead:
                return
            ahead[one] = other
    while ahead:
        start, corner = next(iter(ahead.items()))
        loop = [start]
        while corner != start:
            loop.append(corner)
            corner = ahead.pop(corner)
        del ahead[start]
        yield np.array(loop)


def _area(outline: Floats) -> float:
    x, y = outline.T
    return float(0.5 * (x * np.roll(y, -1) - y * np.roll(x, -1)).sum())
