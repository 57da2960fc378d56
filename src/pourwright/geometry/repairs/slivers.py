"""Triangles without area: their long side is turned to the other corner of the quadrilateral."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from pourwright.geometry.connectivity import edges_of
from pourwright.geometry.mesh import Floats, Integers, Mesh
from pourwright.geometry.repairs.mending import Mending, counted

THIN = 1e-12
"""A triangle has no area where it is less than this share of the square of its longest side."""
_PASSES = 30


def without_slivers(mesh: Mesh) -> tuple[Mesh, tuple[Mending, ...]]:
    """Take triangles without area out of a surface without opening it.

    Parameters
    ----------
    mesh : Mesh
        With shared vertices.

    Returns
    -------
    Mesh, tuple of Mending
        What cannot be taken out stays; it does no harm.

    Notes
    -----
    A triangle whose corner lies on its long side bridges two triangles beside it and one across it. Left out,
    it would leave a slit; so the triangle across is parted at that corner instead, which moves nothing.

    Examples
    --------
    >>> corners = [[0, 0, 0], [2, 0, 0], [1, 0, 0], [1, -1, 0], [1, 1, 0]]
    >>> split = Mesh(corners, [[0, 1, 2], [1, 0, 3], [0, 2, 4], [2, 1, 4]])
    >>> without_slivers(split)[0].faces.tolist()
    [[2, 0, 3], [1, 2, 3], [0, 2, 4], [2, 1, 4]]
    """
    thin = thin_faces(mesh)
    places = mesh.triangles[thin].mean(axis=1)
    if not thin.size:
        return mesh, ()
    faces, before = mesh.faces.copy(), thin.size
    for _ in range(_PASSES):
        if not thin.size or not _turned(mesh.vertices, faces, thin):
            break
        thin = thin_faces(Mesh(mesh.vertices, faces))
    gone = before - thin.size
    if gone <= 0:
        return mesh, ()
    said = counted(gone, "triangle without area was", "triangles without area were")
    return Mesh(mesh.vertices, faces), (Mending("degenerate", f"{said} left out", places),)


def thin_faces(mesh: Mesh) -> Integers:
    """List the triangles that have no area.

    Parameters
    ----------
    mesh : Mesh
        Any mesh.

    Returns
    -------
    array (n,)
        Face numbers.

    Examples
    --------
    >>> thin_faces(Mesh([[0, 0, 0], [2, 0, 0], [1, 0, 0]], [[0, 1, 2]])).tolist()
    [0]
    """
    return np.flatnonzero(np.linalg.norm(mesh.area_vectors, axis=1) <= THIN * _longest(mesh.triangles) ** 2)


def _longest(triangles: Floats) -> Floats:
    sides = triangles - np.roll(triangles, 1, axis=1)
    return np.asarray(np.linalg.norm(sides, axis=2).max(axis=1))


def _turned(vertices: Floats, faces: Integers, thin: Integers) -> int:
    """Turn the long side of each thin face that has one sound face across; return how many were turned."""
    mesh = Mesh(vertices, faces)
    edges = edges_of(mesh)
    known = {(int(low), int(high)) for low, high in edges.ends}
    across = _faces_across(mesh)
    touched: set[int] = set()
    for face in thin.tolist():
        if face in touched:
            continue
        a, b, m = _long_side_first(vertices, faces[face])
        others = across(a, b)
        if len(others) != 2 or touched & {*others}:
            continue
        other = others[0] if others[1] == face else others[1]
        c = int(faces[other].sum() - a - b)
        along = faces[other].tolist()
        agree = along[(along.index(b) + 1) % 3] == a
        if c == m or not agree or (min(c, m), max(c, m)) in known:
            continue
        faces[face], faces[other] = (m, a, c), (b, m, c)
        known.add((min(c, m), max(c, m)))
        touched |= {face, other}
    return len(touched)


def _long_side_first(vertices: Floats, face: Integers) -> tuple[int, int, int]:
    corners = vertices[face]
    side = int(np.argmax(np.linalg.norm(np.roll(corners, -1, axis=0) - corners, axis=1)))
    a, b, m = np.roll(face, -side).tolist()
    return a, b, m


def _faces_across(mesh: Mesh) -> Callable[[int, int], list[int]]:
    edges = edges_of(mesh)
    key = edges.ends[:, 0] * len(mesh.vertices) + edges.ends[:, 1]
    ends = np.append(edges.starts, edges.order.size)

    def look(a: int, b: int) -> list[int]:
        slot = int(np.searchsorted(key, min(a, b) * len(mesh.vertices) + max(a, b)))
        return [int(face) for face in edges.order[ends[slot] : ends[slot + 1]] // 3]

    return look
