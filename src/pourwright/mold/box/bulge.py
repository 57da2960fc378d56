"""How far an upright panel bulges, and the battens or the board that hold it."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.materials.records import Board
from pourwright.mold.box.defaults import BOX
from pourwright.physics.beams import evenly_loaded, second_moment
from pourwright.physics.constants import STANDARD_GRAVITY
from pourwright.physics.plates import Edges, bent_plate, plate_stiffness

OPEN_TOP: Edges = ("supported", "supported", "supported", "free")
ALL_ROUND: Edges = ("supported", "supported", "supported", "supported")
MOST_BATTENS = 12


@dataclass(frozen=True, kw_only=True)
class Upright:
    """One upright panel: width and height between its supports, height of the liquid [m], its density."""

    name: str
    width: float
    height: float
    wet: float
    density: float

    @property
    def foot(self) -> float:
        """Pressure at the foot [Pa]."""
        return self.density * STANDARD_GRAVITY * self.wet

    def pressure(self, height: float) -> float:
        """Pressure at a height above the foot [Pa]."""
        return self.density * STANDARD_GRAVITY * max(self.wet - height, 0.0)


@dataclass(frozen=True, kw_only=True)
class Bulge:
    """What a panel does: bulge bare and as stiffened [m]; battens; board that does without them [m]."""

    panel: Upright
    bare: float
    at_height: float
    battens: int | None
    held: float
    board_needed: float


def bulge(panel: Upright, board: Board, thickness: float, batten: Board, limit: float) -> Bulge:
    """Reckon one upright panel of an open box: three edges supported, the rim free.

    Parameters
    ----------
    panel : Upright
        Sizes and liquid.
    board, batten : Board
        Of the panel and of the battens.
    thickness : float
        Of the panel [m].
    limit : float
        Greatest bulge wanted [m].

    Returns
    -------
    Bulge
        Without creep. ``battens`` is None where even twelve do not hold it.
    """
    stiffness = plate_stiffness(board.bending_modulus.value, thickness)
    level = min(panel.wet / panel.height, 1.0)
    bare, _, at_height = bent_plate(
        panel.width, panel.height, stiffness, OPEN_TOP, panel.foot, level=level
    ).largest
    needed = thickness * (bare / limit) ** (1.0 / 3.0)
    if bare <= limit:
        return Bulge(panel=panel, bare=bare, at_height=at_height, battens=0, held=bare, board_needed=needed)
    for count in range(1, MOST_BATTENS + 1):
        held = with_battens(panel, stiffness, batten, count)
        if held <= limit:
            return Bulge(
                panel=panel, bare=bare, at_height=at_height, battens=count, held=held, board_needed=needed
            )
    return Bulge(panel=panel, bare=bare, at_height=at_height, battens=None, held=bare, board_needed=needed)


def with_battens(panel: Upright, stiffness: float, batten: Board, count: int) -> float:
    """Bulge with battens across the panel, evenly spaced, the uppermost at the rim [m].

    Parameters
    ----------
    panel : Upright
        Sizes and liquid.
    stiffness : float
        Of the panel [N m].
    batten : Board
        Of the battens.
    count : int
        How many.

    Returns
    -------
    float
        The most that a batten bends and the lowest field between them, added: on the safe side, for
        the panel's own help to the battens counts for nothing.
    """
    field = panel.height / count
    section = second_moment(BOX["batten_width"].value, BOX["batten_depth"].value)
    bending = batten.bending_modulus.value * section
    # the uppermost takes a share of its one field only; a third covers it from a triangle to an even load
    loads = [panel.pressure(field * k) * field for k in range(1, count)]
    loads.append(panel.pressure(field * (count - 1)) * field / 3.0)
    sag = evenly_loaded(max(loads), panel.width, bending).deflection
    wet = min(panel.wet, field)
    between = bent_plate(
        panel.width, field, stiffness, ALL_ROUND, panel.foot, panel.pressure(field), wet / field
    ).largest[0]
    return sag + between
