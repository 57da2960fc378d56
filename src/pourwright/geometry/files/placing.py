"""Parts that a file places, some of them many times, put together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from pourwright.geometry.files.parsed import Parsed
from pourwright.geometry.mesh import Floats, Integers

MOST_PARTS = 10_000
"""Of one file, each placed; an assembly to be cast has a handful."""


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """Triangles and where they stand.

    Parameters
    ----------
    vertices : array (n, 3)
        In the part's own frame.
    faces : array (m, 3)
        Vertex numbers.
    matrix : array (4, 4)
        To the world, acting on columns.
    """

    vertices: npt.NDArray[np.floating]
    faces: Integers
    matrix: Floats | None = None

    @property
    def weight(self) -> int:
        """How many triangles it is worth in memory."""
        return max(len(self.faces), len(self.vertices) // 3)

    def moved(self, matrix: Floats) -> Part:
        """Put it somewhere.

        Parameters
        ----------
        matrix : array (4, 4)
            To the world.

        Returns
        -------
        Part
        """
        return replace(self, matrix=matrix)


def put_together(parts: Sequence[Part], unit: str, told: tuple[str, ...] = ()) -> Parsed:
    """Join parts where they stand; a mirror image keeps its outside outside.

    Parameters
    ----------
    parts : sequence of Part
        From one file.
    unit : str
        Of their numbers.
    told : tuple of str
        What was left out.

    Returns
    -------
    Parsed
    """
    if not parts:
        return Parsed(np.empty((0, 3)), np.empty((0, 3), dtype=np.int64), unit, told)
    vertices, faces, start = [], [], 0
    for part in parts:
        points, corners = part.vertices, part.faces
        if part.matrix is not None and not np.array_equal(part.matrix, np.eye(4)):
            turn = part.matrix[:3, :3]
            points = points.astype(np.float64) @ turn.T + part.matrix[:3, 3]
            corners = corners[:, ::-1] if np.linalg.det(turn) < 0 else corners
        vertices.append(points)
        faces.append(corners + start)
        start += len(points)
    return Parsed(np.concatenate(vertices), np.concatenate(faces), unit, told)
