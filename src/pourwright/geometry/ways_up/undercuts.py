"""How much of a surface locks a mold, over many directions of the pull; how far a neck must stretch."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.frames import turn_to
from pourwright.geometry.mesh import Floats, Mesh
from pourwright.geometry.ways_up.spread import SLIDES, half_sphere
from pourwright.geometry.ways_up.undercut_kernels import hidden_areas, hidden_faces, reaches, turned_points

COLUMNS, FINE = 96, 400
LEVELS, ANGLES = 96, 48


@dataclass(frozen=True, slots=True, eq=False)
class Pulls:
    """Undercut over many directions.

    Parameters
    ----------
    directions : array (n, 3)
        Unit vectors; a mold of two parts opens along one and against it.
    parted : array (n,)
        Share of the surface that locks a mold of two parts opened along each.
    """

    directions: Floats
    parted: Floats

    @property
    def best(self) -> int:
        """Direction with the least, the first of equal ones."""
        return int(np.argmin(self.parted))


@dataclass(frozen=True, slots=True, eq=False)
class Stretch:
    """What a closed band of rubber goes through when a body is pulled out of it.

    Parameters
    ----------
    share : float
        Lengthening of the neck against its own girth.
    neck_girth, widest_girth : float
        Girth of the body where the band sits, and the widest that has to pass it [m].
    neck_height, widest_height : float
        Where they are along the pull [m].
    """

    share: float
    neck_girth: float
    widest_girth: float
    neck_height: float
    widest_height: float


@checked(columns=Range(8, 4096))
def undercut_over(mesh: Mesh, directions: npt.ArrayLike | None = None, columns: int = COLUMNS) -> Pulls:
    """Measure how much of a surface locks a mold of two parts, for many directions of opening it.

    Parameters
    ----------
    mesh : Mesh
        Closed and outward oriented.
    directions : array (n, 3), optional
        Unit vectors; 200 over the half sphere, and the three axes, where left out.
    columns : int
        Columns along each side of the shadow, about.

    Returns
    -------
    Pulls

    Notes
    -----
    Each part of the mold covers the faces that look its way and goes off along them; the parting may run
    as it likes. A face is locked when, seen from its own part, something else of the body is in front. Seen
    along columns: all that a column meets but its first and last place. Columns sample the area: what is
    smaller than their distance may be missed, and the share is right to about one over their number.

    Examples
    --------
    >>> from pourwright.geometry import cone
    >>> undercut_over(cone(0.1, 0.05, 0.2), [[0, 0, 1.0]]).parted.tolist()
    [0.0]
    """
    ways = _usual() if directions is None else np.asarray(directions, dtype=np.float64)
    vectors = mesh.area_vectors
    areas = np.linalg.norm(vectors, axis=1)
    normals = vectors / np.maximum(areas, 1e-300)[:, None]
    turns = np.array([turn_to(way) for way in ways])
    ahead, behind = hidden_areas(mesh.vertices, mesh.faces, normals, turns, columns, SLIDES)
    return Pulls(ways, (ahead + behind) / areas.sum())


def closer_look(mesh: Mesh, pulls: Pulls, best: int = 6) -> Pulls:
    """Look again, closer, at the directions that look best, and at those between them.

    Parameters
    ----------
    mesh : Mesh
        Closed and outward oriented.
    pulls : Pulls
        A first look.
    best : int
        How many to look at.

    Returns
    -------
    Pulls
        Those alone, the best first.
    """
    chosen = pulls.directions[np.argsort(pulls.parted, kind="stable")[:best]]
    found = undercut_over(mesh, chosen, FINE)
    order = np.argsort(found.parted.round(3), kind="stable")
    return Pulls(found.directions[order], found.parted[order])


def locked_faces(mesh: Mesh, pull: Floats) -> Floats:
    """Tell of each face how much of it locks a mold of two parts opened along a pull.

    Parameters
    ----------
    mesh : Mesh
        Closed and outward oriented.
    pull : array (3,)
        Unit vector.

    Returns
    -------
    array (m,)
        Share from 0 to 1; 0 where a face is smaller than the columns or slides.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> float(locked_faces(box([0.1, 0.1, 0.1]), np.array([0.0, 0.0, 1.0])).max())
    0.0
    """
    turn = turn_to(np.asarray(pull, dtype=np.float64))
    return np.maximum(hidden_faces(turned_points(mesh.vertices, turn), mesh.faces, FINE), 0.0)


def girths_along(mesh: Mesh, pull: Floats) -> tuple[Floats, Floats]:
    """Girth of a body level by level along a pull.

    Parameters
    ----------
    mesh : Mesh
        The body.
    pull : array (3,)
        Unit vector.

    Returns
    -------
    levels, girths : array (n,)
        Heights along the pull, evenly over the body, and the girth of the convex hull of each section [m].

    Notes
    -----
    From the reach over all angles: Cauchy's formula, the mean width times pi (Santalo, Integral Geometry and
    Geometric Probability, 1976, from memory).

    Examples
    --------
    >>> from pourwright.geometry import cone
    >>> _, girths = girths_along(cone(0.1, 0.1, 0.2), np.array([0.0, 0.0, 1.0]))
    >>> round(float(girths.mean() / np.pi), 3)
    0.2
    """
    turn = turn_to(np.asarray(pull, dtype=np.float64))
    points = turned_points(mesh.vertices, turn)
    used = points[mesh.faces.ravel(), 2]
    edges = np.linspace(used.min(), used.max(), LEVELS + 1)
    levels = (edges[:-1] + edges[1:]) / 2
    reach = reaches(points, mesh.faces, levels, 2 * np.pi * np.arange(ANGLES) / ANGLES)
    return np.asarray(levels), np.asarray(2 * np.pi * reach.mean(axis=1))


def neck_stretch(mesh: Mesh, pull: Floats) -> Stretch:
    """Find how far a closed band of rubber must lengthen to let a body out along a pull.

    Parameters
    ----------
    mesh : Mesh
        The body.
    pull : array (3,)
        Unit vector, the way the body goes.

    Returns
    -------
    Stretch
        Of the worst pair of a neck and what has to pass it; share 0 where the body narrows nowhere.

    Notes
    -----
    A ring of rubber fits the body where it sits: its girth there is that of the convex hull of the section.
    Everything behind it along the pull has to pass through, so the ring lengthens to the widest girth behind
    it. Friction, the rubber around it and what it is clamped to are left out: a lower bound of the strain.
    Where a section falls into several parts the hull spans them all, and the necks between are missed. See
    ``girths_along``.

    Examples
    --------
    >>> from pourwright.geometry import revolve
    >>> waist = revolve([[0.10, 0.0], [0.05, 0.1], [0.10, 0.2]])
    >>> found = neck_stretch(waist, np.array([0.0, 0.0, 1.0]))
    >>> round(found.share, 1), round(found.neck_girth / np.pi, 2)
    (1.0, 0.1)
    """
    levels, girths = girths_along(mesh, pull)
    # two bodies one above the other leave levels without a section: no band sits there
    behind = np.maximum.accumulate(girths)
    ratio = np.where(np.isfinite(girths), behind / np.maximum(girths, 1e-12), 1.0)
    neck = int(ratio.argmax())
    widest = int(girths[: neck + 1].argmax())
    share = float(ratio[neck] - 1.0)
    return Stretch(
        share, float(girths[neck]), float(girths[widest]), float(levels[neck]), float(levels[widest])
    )


def _usual() -> Floats:
    return np.concatenate([np.eye(3)[::-1], half_sphere()])
