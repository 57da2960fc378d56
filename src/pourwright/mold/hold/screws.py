"""Which screw, what it may bear, and how many it takes."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pourwright.materials.records import Board
from pourwright.mold.defaults import DEFAULTS
from pourwright.mold.hold.defaults import HOLD, LENGTHS, LONG
from pourwright.physics.screws import (
    GRAVITY,
    sideways_in_wood,
    withdrawal_from_board,
    withdrawal_from_wood,
)

LEAST = 0.006
"""Thread below which a screw counts for nothing [m]."""


@dataclass(frozen=True, kw_only=True)
class Screw:
    """A wood screw: diameter, length, and its thread in the piece that holds its point [m]."""

    diameter: float
    length: float
    depth: float


@dataclass(frozen=True, kw_only=True)
class Wood:
    """What a screw's point is in: density [kg/m3], and whether it is solid wood, not board."""

    density: float
    solid: bool = False

    @property
    def dry(self) -> float:
        """Specific gravity when dry [-]."""
        return self.density / (1e3 * (1.0 + HOLD["damp"].value))

    @property
    def gravity(self) -> float:
        """The same, kept within what the relations were made for [-]."""
        return min(max(self.dry, GRAVITY.low), GRAVITY.high)

    @property
    def looseness(self) -> float:
        """Share that is left of a screw's hold in what is lighter than any wood: its square counts [-]."""
        return min(self.dry / GRAVITY.low, 1.0) ** 2

    @property
    def holds_screws(self) -> bool:
        """Whether it is as dense as wood and board are."""
        return GRAVITY.low <= self.dry <= GRAVITY.high


def wood_of(board: Board, density: float | None = None) -> Wood:
    """What a board is to a screw; a density [kg/m3] given for the piece wins over the board's."""
    return Wood(density=board.density.value if density is None else density, solid=board.solid_wood)


def screw_through(thickness: float, room: float) -> Screw | None:
    """Choose a screw by what it goes through and what it goes into.

    Parameters
    ----------
    thickness : float
        Of the board under its head [m].
    room : float
        Of the piece behind that, along the screw [m].

    Returns
    -------
    Screw or None
        The shortest sold that bites 20 mm, else the longest that stays in the piece; None where none does.
    """
    most = room - HOLD["screw_cover"].value
    fits = [length for length in LENGTHS if LEAST <= length - thickness <= most + 1e-9]
    if not fits:
        return None
    bites = (length for length in fits if length - thickness >= HOLD["screw_depth"].value - 1e-9)
    length = next(bites, fits[-1])
    diameter = HOLD["screw" if length <= LONG else "long_screw"].value
    return Screw(diameter=diameter, length=length, depth=length - thickness)


def pull_of(wood: Wood, screw: Screw, *, weak: bool = True) -> float:
    """What a screw may be pulled with.

    Parameters
    ----------
    wood : Wood
        That it is in.
    screw : Screw
        Its size.
    weak : bool
        In the edge of board or the end grain of wood; else in face or side grain.

    Returns
    -------
    float
        A share of what draws it out [N].
    """
    share = HOLD["screw_share"].value * wood.looseness
    if wood.solid:
        grain = HOLD["end_grain"].value if weak else 1.0
        return share * grain * withdrawal_from_wood(wood.gravity, screw.diameter, screw.depth)
    return share * withdrawal_from_board(wood.gravity, screw.diameter, screw.depth, edge=weak)


def push_of(screw: Screw) -> float:
    """What a screw may be pushed with sideways [N]: less where it is not seven diameters deep."""
    return sideways_in_wood(screw.diameter) * min(screw.depth / (7.0 * screw.diameter), 1.0)


def screws_for(force: float, each: float) -> int:
    """Count screws for a pull.

    Parameters
    ----------
    force : float
        With its safety factor [N].
    each : float
        What one may bear [N].

    Returns
    -------
    int
        At least four, or the master rocks.

    Examples
    --------
    >>> screws_for(100.0, 250.0), screws_for(1300.0, 250.0)
    (4, 6)
    """
    return max(math.ceil(force / each - 1e-9), int(DEFAULTS["least_screws"].value))
