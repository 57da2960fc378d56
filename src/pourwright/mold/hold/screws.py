"""Which screw, what it may bear, and how many it takes."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pourwright.mold.defaults import DEFAULTS
from pourwright.mold.hold.defaults import HOLD, LENGTHS, LONG
from pourwright.mold.screw_hold import Wood, working_pull
from pourwright.physics.screws import sideways_in_wood

LEAST = 0.006
"""Thread below which a screw counts for nothing [m]."""


@dataclass(frozen=True, kw_only=True)
class Screw:
    """A wood screw: diameter, length, and its thread in the piece that holds its point [m]."""

    diameter: float
    length: float
    depth: float


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
    return working_pull(wood, screw.diameter, screw.depth, weak=weak)


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
