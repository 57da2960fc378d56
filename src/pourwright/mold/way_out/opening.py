"""Whether the piece is pulled straight, stretched out, or the block cut on one side or in two."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import asin
from typing import Literal

from pourwright.geometry.ways_up.around import Around
from pourwright.geometry.ways_up.held import Held
from pourwright.mold.way_out.cut import Cut
from pourwright.mold.way_out.defaults import WAY_OUT
from pourwright.mold.way_out.pull import Pull
from pourwright.mold.way_out.soft import Soft
from pourwright.physics.sleeve import folding_moment, folding_strain

Opening = Literal["straight", "stretch", "one cut", "two cuts", "two parts"]


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
        The cut opens as wide as the piece is, and all of the angle is taken where it bends, over twice the
        thickness that the rubber has there, level by level.
    """
    n = int(abs(around.angles - back.angle).argmin())
    thick = around.free[n, around.heights > cut.ends_at]
    arm = max(cut.width + back.land, 1e-6)
    opens = 2.0 * asin(min(cut.width / (2.0 * arm), 1.0))
    turning = sum(folding_moment(opens, float(each), soft.modulus) for each in thick) * around.step
    return _hinge(opens, opens, turning / arm, soft)


def halves(cut: Cut, base: float, width: float, held: Sequence[Held], height: float, soft: Soft) -> Hinge:
    """Reckon with a block cut on two sides whose halves lean outward about its floor.

    Parameters
    ----------
    cut : Cut
        The first of both.
    base : float
        Rubber under the piece [m].
    width : float
        Of the block along the fold [m].
    held : sequence of Held
        Rubber in front of the piece.
    height : float
        Of the piece [m].
    soft : Soft
        The rubber.

    Returns
    -------
    Hinge
        Each half leans out, about the middle of the floor's thickness, until what it reaches in behind the
        piece has cleared it at its own height.
    """
    thick = base + cut.ends_at
    axis = cut.ends_at - thick / 2
    lean = max((asin(min(each.depth / _above(each, axis), 1.0)) for each in held), default=0.0)
    turning = folding_moment(lean, thick, soft.modulus) * width
    return _hinge(2.0 * lean, lean, turning / (height - axis), soft)


def _above(region: Held, axis: float) -> float:
    return max(float(region.place[2]) - axis, 1e-6)


def _hinge(opens: float, fold: float, force: float, soft: Soft) -> Hinge:
    strain = max(folding_strain(fold), 1e-6)
    return Hinge(opens, strain, force, soft.elongation / strain, soft.notch_strain / strain)


def decide(held: Sequence[Held], holes: int, pull: Pull, hinge: Hinge, two: Hinge) -> Opening:
    """Choose how the rubber is opened: the least that gets the piece out by hand.

    Parameters
    ----------
    held : sequence of Held
        Rubber in front of the piece that hangs together with the block.
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
    if not held:
        return "straight"
    if holes and any(each.roofed for each in held):
        # rubber through a hole that lies across the pull is a closed ring round a part of the piece
        return "two parts"
    # a cap without a neck is pulled out of nothing: what lies over it has to be cut
    if pull.margin is not None and pull.margin >= margin and pull.force <= hands:
        return "stretch"
    if _opens(hinge, margin, hands):
        return "one cut"
    return "two cuts" if _opens(two, margin, hands) else "two parts"


def _opens(hinge: Hinge, margin: float, hands: float) -> bool:
    return hinge.force <= hands and min(hinge.margin, hinge.notch_margin) >= margin
