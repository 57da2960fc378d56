"""Part of the fill's document: what shrinks, how far the top sinks, what is planed and sanded off."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part


class BandShrinks(Part):
    """What one band shrinks by."""

    band: str
    poured: Literal["neat", "bed", "stirred"] = Field(description="as the job fills it")
    solid_fraction: float = Field(description="glass over the band's volume")
    by_volume: float = Field(description="mixed to cured, neat or with its glass stirred in")
    by_volume_low: float
    by_volume_high: float
    before_gel: float = Field(description="of it what sinks at the top, over the band's volume")
    by_length: float = Field(description="gel to cold, as the job fills it")
    by_length_low: float
    by_length_high: float
    stirred_in: float = Field(description="by length, gel to cold, were its glass stirred in")
    gaps: float = Field(description="hairline gaps over the volume, where resin lets go of the bed; most")
    gaps_high: float


class Sanded(Part):
    """What sanding bares of the glass along the mold's faces."""

    grade: str
    grain_m: float = Field(description="mean size")
    skin_m: float = Field(description="neat resin over grains that touch the mold, on average")
    glass_shares: list[float] = Field(description="share of the face that is glass, for each depth")


class Shrinks(Part):
    """Shrinking, sinking, planing and sanding."""

    cure_shrinkage: float = Field(description="of the neat resin by volume, mixed to fully cured")
    gel_conversion: float
    bands: list[BandShrinks]
    sinks_of: list[str] = Field(description="bands of the last pour, as if each band were one")
    sink_m: float = Field(description="of the open face until gel; below 0 where warmth swells it more")
    sink_least_m: float
    sink_most_m: float
    sink_all_m: float = Field(description="the most, were the whole fill poured at once")
    face_m2: float
    planing_m: float = Field(description="to plane off beside what sinks")
    overfill_m: float = Field(description="as the job has it")
    overfill_kg: float
    wanted_m: float = Field(description="overfill that covers sink and planing")
    wanted_kg: float
    planed_least_m: float = Field(description="stands over the face once sunk, of the overfill wanted")
    planed_most_m: float
    wall_m: float = Field(description="panels above the open face")
    cover_m: float | None = Field(description="neat resin over the topmost glass; null: no glass there")
    cover_grain_m: float | None = Field(description="largest grain under it")
    sand_depths_m: list[float]
    sanded: list[Sanded]
    glass_hours: float = Field(description="hours of sanding into glass against resin alone")
    glass_hours_low: float
    glass_hours_high: float
    notes: list[str]
    warnings: list[str] = Field(default_factory=list)
    cautions: list[str] = Field(default_factory=list)
