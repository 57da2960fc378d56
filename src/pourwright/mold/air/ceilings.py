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
    faces = rising.mesh.faces[_level_faces(rising)]
    if not len(faces):
        return
    flat = Mesh(rising.mesh.vertices, faces)
    labels, areas = body_labels(flat, edges_of(flat)), np.linalg.norm(flat.area_vectors, axis=1)
    for label in np.unique(labels):
        own = labels == label
        area = float(areas[own].sum())
        if area >= AIR["ceiling"].value:
            middle = (flat.triangles[own].mean(axis=1) * areas[own, None]).sum(axis=0) / area
            yield Ceiling(area, middle, np.unique(faces[own]))


def _level_faces(rising: Rising) -> Integers:
    """Faces with liquid below them that lie level, the open face and what stands on the board left out."""
    vectors = rising.mesh.area_vectors
    lengths = np.linalg.norm(vectors, axis=1)
    towards = -(vectors @ rising.up) if rising.outside else vectors @ rising.up
    level = (towards >= np.cos(AIR["level"].value) * lengths) & (lengths > 0)
    heights = rising.mesh.vertices @ rising.up
    free = rising.mouth if not rising.outside else heights <= rising.board + LEVEL
    closed = rising.basin | free
    return np.flatnonzero(level & ~closed[rising.mesh.faces].all(axis=1))
