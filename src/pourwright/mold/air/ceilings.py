"""Level ceilings: they close nothing off, yet bubbles stay under them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from pourwright.geometry import Mesh
from pourwright.geometry.connectivity import body_labels, edges_of
from pourwright.geometry.mesh import Floats, Integers
from pourwright.mold.air.defaults import AIR
from pourwright.mold.air.places import Place
from pourwright.mold.air.rising import LEVEL, Rising

ROUGH = np.radians(5.0)
"""Slope of single faces in a level ceiling, as a scan or a coarse mesh has it."""


@dataclass(frozen=True, slots=True, eq=False)
class Ceiling:
    """A level ceiling.

    Parameters
    ----------
    area : float
        Seen from below [m2].
    middle : array (3,)
        Of it, as cast [m].
    corners : array (n,)
        Corners of the mesh on it.
    """

    area: float
    middle: Floats
    corners: Integers


def level_ceilings(rising: Rising, places: Iterable[Place] = ()) -> tuple[Ceiling, ...]:
    """Find the level ceilings that a liquid rises against.

    Parameters
    ----------
    rising : Rising
        The liquid.
    places : iterable of Place
        Caught air; a ceiling of its own walls is left out.

    Returns
    -------
    tuple of Ceiling
        The largest first.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> cube = box([0.2, 0.1, 0.3])
    >>> [round(found.area, 3) for found in level_ceilings(Rising(cube, "hung"))]
    [0.02]
    >>> level_ceilings(Rising(cube, "casting")), level_ceilings(Rising(cube, "screwed"))
    ((), ())
    """
    told = np.zeros(len(rising.mesh.vertices), dtype=bool)
    for place in places:
        told[place.corners] = True
    found = [patch for patch in _patches(rising) if not told[patch.corners].all()]
    return tuple(sorted(found, key=lambda patch: -patch.area))


def _patches(rising: Rising) -> Iterator[Ceiling]:
    """Patches of nearly level faces that lie level as a whole; else what is level of them, face by face."""
    vertices, (faces, slopes) = rising.mesh.vertices, _above_liquid(rising)
    for rough in _hanging_together(vertices, faces[slopes <= ROUGH]):
        if _level(vertices[rough.corners]):
            yield rough
        else:
            own = np.zeros(len(vertices), dtype=bool)
            own[rough.corners] = True
            strict = faces[own[faces].all(axis=1) & (slopes <= AIR["level"].value)]
            yield from _hanging_together(vertices, strict)


def _hanging_together(vertices: Floats, faces: Integers) -> Iterator[Ceiling]:
    """Patches of faces that share edges, large enough to be told."""
    if not len(faces):
        return
    flat = Mesh(vertices, faces)
    labels, areas = body_labels(flat, edges_of(flat)), np.linalg.norm(flat.area_vectors, axis=1)
    sums = np.bincount(labels, areas)
    for label in np.flatnonzero(sums >= AIR["ceiling"].value):
        own = labels == label
        middle = (flat.triangles[own].mean(axis=1) * areas[own, None]).sum(axis=0) / sums[label]
        yield Ceiling(float(sums[label]), middle, np.unique(faces[own]))


def _above_liquid(rising: Rising) -> tuple[Integers, Floats]:
    """Faces with liquid below them and their slopes, less the open face and what stands on the board."""
    vectors = rising.mesh.area_vectors
    lengths = np.linalg.norm(vectors, axis=1)
    towards = -(vectors @ rising.up) if rising.outside else vectors @ rising.up
    free = rising.mesh.vertices @ rising.up <= rising.board + LEVEL if rising.outside else rising.mouth
    closed = (rising.basin | free)[rising.mesh.faces].all(axis=1)
    taken = (towards > 0) & ~closed
    return rising.mesh.faces[taken], np.arccos(np.minimum(towards[taken] / lengths[taken], 1.0))


def _level(points: Floats) -> bool:
    """Whether a patch as a whole lies level: its mean plane, and what rises or hangs from that plane."""
    middle = points.mean(axis=0)
    across = np.column_stack([points[:, :2] - middle[:2], np.ones(len(points))])
    plane, *_ = np.linalg.lstsq(across, points[:, 2] - middle[2], rcond=None)
    off = points[:, 2] - middle[2] - across @ plane
    wide = float(np.ptp(points[:, :2], axis=0).max())
    steepest = np.tan(AIR["level"].value)
    # a shallow cone of that slope rises by half its width times the slope
    return bool(np.hypot(*plane[:2]) <= steepest and np.ptp(off) <= steepest * wide / 2)
