"""How far a panel bulges at every place, as it is built."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from pourwright.materials.records import Board
from pourwright.mold.box.battens import Battens
from pourwright.mold.box.bulge import Bulge
from pourwright.physics.plates import plate_stiffness

Array = NDArray[np.float64]


def bent_field(found: Bulge, board: Board, x: Array, z: Array) -> Array:
    """Bulge at the crossings of a grid.

    Parameters
    ----------
    found : Bulge
        The panel.
    board : Board
        Of the panel.
    x, z : array (n,), (m,)
        From the left edge of what is wet, and above the foot [m].

    Returns
    -------
    array (m, n)
        [m]; with battens the sag of the battens and that of the field between them, added, as the largest
        bulge is.
    """
    if found.battens is None:
        return found.plate.deflection(x[None, :], z[:, None])
    stiffness = plate_stiffness(board.bending_modulus.value, found.thickness)
    laid = {"level": _level, "upright": _upright}[found.battens.lie]
    return laid(found, found.battens, stiffness, x, z)


def _level(found: Bulge, battens: Battens, stiffness: float, x: Array, z: Array) -> Array:
    panel = found.panel
    bent = np.zeros((len(z), len(x)))
    for low, high in pairwise((0.0, *battens.at)):
        rows = (z >= low) & (z <= high)
        field = panel.field(panel.width, low, high, stiffness)
        bent[rows] = field.deflection(x[None, :], z[rows, None] - low)
    sag = battens.sags[0] * _evenly(x / panel.width)
    # the foot is held, the first batten is not: between them the sag fades out
    fade = np.minimum(z / battens.at[0], 1.0)
    return np.asarray(bent + fade[:, None] * sag[None, :])


def _upright(found: Bulge, battens: Battens, stiffness: float, x: Array, z: Array) -> Array:
    panel = found.panel
    bent = np.zeros((len(z), len(x)))
    edges = (0.0, *battens.at, panel.width)
    field = panel.field(edges[1], 0.0, panel.height, stiffness)
    for low, high in pairwise(edges):
        columns = (x >= low) & (x <= high)
        bent[:, columns] = field.deflection(x[None, columns] - low, z[:, None])
    stands, rim = battens.sags
    up = z / panel.height
    # between the corners and the first batten the panel goes over from one to the other
    near = np.minimum(np.minimum(x, panel.width - x) / edges[1], 1.0)
    bent += stands * _growing(1.0 - up)[:, None] * near[None, :]
    return np.asarray(bent + rim * up[:, None] * _evenly(x / panel.width)[None, :])


def _evenly(share: Array) -> Array:
    """Shape of a beam under an even load, 1 in the middle."""
    return np.asarray(16.0 / 5.0 * (share - 2.0 * share**3 + share**4))


def _growing(share: Array) -> Array:
    """Shape of a beam under a load that grows from nothing at 0, 1 where it bends most."""
    return np.asarray((7.0 * share - 10.0 * share**3 + 3.0 * share**5) / 360.0 / 0.00652)
