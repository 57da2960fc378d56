"""Suction under the piece, and where air is let in."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

from pourwright.mold.way_out.defaults import WAY_OUT
from pourwright.physics.air import air_viscosity
from pourwright.physics.constants import STANDARD_GRAVITY
from pourwright.physics.soft_wall import floor_pressure
from pourwright.physics.suction import creep_in_time, suction_force

FOLLOWS = 0.5
"""Of its own thickness, that the rubber's floor is lifted by before it peels off at its rim."""
ROOM = 293.15


@dataclass(frozen=True, slots=True)
class Suction:
    """What holds the piece down where no air gets under it.

    Parameters
    ----------
    area : float
        Seen along the pull [m2].
    force, kilograms : float
        With a vacuum below it, and the mass that weighs as much [N], [kg].
    creeps_in : float
        Until air has crept in along the walls once the piece is up by a millimetre [s].
    floor_follows : float
        Pull at which the rubber's own floor bends up with the piece, its board taken away [N].
    by_hand : bool
        Whether one person could overcome it.
    """

    area: float
    force: float
    kilograms: float
    creeps_in: float
    floor_follows: float
    by_hand: bool


def suction_of(area: float, depth: float, base: float, modulus: float) -> Suction:
    """Reckon with pulling a piece out of a closed cavity.

    Parameters
    ----------
    area : float
        Seen along the pull [m2].
    depth : float
        Of the cavity [m].
    base : float
        Rubber under it [m].
    modulus : float
        Of the rubber [Pa].

    Returns
    -------
    Suction
        A round floor of the same area stands for the true one.
    """
    radius = sqrt(area / pi)
    force = suction_force(area)
    creeps = creep_in_time(
        2 * pi * radius, WAY_OUT["air_gap"].value, depth, area * WAY_OUT["first_lift"].value,
        float(air_viscosity(ROOM)),
    )  # fmt: skip
    follows = floor_pressure(FOLLOWS * base, radius, base, modulus) * area
    return Suction(
        area, force, force / STANDARD_GRAVITY, creeps, min(follows, force), force <= WAY_OUT["hands"].value
    )
