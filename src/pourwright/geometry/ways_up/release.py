"""Which faces open a mold at the top, and what keeps a body from being pulled straight out."""

from dataclasses import dataclass
from itertools import combinations

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.foundation.errors import UserError
from pourwright.geometry.column_kernels import hidden_depths
from pourwright.geometry.columns import shoot_columns
from pourwright.geometry.connectivity import body_labels, edges_of
from pourwright.geometry.frames import UP, turn_to
from pourwright.geometry.kept import kept
from pourwright.geometry.mesh import Floats, Mesh
from pourwright.geometry.ways_up.flats import flat_faces
from pourwright.geometry.ways_up.spread import SLIDES, half_sphere

_AHEAD = 1e-6
"""Sine of the angle from which on a face counts as looking along the pull."""


@dataclass(frozen=True, slots=True, eq=False)
class OpenFace:
    """The horizontal face at the top of a body, where its mold is open.

    Parameters
    ----------
    height : float
        Top of the body [m].
    area : float
        Area of the horizontal faces there [m2]; 0 when the body ends in a point, a ridge or a dome.
    lower, upper : array (2,)
        Corners of their bounding box in x and y [m]; zeros when there is none.
    """

    height: float
    area: float
    lower: Floats
    upper: Floats


@dataclass(frozen=True, slots=True, eq=False)
class Undercut:
    """What stands in the way when a body is pulled straight out.

    Parameters
    ----------
    blocked_share : float
        Share of the surface that faces the pull and lies below the foremost face: the mold lies in front
        of it.
    parted_share : float
        Share of the body's shadow where the mold reaches in between two parts of the body.
    deepest : float
        Most of the mold between two parts along one line of the pull [m].
    place : array (3,) or None
        Where that is [m].
    least_draft : float
        Smallest angle between the pull and the walls that slide along it [rad]; negative where a wall is
        undercut.
    """

    blocked_share: float
    parted_share: float
    deepest: float
    place: Floats | None
    least_draft: float


@checked(tolerance=Range(0, unit="m"))
@kept
def open_face(mesh: Mesh, tolerance: float = 1e-6) -> OpenFace:
    """Find the horizontal face at the top of a body as poured.

    Parameters
    ----------
    mesh : Mesh
        In the frame of the pour.
    tolerance : float
        How far below the top a vertex of that face may lie [m].

    Returns
    -------
    OpenFace

    Examples
    --------
    >>> from pourwright.geometry import cone
    >>> found = open_face(cone(0.2, 0.1, 0.4))
    >>> round(found.height, 3), round(found.area, 4)
    (0.4, 0.0314)
    >>> open_face(cone(0.2, 0.0, 0.4)).area
    0.0
    """
    top = float(mesh.bounds[1, 2])
    flat = (mesh.triangles[:, :, 2] >= top - tolerance).all(axis=1) & (mesh.area_vectors[:, 2] > 0)
    corners = mesh.triangles[flat, :, :2].reshape(-1, 2)
    if not corners.size:
        return OpenFace(top, 0.0, np.zeros(2), np.zeros(2))
    return OpenFace(top, float(mesh.area_vectors[flat, 2].sum()), corners.min(axis=0), corners.max(axis=0))


def blocked_share(mesh: Mesh, pull: Floats) -> float:
    """Share of a surface that a mold open at one face lies over when the body is pulled out of it.

    Parameters
    ----------
    mesh : Mesh
        Outward oriented.
    pull : array (3,)
        Unit vector.

    Returns
    -------
    float
        Of the faces that look along the pull, the foremost flat one left out.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> blocked_share(box([0.2, 0.2, 0.2]), np.array([0.0, 0.0, 1.0]))
    0.0
    """
    vectors = mesh.area_vectors
    areas = np.linalg.norm(vectors, axis=1)
    ahead = np.divide(vectors @ pull, areas, out=np.zeros_like(areas), where=areas > 0)
    reach = (mesh.vertices @ pull)[mesh.faces]
    foremost = (reach >= reach.max() - 1e-6).all(axis=1)
    return float(areas[(ahead > _AHEAD) & ~foremost].sum() / areas.sum())


@checked(leaning=Range(0, np.pi / 2, unit="rad"))
def freest_pull(mesh: Mesh, up: Floats, leaning: float = np.pi / 4) -> tuple[Floats, float]:
    """Find the way out of an open face along which the mold lies over least of the surface.

    Parameters
    ----------
    mesh : Mesh
        Outward oriented.
    up : array (3,)
        Unit vector out of the open face.
    leaning : float
        How far the pull may lean from it [rad].

    Returns
    -------
    tuple of array (3,) and float
        The pull, straight up where no other frees a point more in a hundred; the share it leaves blocked.

    Examples
    --------
    >>> from pourwright.geometry import cone
    >>> freest_pull(cone(0.1, 0.2, 0.4), np.array([0.0, 0.0, 1.0]))[0].tolist()
    [0.0, 0.0, 1.0]
    """
    ways = np.concatenate([half_sphere(400) @ turn_to(up), _along_edges(mesh)])
    ways = ways[ways @ up >= np.cos(leaning)]
    vectors = mesh.area_vectors
    areas = np.linalg.norm(vectors, axis=1)
    reach = (mesh.vertices @ up)[mesh.faces]
    buried = (areas > 0) & ~(reach >= reach.max() - 1e-6).all(axis=1)
    normals, areas, whole = vectors[buried] / areas[buried, None], areas[buried], areas.sum()
    shares = np.array([areas[normals @ way > SLIDES].sum() for way in ways]) / whole
    straight = float(areas[normals @ up > SLIDES].sum() / whole)
    best = int(shares.argmin())
    return (ways[best], float(shares[best])) if shares[best] < straight - 0.01 else (up, straight)


def _along_edges(mesh: Mesh) -> Floats:
    """Directions that slide along two flat faces at once, both ways: no spread hits them to a degree."""
    flats = [flat.direction for flat in flat_faces(mesh)[:8]]
    crossed = [np.cross(one, other) for one, other in combinations(flats, 2)]
    edges = [edge / np.linalg.norm(edge) for edge in crossed if np.linalg.norm(edge) > SLIDES]
    return np.array([*edges, *(-edge for edge in edges)]).reshape(-1, 3)


def tunnels(mesh: Mesh) -> int:
    """Count the holes that go right through a body.

    Parameters
    ----------
    mesh : Mesh
        Closed, each edge in two faces.

    Returns
    -------
    int
        Of the handle of a mug 1; of nested surfaces the sum.

    Notes
    -----
    Euler and Poincare: vertices less edges plus faces is 2 less 2 for each hole, for each closed surface.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> tunnels(box([1, 1, 1]))
    0
    """
    edges = edges_of(mesh)
    surfaces = int(body_labels(mesh, edges).max()) + 1
    euler = np.unique(mesh.faces).size - len(edges.uses) + len(mesh.faces)
    return max(surfaces - euler // 2, 0)


@kept
def undercut(mesh: Mesh, pull: str = "+z", count: int = 256) -> Undercut:
    """Look for what keeps a body in a stiff mold that is open at its foremost face along the pull.

    Parameters
    ----------
    mesh : Mesh
        Closed and outward oriented.
    pull : str
        Direction in which the body is pulled: +z, -z, +x, -x, +y or -y.
    count : int
        Columns along each of the two other axes.

    Returns
    -------
    Undercut

    Raises
    ------
    UserError
        When the direction is none of the six.

    Examples
    --------
    >>> from pourwright.geometry import cone
    >>> undercut(cone(0.1, 0.2, 0.4)).blocked_share
    0.0
    >>> bool(undercut(cone(0.2, 0.1, 0.4)).blocked_share > 0.5)
    True
    """
    if pull not in UP:
        raise UserError(f"'{pull}' is no direction to pull", allowed=", ".join(UP))
    axis = "xyz".index(pull[1])
    direction = np.zeros(3)
    direction[axis] = 1.0 if pull[0] == "+" else -1.0
    vectors = mesh.area_vectors
    areas = np.linalg.norm(vectors, axis=1)
    ahead = np.divide(vectors @ direction, areas, out=np.zeros_like(areas), where=areas > 0)
    columns = shoot_columns(mesh, axis, count)
    met, parted, deepest, column, height = hidden_depths(columns.starts, columns.heights)
    # floor and top do not slide along the mold
    walls = (np.abs(ahead) < 0.999) & (areas > 0)
    least = float(-np.arcsin(ahead[walls].max())) if walls.any() else np.pi / 2
    place = columns.place(column, height) if column >= 0 else None
    return Undercut(blocked_share(mesh, direction), parted / max(met, 1), deepest, place, least)
