"""Part of the mold's document: how far the box bulges, what stiffens it and what holds it together."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part


class BoxPanel(Part):
    """One kind of upright panel of the box, three edges supported and the rim free."""

    name: str
    count: int
    width_m: float = Field(description="between its supports")
    height_m: float
    pressure_at_foot_Pa: float
    liquid: str = Field(description="what presses most")
    bulge_m: float | None = Field(description="without battens, when the liquid comes in; null: far too thin")
    bulge_reason: str = ""
    bulge_at_m: float = Field(description="height above the foot where it bulges most, as poured")
    stress_share: float = Field(description="bending stress as built over what the board may bear")
    battens: int | None = Field(description="on one panel, that along the rim counted; null: too few hold it")
    battens_reason: str = ""
    batten_lie: Literal["", "level", "upright"] = ""
    batten_at_m: list[float] = Field(
        default_factory=list,
        description="middles: heights of level ones, distances from the edge of what is wet of upright ones",
    )
    batten_end_N: float = Field(default=0.0, description="pull at each end of the most loaded level one")
    laths_m: float = Field(default=0.0, description="length of lath for all panels of this kind")
    held_m: float | None = Field(description="bulge as built, when the liquid comes in")
    bulge_in_time_m: float | None = Field(
        description="as built, loaded for months in a dry room: an upper end"
    )
    bulge_in_damp_m: float | None = Field(description="likewise in a damp one")
    board_instead_m: float | None = Field(description="board that does without battens; null: it needs none")


class BoxFastening(Part):
    """One way of holding the upright corners."""

    means: Literal["screws", "clamps", "bands"]
    recommended: bool
    possible: bool
    reason: str = Field(description="why it does not hold; empty where it does")
    text: str
    at_m: list[float] = Field(description="heights above the foot, on one corner or round the box")
    load_N: float = Field(description="of the most loaded one")
    bears_N: float = Field(description="working load, its safety factor in it")


class BoxBase(Part):
    """The base board under one kind of upright panel."""

    panel: str
    at_m: list[float] = Field(description="screws, from the corner of what is wet; none: see the text")
    text: str


class Box(Part):
    """The box under the densest liquid ever poured."""

    board: str
    thickness_m: float
    joint: str
    joint_words: str
    limit_m: float
    batten: str
    batten_section_m: tuple[float, float]
    head: str = Field(description="which head is reckoned with")
    least_rubber_m: float
    rubber_with_bulge_m: float = Field(description="least rubber and what the box bulges while it is poured")
    rubber_for_bulge_m3: float = Field(description="rubber that the bulge takes besides")
    wall_text: str
    panels: list[BoxPanel]
    fastenings: list[BoxFastening] = Field(description="of the four upright corners; the one to take first")
    base: list[BoxBase]
    often: str = Field(default="", description="what to do where the box is taken apart at each cast")
    filled_kg: float
    lifting_limit_kg: float = Field(description="load constant of the lifting equation, for one person")
    people: int = Field(description="who lift the filled mold together")
    lifting: str
    warnings: list[str] = Field(default_factory=list)
    cautions: list[str] = Field(default_factory=list)
