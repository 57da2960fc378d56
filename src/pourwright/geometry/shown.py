"""A surface made ready to be shown: fewer triangles where too many, more where they are too long."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.drawn.joining import as_manifold, as_mesh
from pourwright.geometry.mesh import Floats, Mesh

FIRST, LAST, STEP = 1 / 4000, 1 / 50, 1.7
"""Tolerances by the longest side: the first, the last, and how each follows from the one before."""
_MILLIMETRES = 1000.0
_PATTERNS = {
    1: [[0, 3, 2], [3, 1, 2]],
    2: [[3, 1, 4], [0, 3, 4], [0, 4, 2]],
    3: [[0, 3, 5], [3, 1, 4], [5, 4, 2], [3, 4, 5]],
}
"""Triangles by how many edges are halved: corners 0 to 2, and 3 to 5 in the middle of the edge after each."""


@dataclass(frozen=True, slots=True, eq=False)
class Thinned:
    """A surface with fewer triangles.

    Parameters
    ----------
    mesh : Mesh
        Closed where it was.
    off : float
        No place of it has moved by more [m]; 0 where nothing was left out.
    """

    mesh: Mesh
    off: float


@checked(most=Range(100, 100_000_000))
def thinned(mesh: Mesh, most: int) -> Thinned:
    """Leave out triangles until a surface has no more than may be shown.

    Parameters
    ----------
    mesh : Mesh
        One closed body, outward oriented.
    most : int
        Triangles to keep at most; a few more stay where even 2 % of the size would not do.

    Returns
    -------
    Thinned
        Its corners are corners of the mesh.

    Raises
    ------
    UserError
        Where there are too many and it is no closed body.

    Notes
    -----
    Edges are collapsed within a tolerance by manifold3d, which keeps the surface closed; the tolerance grows
    from step to step, each beginning with what the last one left. So all of them together come to less than
    2 % of the longest side times ``STEP / (STEP - 1)``, a geometric series.

    Examples
    --------
    >>> from pourwright.geometry import box, cone
    >>> thinned(box([0.1, 0.1, 0.1]), 100).off
    0.0
    >>> found = thinned(cone(0.1, 0.1, 0.2), 100)
    >>> len(found.mesh.faces) <= 100, 0 < found.off < LAST * 0.2 * STEP / (STEP - 1)
    (True, True)
    """
    if len(mesh.faces) <= most:
        return Thinned(mesh, 0.0)
    body, off = as_manifold(mesh), 0.0
    longest = float(np.ptp(mesh.bounds, axis=0).max())
    tolerance = FIRST * longest
    while body.num_tri() > most and tolerance <= LAST * longest:
        body = body.simplify(tolerance * _MILLIMETRES)
        off += tolerance
        tolerance *= STEP
    return Thinned(as_mesh(body), off)


@checked(longest=Range(0, unit="m", open_low=True))
def refined(mesh: Mesh, longest: float, most: int) -> Mesh:
    """Halve long edges of a surface until it is fine enough to be tinted face by face; for showing only.

    Parameters
    ----------
    mesh : Mesh
        Any.
    longest : float
        Edge that is short enough [m].
    most : int
        It stops at the first round that leaves so many triangles.

    Returns
    -------
    Mesh
        Corners stand once for each triangle; those of neighbours are the same to the last bit.

    Examples
    --------
    >>> from pourwright.geometry import box, measure
    >>> fine = refined(box([0.1, 0.1, 0.1]), 0.03, 10_000)
    >>> len(fine.faces) > 12, round(measure(fine).volume, 9)
    (True, 0.001)
    """
    triangles = mesh.triangles
    while len(triangles) < most:
        long = np.linalg.norm(np.roll(triangles, -1, axis=1) - triangles, axis=2) > longest
        if not long.any():
            break
        triangles = _halved(triangles, long)
    return Mesh(triangles.reshape(-1, 3), np.arange(3 * len(triangles)).reshape(-1, 3))


def _halved(triangles: Floats, long: npt.NDArray[np.bool_]) -> Floats:
    """Halve the marked edges, each from its corner to the next; neighbours halve it at the same place."""
    count = long.sum(axis=1)
    made = [triangles[count == 0]]
    for marked, pattern in _PATTERNS.items():
        rows = count == marked
        # with one edge that one comes first, with two the one left whole comes last
        turn = long[rows].argmax(axis=1) if marked != 2 else (long[rows].argmin(axis=1) + 1) % 3
        corners = triangles[rows][np.arange(len(turn))[:, None], (turn[:, None] + [0, 1, 2]) % 3]
        points = np.concatenate([corners, (corners + np.roll(corners, -1, axis=1)) / 2], axis=1)
        made.append(points[:, pattern].reshape(-1, 3, 3))
    return np.concatenate(made)
