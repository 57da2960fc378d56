"""What was chosen about the mold, in SI."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from pourwright.foundation.notation import UnitSystem
from pourwright.materials.batches import Tools
from pourwright.materials.records import Board, Rubber
from pourwright.mold.bar_choices import BarChoices
from pourwright.mold.block_choices import BlockChoices
from pourwright.mold.box.defaults import BOX
from pourwright.mold.box.joints import BUTT, Joint
from pourwright.mold.defaults import DEFAULTS
from pourwright.mold.rubber_time import TIMED_AT, time_at

Method = Literal["hung", "screwed"]
Way = Literal["block", "two-part", "skin"]


@dataclass(frozen=True, kw_only=True)
class MoldChoices:
    """Choices for one poured block of rubber.

    Parameters
    ----------
    method : str
        "hung": the master hangs from bars across the box, open face up.
        "screwed": it is screwed to the base board, open face down.
    way : str
        "block", "two-part" or "skin".
    rubber, board : record
        Mold rubber; board of the box.
    casting_density : float
        Densest thing ever poured into the mold [kg/m3].
    wall : float
        Least rubber between the piece and a panel [m].
    base : float
        Rubber under the piece as it is cast [m].
    cover : float
        Rubber over the open face [m]; 0, or there is no mouth.
    freeboard : float
        Panels above the rubber's level [m].
    board_thickness : float, optional
        Of the box [m]; the board's own when left out.
    joint : Joint
        How the upright panels meet at the corners.
    bulge_limit : float
        Most that a panel may bulge [m].
    safety_factor : float
        On the weight or the screws that hold the master [-].
    rubber_pour_allowance : float
        Share of rubber mixed on top of what the box takes [-].
    master_board : record, optional
        Board that the master is glued up from.
    master_density, master_mass : float, optional
        Density [kg/m3] or mass [kg] of the master; mass wins over density, density over board.
    tools : Tools
        Pail and scale.
    space_blocks : bool
        Whether wood takes rubber's place.
    blocks : BlockChoices
        Stock and effort of the space blocks.
    bars : BarChoices
        That a hung master hangs from.
    vacuum_pot : float, optional
        Brim volume of the pot that rubber is degassed in [m3].
    shop : float
        Temperature of shop and rubber on a warm day [K].
    units : UnitSystem
        What the maker reads, in sentences only.
    """

    rubber: Rubber
    board: Board
    casting_density: float
    method: Method = "hung"
    way: Way = "block"
    wall: float = DEFAULTS["wall"].value
    base: float = DEFAULTS["base"].value
    cover: float = DEFAULTS["cover"].value
    freeboard: float = DEFAULTS["freeboard"].value
    board_thickness: float | None = None
    joint: Joint = BUTT
    bulge_limit: float = BOX["bulge_limit"].value
    safety_factor: float = DEFAULTS["safety_factor"].value
    rubber_pour_allowance: float = DEFAULTS["rubber_pour_allowance"].value
    master_board: Board | None = None
    master_density: float | None = None
    master_mass: float | None = None
    tools: Tools = field(default_factory=Tools)
    space_blocks: bool = False
    blocks: BlockChoices = field(default_factory=BlockChoices)
    bars: BarChoices = field(default_factory=BarChoices)
    vacuum_pot: float | None = None
    shop: float = TIMED_AT.value
    units: UnitSystem = UnitSystem.METRIC

    @property
    def thickness(self) -> float:
        """Thickness of the panels [m]."""
        return self.board.thickness.value if self.board_thickness is None else self.board_thickness

    @property
    def block_board(self) -> Board:
        """What space blocks are sawn from."""
        return self.blocks.board or self.board

    @property
    def works_for(self) -> float:
        """How long the rubber works in this shop [s]."""
        return time_at(self.rubber.working_time.value, self.shop)

    @property
    def block_stock(self) -> tuple[float, ...]:
        """Thicknesses that space blocks are glued up from [m]."""
        return self.blocks.stock or (self.block_board.thickness.value,)

    @property
    def bar_board(self) -> Board:
        """What bars are sawn from."""
        return self.bars.board or self.board

    def mass_of_master(self, volume: float) -> float:
        """Say what a solid master weighs.

        Parameters
        ----------
        volume : float
            Volume of the master [m3].

        Returns
        -------
        float
            Mass [kg]: as weighed, or from its density, or from the board it is glued up from.
        """
        if self.master_mass is not None:
            return self.master_mass
        if self.master_density is not None:
            return self.master_density * volume
        return (self.master_board or self.board).density.value * volume
