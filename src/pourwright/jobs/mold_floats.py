"""Part of the mold's document: what floats in the liquid rubber, and what holds it."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part

STANDING = "the same place from the floor as the piece stands; null where it lies on its side or askew"


class FloatCurve(Part):
    """Forces on the master against the level of the rubber above the box's floor."""

    level_m: list[float]
    standing_m: list[float] | None = Field(description=STANDING)
    lift_N: list[float] = Field(description="with rubber all round, under it too")
    tight_N: list[float] = Field(description="with no rubber under it; negative presses it down")


class FloatBend(Part):
    """Bars under one load."""

    force_N: float
    bends_m: float
    stress_Pa: float
    holds: bool


class FloatBars(Part):
    """Bars across the rim that the master hangs from."""

    board: str
    count: int
    section_m: tuple[float, float] = Field(description="across and up, as it lies on the rim")
    span_m: float
    across: Literal["left to right", "front to back"]
    touches_m: float = Field(description="length over which the open face lies against each bar")
    fit: int = Field(description="bars that lie side by side on the open face")
    mass_kg: float
    limit_m: float
    stress_allowed_Pa: float
    hanging: FloatBend = Field(description="downward, before any rubber")
    drowned: FloatBend = Field(description="upward, at the worst level, with the safety factor")
    holds: bool
    instead_count: int | None = None
    instead_section_m: tuple[float, float] | None = None
    weight_each_kg: float = Field(description="to lay on each bar")
    panels_kg: float = Field(description="mass of the upright panels that bars clamped to them pull at")


class FloatScrews(Part):
    """Screws into the master."""

    count: int
    count_face: int = Field(description="where they go into the face of its boards, not the edge")
    size: str
    diameter_m: float
    length_m: float
    depth_m: float = Field(description="of thread in the master")
    bears_N: float = Field(description="one, in the edge of board or the end grain of wood")
    force_N: float = Field(description="on all, with the safety factor")
    apart_m: float
    into: str


class FloatBlock(Part):
    """A space block in the liquid rubber, on its screws."""

    letter: str
    wall: str
    mass_kg: float
    net_N: float = Field(description="lift less weight at the worst level; below 0 it sinks")
    worst_level_m: float
    worst_standing_m: float | None = Field(description=STANDING)
    off_panel_m: float
    moment_Nm: float = Field(description="that levers it off its panel, with the safety factor")
    pull_N: float = Field(description="along the row of screws that holds it, with the safety factor")
    push_N: float = Field(description="across all its screws, with the safety factor")
    screws: int
    screws_used: float = Field(description="share of what they may bear; above 1 they are too few")


class Floats(Part):
    """What liquid rubber lifts, at which level most, and what holds it."""

    held: Literal["hung", "screwed"]
    master_kg: float
    safety_factor: float
    lift_N: float = Field(description="with rubber all round, at the worst level")
    net_N: float = Field(description="lift less weight there, below 0 it sinks")
    worst_level_m: float = Field(description="of the rubber, above the box's floor")
    worst_standing_m: float | None = Field(description=STANDING)
    worst_dip_m: float = Field(description="down from the rim of the box")
    tight_N: float = Field(
        description="greatest lift with no rubber under it, before its weight is taken off"
    )
    tight_level_m: float
    tight_standing_m: float | None = Field(description=STANDING)
    floats_from_m: float | None = Field(description="level that lifts it off; null: it sinks")
    floats_from_standing_m: float | None = Field(description=STANDING)
    weight_needed_kg: float = Field(description="on the bars, with the safety factor")
    curve: FloatCurve
    bars: FloatBars | None = None
    screws: FloatScrews | None = None
    blocks: list[FloatBlock] = Field(default_factory=list)
    words: list[str] = Field(default_factory=list)
    warnings: list[str] = Field(default_factory=list)
    cautions: list[str] = Field(default_factory=list)
