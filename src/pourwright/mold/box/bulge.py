"""How far an upright panel bulges, what it bears, and the battens or the board that hold it."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.materials.records import Board
from pourwright.mold.box.battens import Battens, fewest
from pourwright.mold.box.defaults import BOX
from pourwright.mold.box.upright import Upright
from pourwright.physics.plate_edges import largest_moment, room_taken
from pourwright.physics.plates import BentPlate, plate_stiffness


@dataclass(frozen=True, kw_only=True)
class Bulge:
    """What a panel does.

    Parameters
    ----------
    panel : Upright
        Sizes and liquid.
    thickness : float
        Of its board [m].
    plate : BentPlate
        The panel bent, without battens.
    stress, allowed : float
        In the board without battens, and what it may bear [Pa].
    battens : Battens or None
        What holds it; None where it needs none, or where even twelve are too few.
    enough : bool
        Whether it holds, with those battens or without any.
    board_needed : float
        Board that does without battens [m].
    """

    panel: Upright
    thickness: float
    plate: BentPlate
    stress: float
    allowed: float
    battens: Battens | None
    enough: bool
    board_needed: float

    @property
    def bare(self) -> float:
        """Bulge without battens [m]."""
        return self.plate.largest[0]

    @property
    def at_height(self) -> float:
        """Where it bulges most, above the foot [m]."""
        return self.plate.largest[2]

    @property
    def held(self) -> float:
        """Bulge as it is built [m]."""
        return self.bare if self.battens is None else self.battens.bulge

    @property
    def built_stress(self) -> float:
        """In the board as it is built [Pa]."""
        return self.stress if self.battens is None else 6.0 * self.battens.moment / self.thickness**2

    @property
    def room(self) -> float:
        """What the bulge of one panel adds to the box [m3], as it is built."""
        share = self.held / self.bare if self.bare else 0.0
        return room_taken(self.plate) * share

    @property
    def far_too_thin(self) -> bool:
        """Whether it bends so far, half of its thickness, that small deflections no longer describe it."""
        return self.held > self.thickness / 2.0


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
        Without creep.
    """
    stiffness = plate_stiffness(board.bending_modulus.value, thickness)
    plate = panel.bent(stiffness)
    bare, stress = plate.largest[0], 6.0 * largest_moment(plate) / thickness**2
    safety = BOX["strength_safety"].value
    allowed, batten_allowed = board.bending_strength.value / safety, batten.bending_strength.value / safety

    def holds(battens: Battens) -> bool:
        bears = 6.0 * battens.moment / thickness**2 <= allowed and battens.batten_stress <= batten_allowed
        return battens.bulge <= limit and bears

    bears = bare <= limit and stress <= allowed
    battens = None if bears else fewest(panel, stiffness, batten, holds)
    return Bulge(
        panel=panel,
        thickness=thickness,
        plate=plate,
        stress=stress,
        allowed=allowed,
        battens=battens,
        enough=bears or battens is not None,
        board_needed=thickness * max((bare / limit) ** (1.0 / 3.0), (stress / allowed) ** 0.5),
    )
