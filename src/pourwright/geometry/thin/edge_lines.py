"""Corners and edges of a body line by line: how far they turn, how long, how much rounded already."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.connectivity import edges_of
from pourwright.geometry.mesh import Floats, Integers, Mesh
from pourwright.geometry.thin.edge_walks import roundings

FAINT = np.radians(0.5)
"""Edges that turn by less are not begun from."""
TINY = 1e-15
"""Length of no edge [m]."""
ALIKE = np.radians(20.0)
"""Edges that meet belong together where their turns differ by less."""


@dataclass(frozen=True, slots=True, eq=False)
class EdgeLine:
    """Edges that hang together and are alike.

    Parameters
    ----------
    turn : float
        By how much the surface turns from one side to the other [rad].
    radius : float
        Of the rounding that is there; 0 for none [m].
    length : float
        All along [m].
    place : array (3,)
        On it, near its middle [m].
    ends : array (n, 2, 3)
        Both ends of each of its edges [m].
    legs : tuple of float
        How far its two sides reach until they turn again, at that place [m].
    sides : array (2, 3)
        The middles of those sides [m].
    faces : tuple of int
        Their faces.
    """

    turn: float
    radius: float
    length: float
    place: Floats
    ends: Floats
    legs: tuple[float, float]
    sides: Floats
    faces: tuple[int, int]

    @property
    def angle(self) -> float:
        """Between the two sides: through the body at an outer edge, outside it at an inner one [rad]."""
        return max(float(np.pi) - self.turn, 0.0)


@checked(below=Range(0, unit="m", open_low=True), least=Range(0.0, np.pi, "rad"))
def edge_lines(
    mesh: Mesh, *, inner: bool, below: float, least: float = np.radians(30.0)
) -> tuple[EdgeLine, ...]:
    """Find the lines along which a surface folds more sharply than a rounding.

    Parameters
    ----------
    mesh : Mesh
        Closed, outward oriented, welded.
    inner : bool
        Whether inner corners are looked for, or outer edges.
    below : float
        Radius of the roundings that are sharp [m].
    least : float
        Least turn from side to side that counts [rad].

    Returns
    -------
    tuple of EdgeLine
        The longest first.

    Notes
    -----
    In a mesh a rounding is a row of facets. From the middle of each edge the surface is cut at right angles;
    folds to the same side whose facets are alike belong together. m facets with the chords w over the turn T
    lie on a circle of the radius R = sum(w) / (2 m sin(T / (2 m))), exact for facets whose edges lie on the
    circle. A single fold of more than 50 degrees is a corner by itself; one facet between two folds, a
    chamfer, counts as the circle through its edges.

    Examples
    --------
    The twelve edges of a box hang together.

    >>> from pourwright.geometry import box
    >>> (line,) = edge_lines(box([0.1, 0.2, 0.3]), inner=False, below=1e-3)
    >>> round(float(np.degrees(line.angle))), round(line.length, 3), line.radius
    (90, 2.4, 0.0)
    """
    sign = 1.0 if inner else -1.0
    folds = edge_folds(mesh)
    bends = sign * folds.turns
    tight = folds.heights < 2 * below * np.tan(np.clip(bends, 0.0, 3.0) / 2)
    chosen = np.flatnonzero((bends >= FAINT) & (tight | (bends >= least)))
    halves, bends = folds.halves[chosen], bends[chosen]
    found, beside, middles, sides = roundings(
        mesh.vertices, mesh.faces, folds.normals, folds.twins, halves, bends, sign
    )
    rows = np.flatnonzero((found[:, 0] >= least) & (found[:, 1] < below))
    labels = _labels(mesh, folds, halves[rows], found[rows], beside[rows], below)
    lines = [
        _line(mesh, halves[group], bends[group], found[group], middles[group], sides[group])
        for group in _groups(rows, labels)
    ]
    return tuple(sorted(lines, key=lambda line: (-round(line.length, 9), *line.place.round(9).tolist())))


@dataclass(frozen=True, slots=True, eq=False)
class Folds:
    """Every edge that two triangles share.

    Parameters
    ----------
    normals : array (m, 3)
        Of the faces [-].
    twins : array (3 m,)
        The other half of each half edge, numbered 3 face + side; -1 where there is none.
    halves : array (n,)
        One half of each shared edge.
    turns : array (n,)
        By how much the surface folds inward there, negative outward [rad].
    heights : array (n,)
        The lower one of both triangles over the edge [m].
    """

    normals: Floats
    twins: Integers
    halves: Integers
    turns: Floats
    heights: Floats


def edge_folds(mesh: Mesh) -> Folds:
    """Say by how much a surface folds at each of its edges.

    Parameters
    ----------
    mesh : Mesh
        Closed, outward oriented, welded.

    Returns
    -------
    Folds

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> np.degrees(edge_folds(box([1, 1, 1])).turns.min()).round(6)
    np.float64(-90.0)
    """
    vectors = mesh.area_vectors
    areas = np.linalg.norm(vectors, axis=1)
    normals = vectors / np.maximum(areas, 1e-300)[:, None]
    edges = edges_of(mesh)
    two = edges.starts[edges.uses == 2]
    halves, others = edges.order[two], edges.order[two + 1]
    twins = np.full(3 * len(mesh.faces), -1)
    twins[halves], twins[others] = others, halves
    one, other = normals[halves // 3], normals[others // 3]
    along = (
        mesh.vertices[np.roll(mesh.faces, -1, axis=1).ravel()[halves]]
        - mesh.vertices[mesh.faces.ravel()[halves]]
    )
    lengths = np.maximum(np.linalg.norm(along, axis=1), TINY)
    crossed = np.einsum("nk,nk->n", np.cross(one, other), along) / lengths
    turns = -np.arctan2(crossed, np.einsum("nk,nk->n", one, other))
    # two corners at one place are no edge
    turns[lengths <= TINY] = 0.0
    lower = np.minimum(areas[halves // 3], areas[others // 3])
    return Folds(normals, twins, halves, turns, 2 * lower / lengths)


def _labels(
    mesh: Mesh, folds: Folds, halves: Integers, found: Floats, beside: Integers, below: float
) -> Integers:
    """Number the groups of sharp edges that meet or belong to one rounding, and are alike."""
    from scipy.sparse import coo_array  # noqa: PLC0415 - a tenth of a second that only few calls need
    from scipy.sparse.csgraph import connected_components  # noqa: PLC0415

    number = np.arange(halves.size)
    place = np.full(3 * len(mesh.faces), -1)
    place[halves], place[folds.twins[halves]] = number, number
    pairs = [np.stack([number, place[mates]], axis=1)[mates >= 0] for mates in beside.T]
    one, other = np.concatenate([*pairs, _meeting(mesh, halves)]).T
    turn, radius = found[:, 0], found[:, 1]
    alike = (np.abs(turn[one] - turn[other]) <= ALIKE) & (np.abs(radius[one] - radius[other]) <= below / 4)
    kept = alike & (other >= 0)
    graph = coo_array((np.ones(int(kept.sum())), (one[kept], other[kept])), shape=(halves.size, halves.size))
    return np.asarray(connected_components(graph, directed=False)[1], dtype=np.int64)


def _groups(rows: Integers, labels: Integers) -> Iterator[Integers]:
    order = np.argsort(labels, kind="stable")
    ends = np.flatnonzero(np.diff(labels[order])) + 1
    return (group for group in np.split(rows[order], ends) if group.size)


def _meeting(mesh: Mesh, halves: Integers) -> Integers:
    """Pairs of edges that share a vertex, each vertex's edges linked in a row."""
    ends = np.stack(
        [mesh.faces[halves // 3, halves % 3], mesh.faces[halves // 3, (halves % 3 + 1) % 3]], axis=1
    )
    vertex, number = ends.ravel(), np.repeat(np.arange(halves.size), 2)
    order = np.argsort(vertex, kind="stable")
    same = vertex[order][1:] == vertex[order][:-1]
    return np.stack([number[order][:-1][same], number[order][1:][same]], axis=1)


def _line(
    mesh: Mesh, halves: Integers, bends: Floats, found: Floats, middles: Floats, sides: Integers
) -> EdgeLine:
    """Put one group together; the facets of a rounding share its length by their turns."""
    ends = np.stack(
        [mesh.vertices[mesh.faces[halves // 3, side]] for side in (halves % 3, (halves % 3 + 1) % 3)], axis=1
    )
    weights = np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1) * bends / found[:, 0]
    total = float(weights.sum())
    centre = ends.mean(axis=1)
    mean = (weights[:, None] * centre).sum(axis=0) / total
    nearest = int(np.argmin(np.linalg.norm(centre - mean, axis=1).round(9)))
    turn, radius = (float((weights * found[:, column]).sum() / total) for column in (0, 1))
    legs = (float(found[nearest, 2]), float(found[nearest, 3]))
    faces = (int(sides[nearest, 0]), int(sides[nearest, 1]))
    return EdgeLine(turn, radius, total, centre[nearest], ends, legs, middles[nearest], faces)
