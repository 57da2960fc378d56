"""Part of the fill's document: resin over dry glass, or glass stirred in first, side by side."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part

Strained = Literal["air", "time", "sinking"]


class DryWay(Part):
    """Resin over dry glass."""

    down_after_h: float | None = Field(description="from mixing; null: too thick before it is down")
    limit_h: float = Field(description="from mixing, when it is too thick to run")
    margin: float = Field(description="how much more it could flow until then than it must")
    air: float = Field(description="share of the band that stays air")
    air_dry: float = Field(description="of it, where no resin comes to")
    air_held: float = Field(description="of it, held between the grains by surface tension")
    air_late: float = Field(description="of it, still coming up when the resin gels")
    bubbles_from_m: float = Field(description="loose bubbles of this size and more come up before gel")
    glass_kg: float
    resin_kg: float = Field(description="mixed, all losses in it")
    batches: int
    work_h: float
    tube_h: float | None = Field(description="through one tube at the lowest point; null: too thick before")
    tube_kg_per_min: float | None
    strain: float = Field(description="worst of air and time over what they may be")
    strained_by: Strained


class StirredWay(Part):
    """Glass stirred into the resin first."""

    possible: bool
    glass_share: float = Field(description="most that can be stirred in, by volume of the mix")
    viscosity_Pa_s: float | None = Field(description="of the resin alone when the mix is filled in")
    glass_kg: float
    resin_kg: float = Field(description="mixed, all losses in it")
    more_resin_kg: float = Field(description="than over dry glass")
    costs_more: float | None = Field(description="in the job's currency; null: no price of resin and glass")
    air: float = Field(description="share of the band that stays air")
    bubbles_from_m: float
    sinks_m: float = Field(description="how far the upper border of the glass sinks before gel")
    to_a_bed: bool = Field(description="whether the glass sinks until its grains touch")
    batches: int
    batch_h: float = Field(description="from mixing one batch until it is in the mold")
    batch_limit_h: float
    work_h: float
    strain: float = Field(description="worst of air, time and sinking over what they may be")
    strained_by: Strained


class BandWays(Part):
    """Both ways for one band."""

    band: str
    grade: str
    depth_m: float
    voids: float
    dry: DryWay
    stirred: StirredWay
    recommended: Literal["over-dry-glass", "stirred-in"]
    good: bool = Field(description="false: the lesser evil")
    reason: str
    front_h: list[float] = Field(description="times from mixing along the front's way down")
    front_m: list[float] = Field(description="how far down it is then, below the top of the band")


class NeatCoat(Part):
    """A thin neat coat on the mold's face, before the glass goes in."""

    thickness_m: float
    resin_kg: float
    thins_to_m: float = Field(description="half-way up an upright face, brushed on as mixed")
    stands_from_h: float | None = Field(description="from mixing, from when on it stays as thick")
    gels_h: float


class Filling(Part):
    """Two ways of filling."""

    shop_degC: float
    resin_degC: float = Field(description="as poured")
    viscosity_Pa_s: float = Field(description="as poured")
    pours_to_Pa_s: float = Field(description="thickest that still runs through glass")
    stirs_to_Pa_s: float = Field(description="thickest mix that is stirred by hand")
    air_bears: float
    currency: str | None = Field(description="of what is more; null: no prices")
    bands: list[BandWays]
    coat: NeatCoat
    thick_h: list[float] = Field(description="times from mixing to gel, of resin that has met the glass")
    thick_Pa_s: list[float] = Field(description="how thick it is then")
    warnings: list[str] = Field(default_factory=list)
    cautions: list[str] = Field(default_factory=list)
