"""The parts of the mold's document about its seams and about the water test."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part


class SeamLeak(Part):
    """What one liquid loses at one seam before it gels."""

    number: int = Field(description="from the worst of all seams down, 1 is the worst")
    name: str
    kind: Literal["foot", "corners", "bed", "cut", "line", "skin cut", "shell", "rod"]
    length_m: float
    way_out_m: float = Field(description="of an even seam that would lose as much")
    head_m: float = Field(description="most liquid over it")
    pressure_Pa: float
    gap_m: float = Field(description="that one expects there")
    lost_kg: float = Field(description="through that gap")
    lost_paper_kg: float = Field(description="through a gap that a sheet of paper just fits")
    widest_gap_m: float | None = Field(
        description="through which this seam alone loses all that may be lost, or in which a slurry rests; "
        "null: any gap will do"
    )
    closed_by: str
    supposed: bool = Field(description="there only if the maker chooses so; in no sum")


class LiquidLeaks(Part):
    """What one liquid does at the seams it reaches."""

    liquid: str
    presses_kg_m3: float
    flows_per_Pa: float = Field(description="integral of one over the viscosity until it gels")
    gels_after_h: float
    layer_m: float | None = Field(description="most liquid over what has gelled; null: poured in one go")
    poured_kg: float
    may_lose_kg: float
    lost_kg: float = Field(description="through the gaps that one expects, at all seams that are there")
    widest_gap_m: float | None = Field(
        description="alike in all its seams, that loses what may be lost; null: no seam, or any will do"
    )
    seams: list[SeamLeak] = Field(description="the worst first")
    words: str


class Seams(Part):
    """Which liquid reaches which seam."""

    liquids: list[LiquidLeaks]
    paper_m: float
    words: list[str]
    warnings: list[str]


class WaterMark(Part):
    """One mark of the water test."""

    water_m3: float
    water_kg: float
    height_m: float
    height_standing_m: float | None = Field(description="null where the piece lies on its side or askew")
    dip_m: float = Field(description="down from the rim")
    millimetre_m3: float = Field(description="water that lifts the level there by a millimetre")


class WaterFall(Part):
    """How far the level may fall in a time."""

    after_h: float
    lost_m3: float
    drop_m: float


class WaterTest(Part):
    """The finished mold filled with measured water."""

    water_m3: float
    water_kg: float
    step_m3: float
    mold_kg: float | None = Field(description="mold and water; null for a skin in its shell")
    people: int = Field(description="to lift it, or the water alone where the mold's mass is null")
    water_degC: float
    marks: list[WaterMark]
    widest_gap_m: float | None = Field(description="that what is cast allows; null: no seam, or any gap")
    falls: list[WaterFall] = Field(description="with that gap; empty where there is none")
    times_the_cast: float | None = Field(
        description="water lost in the last of these times over what is cast"
    )
    kept_out_floor_m: float = Field(description="gap that plain water stays out of at the floor")
    kept_out_top_m: float = Field(description="and 50 mm below the mouth")
    dries_h: float
    dry_needed: bool
    steps: list[str]
    reading: list[str] = Field(description="what a mark that is missed means")
    drying: list[str]
    cautions: list[str]
