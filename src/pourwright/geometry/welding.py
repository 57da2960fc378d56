"""Vertices with equal coordinates become one: STL writes each corner anew."""

import numpy as np
import numpy.typing as npt

from pourwright.geometry.mesh import Integers, Mesh
from pourwright.geometry.row_kernels import number_rows


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
    first, number = numbered(mesh.vertices)
    return Mesh(mesh.vertices[first], whole_faces(number[mesh.faces]))


def numbered(points: npt.NDArray[np.floating]) -> tuple[Integers, Integers]:
    """Number places, equal ones alike.

    Parameters
    ----------
    points : array (n, 3)
        In single or double precision.

    Returns
    -------
    tuple of arrays
        The first row of every number, in order of appearance, and the number of every row.

    Examples
    --------
    >>> first, number = numbered(np.array([[0.0, 0, 0], [1, 0, 0], [-0.0, 0, 0]]))
    >>> first.tolist(), number.tolist()
    ([0, 1], [0, 1, 0])
    """
    # adding zero makes -0.0 and 0.0 the same bits
    places = np.ascontiguousarray(points) + points.dtype.type(0)
    bits = places.view(np.int32 if places.dtype == np.float32 else np.int64)
    number = np.empty(len(places), dtype=np.int64)
    apart = np.isnan(places[:, 0]) | np.isnan(places[:, 1]) | np.isnan(places[:, 2])
    return number_rows(bits, apart, number), number


def whole_faces(faces: Integers) -> Integers:
    """Leave out triangles that name a vertex twice.

    Parameters
    ----------
    faces : array (m, 3)
        Vertex numbers.

    Returns
    -------
    array (k, 3)
    """
    first, second, third = faces.T
    whole = (first != second) & (second != third) & (third != first)
    return faces if whole.all() else faces[whole]
