"""Vertical columns through a body: how often each point of space is enclosed."""

from dataclasses import dataclass

import numpy as np

from pourwright.geometry.column_kernels import crossings, wrong_winding
from pourwright.geometry.mesh import Floats, Integers, Mesh

# columns stand at odd shares of their strips, so that symmetric shapes are not met on their edges
_OFFSETS = (np.sqrt(2) - 1, np.sqrt(3) - 1)


@dataclass(frozen=True, slots=True, eq=False)
class Columns:
    """Crossings of a surface with columns along one axis.

    Parameters
    ----------
    axis : int
        0, 1 or 2: the direction of the columns.
    first, second : array (n,)
        Where the columns stand along the two following axes, in cyclic order [m].
    starts : array (n * n + 1,)
        Where each column's crossings start.
    heights, signs : array (k,)
        Position along the axis [m], rising in each column, and +1 on entering, -1 on leaving.
    """

    axis: int
    first: Floats
    second: Floats
    starts: Integers
    heights: Floats
    signs: Floats

    def place(self, column: int, height: float) -> Floats:
        """Give the point at a height of one column.

        Parameters
        ----------
        column : int
            Its number.
        height : float
            Position along the axis [m].

        Returns
        -------
        array (3,)
            [m]
        """
        i, j = divmod(column, self.second.size)
        return np.roll([self.first[i], self.second[j], height], self.axis + 1)


@dataclass(frozen=True, slots=True, eq=False)
class WindingRange:
    """How often space is enclosed by a surface; a sound body has 0 outside and 1 inside.

    Parameters
    ----------
    lowest, highest : int
        Extreme counts found.
    lowest_place, highest_place, unclosed_place : array (3,) or None
        Where they were found, and where a column ended inside [m].
    unclosed : int
        Columns that ended inside.
    """

    lowest: int
    highest: int
    unclosed: int
    lowest_place: Floats | None
    highest_place: Floats | None
    unclosed_place: Floats | None


def shoot_columns(mesh: Mesh, axis: int = 2, count: int = 256) -> Columns:
    """Find where columns along an axis cross the surface.

    Parameters
    ----------
    mesh : Mesh
        Any mesh with shared vertices.
    axis : int
        0, 1 or 2.
    count : int
        Columns along each of the two other axes, spread over the bounding box.

    Returns
    -------
    Columns

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> shoot_columns(box([1, 1, 1]), 2, 4).heights.reshape(16, 2).max(axis=0).tolist()
    [0.0, 1.0]
    """
    order = [(axis + 1) % 3, (axis + 2) % 3, axis]
    vertices = np.ascontiguousarray(mesh.vertices[:, order])
    vertices.setflags(write=False)
    lower, upper = mesh.bounds[:, order]
    first, second = (
        lower[i] + (upper[i] - lower[i]) * (np.arange(count) + _OFFSETS[i]) / count for i in range(2)
    )
    starts, heights, signs = crossings(vertices, mesh.faces, first, second)
    return Columns(axis, first, second, starts, heights, signs)


def winding_range(mesh: Mesh, axis: int = 2, count: int = 256) -> WindingRange:
    """Find how often space is enclosed, on a lattice of columns.

    Parameters
    ----------
    mesh : Mesh
        Closed mesh with shared vertices.
    axis, count : int
        As in ``shoot_columns``; what is smaller than the distance of two columns may be missed.

    Returns
    -------
    WindingRange

    Examples
    --------
    >>> from pourwright.geometry import box, joined
    >>> found = winding_range(joined([box([1, 1, 1]), box([1, 1, 1]).moved([0.5, 0.5, 0.5])]))
    >>> found.lowest, found.highest, found.unclosed
    (0, 2, 0)
    """
    columns = shoot_columns(mesh, axis, count)
    thinnest = 1e-6 * float(np.linalg.norm(mesh.bounds[1] - mesh.bounds[0]))
    found, where, heights = wrong_winding(columns.starts, columns.heights, columns.signs, thinnest)
    places = [
        columns.place(int(n), float(z)) if n >= 0 else None for n, z in zip(where, heights, strict=True)
    ]
    return WindingRange(int(found[0]), int(found[1]), int(found[2]), *places)
