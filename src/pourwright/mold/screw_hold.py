"""What one wood screw may be pulled with, in the box, in a master and in a space block alike."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced
from pourwright.materials.records import Board
from pourwright.physics.screws import GRAVITY, withdrawal_from_board, withdrawal_from_wood

SCREWS: Mapping[str, Sourced] = MappingProxyType(
    {
        "share": Sourced(
            1 / 5.5, "", 1 / 6, 0.25, Kind.PUBLISHED, "hicks-2002",
            "of the pull that draws it out: 2,850 of 15,700 in the formulas for wood",
        ),
        "damp": Sourced(
            0.08, "", 0.06, 0.12, Kind.PRACTICE, "common-practice",
            "water in board that lies in a dry shop, of its dry mass: the tables count dry wood",
        ),
        "end_grain": Sourced(
            0.75, "", 0.6, 0.8, Kind.MEMORY, "wood-handbook", "of what a screw bears in side grain",
        ),
    }
)  # fmt: skip
"""What a working load is reckoned with, SI."""


@dataclass(frozen=True, kw_only=True)
class Wood:
    """What a screw's point is in: density [kg/m3], and whether it is solid wood, not board."""

    density: float
    solid: bool = False

    @property
    def dry(self) -> float:
        """Specific gravity when dry [-]."""
        return self.density / (1e3 * (1.0 + SCREWS["damp"].value))

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


def working_pull(wood: Wood, diameter: float, depth: float, *, weak: bool) -> float:
    """What a screw may be pulled with.

    Parameters
    ----------
    wood : Wood
        That its point is in.
    diameter : float
        Of the screw [m].
    depth : float
        Of its thread in the wood [m].
    weak : bool
        In the edge of board or the end grain of wood; else in face or side grain.

    Returns
    -------
    float
        A share of what draws it out [N].
    """
    share = SCREWS["share"].value * wood.looseness
    if wood.solid:
        grain = SCREWS["end_grain"].value if weak else 1.0
        return share * grain * withdrawal_from_wood(wood.gravity, diameter, depth)
    return share * withdrawal_from_board(wood.gravity, diameter, depth, edge=weak)
