"""Vertices with equal coordinates become one: STL writes each corner anew."""

import numpy as np

from pourwright.geometry.mesh import Integers, Mesh


def welded(mesh: Mesh) -> Mesh:
    """Make vertices with exactly equal coordinates one; drop faces that lose a corner by it.

    Parameters
    ----------
    mesh : Mesh
        As read; numbers that are none stay apart.

    Returns
    -------
    Mesh
        Vertices in the order in which they first appear.

    Examples
    --------
    >>> corners = [[0, 0, 0], [1, 0, 0], [0, 1, 0], [1, 0, 0], [1, 1, 0], [0, 1, 0]]
    >>> welded(Mesh(corners, [[0, 1, 2], [3, 4, 5]])).faces.tolist()
    [[0, 1, 2], [1, 3, 2]]
    """
    first, number = _distinct(mesh)
    faces = number[mesh.faces]
    whole = (faces[:, 0] != faces[:, 1]) & (faces[:, 1] != faces[:, 2]) & (faces[:, 2] != faces[:, 0])
    return Mesh(mesh.vertices[first], faces[whole])


def _distinct(mesh: Mesh) -> tuple[Integers, Integers]:
    """Give the first of each group of equal vertices, and every vertex's group number."""
    # adding zero makes -0.0 and 0.0 the same bits
    points = mesh.vertices + 0.0
    # sorting by columns is several times faster than numpy's unique over rows
    order = np.lexsort(points.T[::-1])
    ranked = points[order]
    fresh = np.append(True, np.any(ranked[1:] != ranked[:-1], axis=1))[: len(points)]
    group = np.empty(len(points), dtype=np.int64)
    group[order] = np.cumsum(fresh) - 1
    first = order[fresh]
    by_appearance = np.argsort(first, kind="stable")
    renumber = np.empty_like(by_appearance)
    renumber[by_appearance] = np.arange(len(by_appearance))
    return first[by_appearance], renumber[group]
