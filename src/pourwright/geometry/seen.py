"""What is seen of a body from one side."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.mesh import Floats, Integers, Mesh
from pourwright.geometry.seen_kernels import foremost


@dataclass(frozen=True, slots=True, eq=False)
class Seen:
    """A body seen from one side, without perspective.

    Parameters
    ----------
    face : array (rows, columns)
        Foremost triangle at the middle of each pixel, -1 where there is none.
    near : array (rows, columns)
        How far it lies toward the viewer [pixels]; minus infinity where there is none.
    axes : array (3, 3)
        Unit vectors to the right, downward and toward the viewer.
    origin : array (3,)
        The point at the upper left corner of the picture, at nearness 0 [m].
    pixel : float
        Side of a pixel [m].
    """

    face: Integers
    near: Floats
    axes: Floats
    origin: Floats
    pixel: float

    def at(self, places: npt.ArrayLike) -> Floats:
        """Column, row and nearness of places.

        Parameters
        ----------
        places : array (n, 3)
            [m]

        Returns
        -------
        array (n, 3)
            [pixels]
        """
        return np.asarray((np.asarray(places, dtype=np.float64) - self.origin) @ self.axes.T / self.pixel)

    def hidden(self, places: npt.ArrayLike, slack: float = 2.0) -> npt.NDArray[np.bool_]:
        """Whether the body lies in front of places.

        Parameters
        ----------
        places : array (n, 3)
            [m]
        slack : float
            How deep below the surface a place may lie and still count as seen [pixels].

        Returns
        -------
        array (n,)
        """
        column, row, near = self.at(places).T
        rows, columns = self.face.shape
        i, j = np.clip(row.astype(int), 0, rows - 1), np.clip(column.astype(int), 0, columns - 1)
        return np.asarray(self.near[i, j] > near + slack)


@checked(pixels=Range(1, 4000))
def seen(mesh: Mesh, toward: npt.ArrayLike, upward: npt.ArrayLike, pixels: int = 480) -> Seen:
    """Look at a body from one side.

    Parameters
    ----------
    mesh : Mesh
        The body.
    toward : array (3,)
        From the body to the viewer; any length.
    upward : array (3,)
        Direction that is up in the picture; not along ``toward``.
    pixels : int
        Along the longer side of the picture.

    Returns
    -------
    Seen
        With a margin of one pixel around the body.

    Raises
    ------
    ValueError
        When the two directions say no view.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> front = seen(box([0.2, 0.1, 0.1]), [0, -1, 0], [0, 0, 1], 20)
    >>> front.face.shape, int((front.face >= 0).sum())
    ((12, 22), 200)
    """
    axes = _axes(np.asarray(toward, dtype=np.float64), np.asarray(upward, dtype=np.float64))
    flat = mesh.vertices @ axes.T
    used = flat[np.unique(mesh.faces)]
    lower, upper = used.min(axis=0), used.max(axis=0)
    pixel = max(float((upper - lower)[:2].max()), 1e-9) / pixels
    columns, rows = (np.ceil((upper - lower)[:2] / pixel - 1e-6) + 2).astype(int)
    corner = np.array([lower[0] - pixel, lower[1] - pixel, 0.0])
    points = (flat - corner) / pixel
    face, near = foremost(points, mesh.faces, int(rows), int(columns))
    return Seen(face, near, axes, corner @ axes, pixel)


def _axes(toward: Floats, upward: Floats) -> Floats:
    """Unit vectors to the right, downward and toward the viewer."""
    right = np.cross(upward, toward)
    if not np.linalg.norm(right) > 1e-9 * np.linalg.norm(upward) * np.linalg.norm(toward):
        raise ValueError("the direction upward lies along the view")
    down = np.cross(right, toward)
    return np.array([way / np.linalg.norm(way) for way in (right, down, toward)])
