"""Suction under the piece: how much, how long, and whether the rubber's floor gives way to it."""

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
    floor_follows : float or None
        Pull at which the rubber's own floor bends up with the piece, its board taken away [N]; None where it
        is stiffer than the vacuum is strong.
    by_hand : bool
        Whether one person could overcome it.
    """

    area: float
    force: float
    kilograms: float
    creeps_in: float
    floor_follows: float | None
    by_hand: bool


def suction_of(area: float, floor: float, depth: float, base: float, modulus: float) -> Suction:
    """Reckon with pulling a piece out of a closed cavity.

    Parameters
    ----------
    area : float
        On which the air presses the piece down, seen along the pull [m2].
    floor : float
        Of the cavity's floor [m2].
    depth : float
        Of the cavity [m].
    base : float
        Rubber under it [m].
    modulus : float
        Of the rubber [Pa].

    Returns
    -------
    Suction
        Round ones of the same area stand for the mouth and the floor.
    """
    force = suction_force(area)
    creeps = creep_in_time(
        2 * sqrt(pi * area), WAY_OUT["air_gap"].value, depth, area * WAY_OUT["first_lift"].value,
        float(air_viscosity(ROOM)),
    )  # fmt: skip
    follows = floor_pressure(FOLLOWS * base, sqrt(floor / pi), base, modulus) * floor
    return Suction(
        area, force, force / STANDARD_GRAVITY, creeps, follows if follows < force else None,
        force <= WAY_OUT["hands"].value,
    )  # fmt: skip
