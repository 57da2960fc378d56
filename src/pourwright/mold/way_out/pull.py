"""Pulling a piece out of rubber that is not cut."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

import numpy as np

from pourwright.geometry import Mesh, neck_stretch
from pourwright.geometry.mesh import Floats
from pourwright.geometry.ways_up.around import Around
from pourwright.geometry.ways_up.undercuts import girths_along
from pourwright.mold.way_out.soft import Soft
from pourwright.physics.sleeve import widening_energy

MAY_STAY = 0.01
"""Lengthening of a neck that nobody notices [-]."""
UP = np.array([0.0, 0.0, 1.0])


@dataclass(frozen=True, slots=True)
class Pull:
    """What it takes to get a piece out of rubber that is not cut.

    Parameters
    ----------
    strain : float
        Lengthening of the neck [-].
    force : float
        Greatest pull on the way out, at least [N].
    margin : float or None
        Elongation at break by the strain; None where nothing is stretched [-].
    """

    strain: float
    force: float
    margin: float | None


def pull_out(mesh: Mesh, around: Around, soft: Soft) -> Pull:
    """Reckon with stretching the rubber over the piece.

    Parameters
    ----------
    mesh : Mesh
        The piece as it is cast.
    around : Around
        Rubber round it.
    soft : Soft
        The rubber.

    Returns
    -------
    Pull
        Each level of rubber is a ring, as thick as it is on average, that fits its own section of the piece
        and has to let pass whatever of the piece is lifted through it. The force is the steepest rise of
        their energy as the piece goes up: without friction and without the air, so at least this.
    """
    strain = neck_stretch(mesh, UP).share
    if strain < MAY_STAY:
        return Pull(strain, 0.0, None)
    levels, girths = girths_along(mesh, UP)
    walls = np.interp(levels, around.heights, around.free.mean(axis=0))
    energy = lifting_energy(girths / (2 * pi), walls, soft.modulus)
    return Pull(strain, float(np.diff(energy).max()), soft.elongation / strain)


def lifting_energy(radii: Floats, walls: Floats, modulus: float) -> Floats:
    """Energy in rings of rubber as a piece is lifted through them, level by level.

    Parameters
    ----------
    radii : array (n,)
        Of the piece, from below, at even levels; not a number where there is none of it [m].
    walls : array (n,)
        Rubber round each level [m].
    modulus : float
        Of the rubber [Pa].

    Returns
    -------
    array (n,)
        For a lift by 0, 1, 2 .. levels, by the height of a level [J/m].
    """
    return np.array(
        [
            sum(
                widening_energy(inner, wall, passing, modulus)
                for inner, wall, passing in zip(radii[lift:], walls[lift:], radii, strict=False)
                if passing > inner > 0.0 and wall > 0.0
            )
            for lift in range(len(radii))
        ]
    )
