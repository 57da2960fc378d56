"""The triangle mesh every shape is made of."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

Floats: TypeAlias = npt.NDArray[np.float64]
Integers: TypeAlias = npt.NDArray[np.int64]


@dataclass(frozen=True, slots=True, eq=False, weakref_slot=True)
class Mesh:
    """Triangles that share vertices; the arrays are copied and cannot be written to.

    Parameters
    ----------
    vertices : array (n, 3)
        Corner points [m].
    faces : array (m, 3)
        Three vertex numbers per triangle, counter-clockwise seen from outside.

    Raises
    ------
    ValueError
        When the shapes do not fit or a face names a vertex that is not there.

    Examples
    --------
    >>> one = Mesh([[0, 0, 0], [1, 0, 0], [0, 1, 0]], [[0, 1, 2]])
    >>> one.triangles.shape
    (1, 3, 3)
    """

    vertices: Floats
    faces: Integers

    def __init__(self, vertices: npt.ArrayLike, faces: npt.ArrayLike) -> None:
        points = np.array(vertices, dtype=np.float64, order="C")
        corners = np.array(faces, dtype=np.int64, order="C").reshape(-1, 3)
        if points.ndim != 2 or points.shape[1] != 3:
            raise ValueError(f"vertices must be (n, 3), not {points.shape}")
        if corners.size and not (corners.min() >= 0 and corners.max() < len(points)):
            raise ValueError("a face names a vertex that is not there")
        points.setflags(write=False)
        corners.setflags(write=False)
        object.__setattr__(self, "vertices", points)
        object.__setattr__(self, "faces", corners)

    @property
    def triangles(self) -> Floats:
        """Corner points of every face, (m, 3, 3) [m]."""
        return self.vertices[self.faces]

    @property
    def bounds(self) -> Floats:
        """Lowest and highest corner of the used vertices, (2, 3) [m]."""
        used = np.zeros(len(self.vertices), dtype=bool)
        used[self.faces] = True
        points = self.vertices if used.all() else self.vertices[used]
        # column by column is several times faster than along an axis of three
        return np.array([[column.min() for column in points.T], [column.max() for column in points.T]])

    @property
    def area_vectors(self) -> Floats:
        """Outward normal times area of every face, (m, 3) [m2]."""
        first, second, third = self.vertices[self.faces.T]
        return 0.5 * np.cross(second - first, third - first)

    def transformed(self, matrix: npt.ArrayLike) -> "Mesh":
        """Move, turn or scale the mesh; a mirror image keeps its outside outside.

        Parameters
        ----------
        matrix : array (4, 4)
            Affine map that acts on columns (x, y, z, 1).

        Returns
        -------
        Mesh

        Examples
        --------
        >>> one = Mesh([[0, 0, 0], [1, 0, 0], [0, 1, 0]], [[0, 1, 2]])
        >>> one.transformed(np.diag([2.0, 2.0, 2.0, 1.0])).bounds[1].tolist()
        [2.0, 2.0, 0.0]
        """
        map_ = np.asarray(matrix, dtype=np.float64)
        points = self.vertices @ map_[:3, :3].T + map_[:3, 3]
        if np.linalg.det(map_[:3, :3]) < 0:
            return Mesh(points, self.faces[:, ::-1])
        return self._with(points)

    def moved(self, shift: npt.ArrayLike) -> "Mesh":
        """Move the mesh.

        Parameters
        ----------
        shift : array (3,)
            How far along x, y and z [m].

        Returns
        -------
        Mesh
        """
        return self._with(self.vertices + np.asarray(shift, dtype=np.float64))

    def _with(self, points: Floats) -> "Mesh":
        """Put the corners elsewhere; the triangles, which nobody can write to, are shared."""
        mesh = object.__new__(Mesh)
        corners = np.ascontiguousarray(points)
        corners.setflags(write=False)
        object.__setattr__(mesh, "vertices", corners)
        object.__setattr__(mesh, "faces", self.faces)
        return mesh

    def reversed(self) -> "Mesh":
        """Turn the mesh inside out: what was solid becomes a hole.

        Returns
        -------
        Mesh
        """
        return Mesh(self.vertices, self.faces[:, ::-1])


def joined(meshes: Sequence[Mesh]) -> Mesh:
    """Put meshes side by side into one, without booleans.

    Parameters
    ----------
    meshes : sequence of Mesh
        Bodies; a reversed one inside another is a cavity in it.

    Returns
    -------
    Mesh

    Examples
    --------
    >>> from pourwright.geometry import box, measure
    >>> space = joined([box([0.3, 0.3, 0.3]), box([0.1, 0.1, 0.1]).moved([0, 0, 0.1]).reversed()])
    >>> round(measure(space).volume, 6)
    0.026
    """
    starts = np.cumsum([0, *(len(mesh.vertices) for mesh in meshes)])
    faces = [mesh.faces + start for mesh, start in zip(meshes, starts, strict=False)]
    return Mesh(np.concatenate([mesh.vertices for mesh in meshes]), np.concatenate(faces))
