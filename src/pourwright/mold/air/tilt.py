"""One tilt of a mold, or of a master that is let down."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

SIDES = (0.0, pi / 2, pi, 3 * pi / 2)
"""Directions from the middle of a box to its sides, from the x axis [rad]."""


@dataclass(frozen=True, slots=True)
class Tilt:
    """A mold tilted while it fills, or a master let down aslant.

    Parameters
    ----------
    side : float
        Side that is lifted, from the x axis as cast [rad].
    angle : float
        To tilt by, in whole degrees [rad].
    least : float
        Angle from which on no air worth telling stays [rad].
    chock : float
        Under that side [m].
    until : float or None
        Casting: level that the liquid has to reach, measured once the mold is level again, above the mold's
        floor [m]. Rubber over a screwed master: mark on the low panel, above the board [m]. None for a hung
        master.
    left : float
        Air that stays [m3].
    """

    side: float
    angle: float
    least: float
    chock: float
    until: float | None
    left: float

    @property
    def corner(self) -> bool:
        """Whether a corner is lifted, not a side."""
        return min(abs(self.side - side) for side in SIDES) > 0.1
