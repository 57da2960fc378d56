"""Whether the piece is pulled straight, stretched out, or the block cut on one side or in two."""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, pi
from typing import Literal

from pourwright.geometry import Stretch
from pourwright.geometry.ways_up.around import Around
from pourwright.geometry.ways_up.held import Held
from pourwright.mold.way_out.cut import Cut
from pourwright.mold.way_out.defaults import WAY_OUT

Opening = Literal["straight", "stretch", "one cut", "two cuts", "two parts"]
MAY_STAY = 0.01
"""Lengthening of a neck that nobody notices [-]."""


@dataclass(frozen=True, slots=True)
class Soft:
    """What the rubber bears.

    Parameters
    ----------
    modulus : float
        Young's modulus [Pa].
    elongation : float
        At break [-].
    notch_strain : float
        Lengthening at which a nick in a cut edge grows [-].
    """

    modulus: float
    elongation: float
    notch_strain: float


@dataclass(frozen=True, slots=True)
class Pull:
    """What it takes to get a piece out of rubber that is not cut.

    Parameters
    ----------
    strain : float
        Lengthening of the neck [-].
    force : float
        Mean pull over the way to the widest place, at least [N].
    margin : float or None
        Elongation at break by the strain; None where nothing is stretched [-].
    """

    strain: float
    force: float
    margin: float | None


@dataclass(frozen=True, slots=True)
class Hinge:
    """What it takes to open a cut block like a book, or both halves of it outward.

    Parameters
    ----------
    opens : float
        Angle between the halves [rad].
    strain : float
        Of the rubber bent most [-].
    force : float
        On each half, at its cut edge [N].
    margin : float
        Elongation at break by the strain [-].
    notch_margin : float
        Lengthening at which a nick grows by the strain [-].
    """

    opens: float
    strain: float
    force: float
    margin: float
    notch_margin: float


def pull_out(stretch: Stretch, held: tuple[Held, ...], soft: Soft) -> Pull:
    """Reckon with stretching the rubber over the piece.

    Parameters
    ----------
    stretch : Stretch
        Of the neck.
    held : tuple of Held
        Rubber in front of the piece.
    soft : Soft
        The rubber.

    Returns
    -------
    Pull
        Its force is the energy of the held rubber stretched by as much, over the way that the widest place
        has to rise to the neck: without friction, and without the rubber farther out. At least this.
    """
    strain = stretch.share
    if strain < MAY_STAY:
        return Pull(strain, 0.0, None)
    volume = sum(region.volume for region in held)
    way = max(abs(stretch.neck_height - stretch.widest_height), 1e-3)
    ratio = 1.0 + strain
    stored = soft.modulus / 6.0 * (ratio**2 + 2.0 / ratio - 3.0) * volume
    return Pull(strain, stored / way, soft.elongation / strain)


def book(cut: Cut, back: Cut, around: Around, soft: Soft) -> Hinge:
    """Reckon with a block cut on one side and opened like a book.

    Parameters
    ----------
    cut : Cut
        Where it is cut.
    back : Cut
        Opposite, where it bends.
    around : Around
        Rubber round the piece.
    soft : Soft
        The rubber.

    Returns
    -------
    Hinge
        The cut opens as wide as the piece is. The rubber at the back bends over twice its own thickness, so
        its surface lengthens by a quarter of the angle, and it takes E t^2 / 24 times the angle for each
        height.
    """
    n = int(abs(around.angles - back.angle).argmin())
    thick = around.free[n, around.heights > cut.ends_at]
    arm = max(cut.width + back.land, 1e-6)
    opens = 2.0 * asin(min(cut.width / (2.0 * arm), 1.0))
    turning = soft.modulus * opens / 24.0 * float((thick**2).sum()) * around.step
    return _hinge(opens, turning, arm, soft)


def halves(cut: Cut, base: float, inside: tuple[float, float], height: float, soft: Soft) -> Hinge:
    """Reckon with a block cut on two sides whose halves lean outward about its floor.

    Parameters
    ----------
    cut : Cut
        The first of both.
    base : float
        Rubber under the piece [m].
    inside : tuple of float
        Of the box [m].
    height : float
        Of the piece [m].
    soft : Soft
        The rubber.

    Returns
    -------
    Hinge
        Each half leans out until what it reaches in behind the piece has cleared it.
    """
    thick = base + cut.ends_at
    clears = max(cut.depth - cut.land, thick)
    opens = 2.0 * asin(min(clears / height, 1.0))
    turning = soft.modulus * (opens / 2.0) / 24.0 * thick**2 * max(inside)
    return _hinge(opens, turning, height, soft)


def _hinge(opens: float, turning: float, arm: float, soft: Soft) -> Hinge:
    strain = max(opens / 4.0, 1e-6)
    return Hinge(opens, strain, turning / arm, soft.elongation / strain, soft.notch_strain / strain)


def decide(held: tuple[Held, ...], holes: int, pull: Pull, hinge: Hinge, two: Hinge) -> Opening:
    """Choose how the rubber is opened: the least that gets the piece out by hand.

    Parameters
    ----------
    held : tuple of Held
        Rubber in front of the piece.
    holes : int
        That go right through the piece.
    pull : Pull
        Without a cut.
    hinge, two : Hinge
        With one, and with two.

    Returns
    -------
    str
        "straight", "stretch", "one cut", "two cuts" or "two parts".
    """
    margin, hands = WAY_OUT["margin"].value, WAY_OUT["hands"].value
    if holes and held:
        # rubber through a hole is a closed ring round a part of the piece
        return "two parts"
    if not held:
        return "straight"
    # a cap without a neck is pulled out of nothing: what lies over it has to be cut
    if pull.margin is not None and pull.margin >= margin and pull.force <= hands:
        return "stretch"
    if hinge.force <= hands and min(hinge.margin, hinge.notch_margin) >= margin:
        return "one cut"
    return "two cuts" if two.force <= hands and two.margin >= margin else "two parts"


def degrees(angle: float) -> float:
    """An angle [rad] in degrees."""
    return angle * 180.0 / pi
