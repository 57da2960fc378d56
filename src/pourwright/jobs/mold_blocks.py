"""Part of the mold's document: the space blocks, what they are made from, where they sit, what they save."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part, Point


class MoldBlock(Part):
    """One space block; its panel is seen from inside, as the box stands while the rubber is poured."""

    letter: str = Field(description="stamped on the face that touches the panel, written on the panel")
    size_m: Point = Field(description="along the panel, up it, off it")
    layers: int = Field(description="boards glued up face on face; 1: sawn from one")
    board_m: float = Field(description="thickness of each")
    board_size_m: tuple[float, float] = Field(description="longer and shorter side of each board")
    wall: Literal["left", "right", "front", "back", "base"]
    panel: str = Field(description="what that panel is called")
    left_m: float = Field(description="from the panel's left edge")
    foot_m: float = Field(description="from the panel's foot; on the base board from its front edge")
    volume_m3: float
    lift_N: float = Field(description="drowned in liquid rubber, its own weight taken off")
    bears_N: float = Field(description="what all its screws must bear, with the safety factor")
    screws: int
    screw_bears_N: float = Field(description="what one screw bears, a quarter of what pulls it out")
    screw_length_m: float
    first_screw_m: float = Field(description="along its longer side, from the foot or the left edge")
    twins: list[str] = Field(description="letters of blocks of the same size")
    rubber_kg: float = Field(description="that need not be mixed")
    rubber_money: float | None
    sawing_h: float
    sawing_money: float | None


class BlockPanel(Part):
    """A panel that holds blocks, seen from inside as the box stands while the rubber is poured."""

    wall: Literal["left", "right", "front", "back", "base"]
    name: str
    width_m: float
    height_m: float
    lap_m: float = Field(description="from its left and right edge to the inside of the box")
    letters: list[str]


class MoldBlocks(Part):
    """Space blocks and what they are worth."""

    board: str
    stock_m: list[float] = Field(description="thicknesses in the shop")
    least_m: float = Field(description="shortest side")
    most: int
    wall_m: float = Field(description="least rubber beside the piece")
    base_m: float = Field(description="least rubber below it")
    worth_m3: float = Field(description="a block that displaces less is not worth its sawing")
    worth_by: str = Field(description="where that comes from")
    blocks: list[MoldBlock]
    panels: list[BlockPanel]
    volume_m3: float
    rubber_kg: float
    rubber_money: float | None
    sawing_h: float
    sawing_money: float | None
    wood_m2: float = Field(description="of the thinnest board, saw cuts and rests in it")
    wood_money: float | None
    saves_money: float | None = Field(description="rubber less sawing and wood; null: see missing")
    missing: list[str] = Field(description="prices that the job does not give")
    currency: str | None
    bound_m3: float = Field(description="more than so many blocks can hold together, wherever they sit")
    share: float | None = Field(description="of the bound that is reached; null where nothing fits")
    screw_diameter_m: float
    safety_factor: float
    sealed: str = Field(description="coats against the rubber, and whether it lets go of them")
    words: list[str]
    warnings: list[str] = Field(default_factory=list)
    cautions: list[str] = Field(default_factory=list)
