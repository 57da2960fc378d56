"""The room for a core: what lies deeper in a piece than its wall is thick, open at the mouth."""

from __future__ import annotations

import numpy as np

from pourwright.geometry import Mesh, open_face
from pourwright.geometry.distance import offset_volume
from pourwright.geometry.drawn.carrying import carried_on
from pourwright.geometry.drawn.rounding_lattice import Lattice
from pourwright.geometry.drawn.rounding_levels import level_surface

CUBES, ROUGH = 4.0, 2.0
"""Finest cubes in one wall, for a volume and for shares of it: docs/decisions/0029."""
STEPS = 4.0
"""Lattice steps in one wall, for whether a hole closes."""


def has_mouth(mesh: Mesh) -> bool:
    """Say whether a core can be hung in: whether the piece ends in a flat open face.

    Parameters
    ----------
    mesh : Mesh
        In the pour frame.

    Returns
    -------
    bool
    """
    return open_face(mesh).area > 0.0


def core_volume(mesh: Mesh, wall: float, below: float | None = None, cubes: float = CUBES) -> float:
    """Volume of the largest core that leaves a wall all round but at the mouth.

    Parameters
    ----------
    mesh : Mesh
        In the pour frame, mouth at its top [m].
    wall : float
        Least thickness that stays [m].
    below : float, optional
        Only what lies under this height [m]; the mouth where left out.
    cubes : float
        Finest cubes in one wall.

    Returns
    -------
    float
        [m3]; 0 where no place lies so deep.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> inner = 0.16 * 0.16 * 0.08
    >>> bool(abs(core_volume(box([0.2, 0.2, 0.1]), 0.02) / inner - 1) < 5e-3)
    True
    """
    top = float(mesh.bounds[1, 2])
    height = top if below is None else min(below, top)
    return offset_volume(carried_on(mesh, 2 * wall), -wall, wall / cubes, height)


def holes_through(mesh: Mesh) -> int:
    """Count the holes that go through a body.

    Parameters
    ----------
    mesh : Mesh
        One closed body.

    Returns
    -------
    int
        Its genus, from corners - edges + faces = 2 - 2 genus.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> holes_through(box([0.1, 0.1, 0.1]))
    0
    """
    used = len(np.unique(mesh.faces))
    faces = len(mesh.faces)
    return (2 - (used - 3 * faces // 2 + faces)) // 2


def holes_closed(mesh: Mesh, wall: float) -> int:
    """Count the holes of a piece that rubber of a given wall fills from side to side.

    Parameters
    ----------
    mesh : Mesh
        The piece [m].
    wall : float
        Of the mold's rubber [m].

    Returns
    -------
    int
        Holes through the piece that the body grown by the wall has no more.
    """
    there = holes_through(mesh)
    if there <= 0:
        return 0
    lattice = Lattice.around(mesh, wall, wall / STEPS)
    grown = level_surface(lattice.distances(mesh, 2 * wall), lattice.axes, wall)
    return max(there - max(holes_through(grown), 0), 0)
