"""Part of the fill's document: how the resin is weighed and mixed, batch by batch."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part


class BatchStep(Part):
    """One batch: what is weighed, when it is in, how far it comes up."""

    number: int = Field(description="within its band")
    part_a_kg: float
    part_b_kg: float
    ratio_error: float = Field(description="relative error of B against A after rounding to the scale")
    in_after_h: float = Field(description="from the start of the band's first batch, one person alone")
    level_m: float = Field(description="level of the resin after it, up from the mold's floor, by its weight")
    level_standing_m: float
    dip_m: float = Field(description="the same, down from the rim")


class BandBatches(Part):
    """The batches of one band."""

    band: str
    glass: bool = Field(description="whether the level stands between grains, so that no dip finds it")
    resin_kg: float = Field(description="mixed for this band, all losses in it")
    batches: list[BatchStep]


class Batches(Part):
    """Mixing the resin."""

    parts_by_weight: tuple[float, float]
    b_by_volume: float = Field(description="parts of B by volume to 100 of A")
    most_kg: float = Field(description="one batch")
    most_by: Literal["pail", "scale", "heat"]
    pail_kg: float
    scale_kg: float
    heat_kg: float
    pot_life_h: float = Field(description="as its record gives it")
    pot_life_of: str = Field(description="what was left standing for it")
    in_mold_within_h: float = Field(description="from mixing, for the largest batch in the shop's pail")
    scale_step_kg: float
    coarsest_step_kg: float = Field(description="of a scale that would do for the smallest batch")
    ratio_bears: float
    worst_ratio_error: float
    ratio_matters: bool
    tint_kg: float = Field(description="colour at most, in the whole fill")
    tint_batch_kg: float = Field(description="colour at most, in the largest batch")
    tint_share: float
    bands: list[BandBatches]
    warnings: list[str] = Field(default_factory=list)
    cautions: list[str] = Field(default_factory=list)
