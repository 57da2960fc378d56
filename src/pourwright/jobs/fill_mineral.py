"""Part of the fill's document: gypsum or concrete, mixed with water, set, out of the mold, dried."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part


class MineralBatchStep(Part):
    """One pail, as the scale shows it."""

    number: int
    water_kg: float
    powder_kg: float
    aggregate_kg: float
    in_after_h: float = Field(description="all in the mold, from the first powder in water; one person alone")


class Dries(Part):
    """Water that has to leave the piece, and how long that takes."""

    water_kg: float
    water_m3: float
    first_day_kg: float = Field(description="leaves on the first day, out of the mold, on all faces")
    soonest_days: float | None = Field(description="null: the air takes none, or the binder is not known")
    latest_days: float | None
    text: str = Field(description="both, as they are known: days or weeks")
    reason: str | None = Field(default=None, description="of a null above")
    air_degC: float
    humidity: float
    how: str = Field(description="what it is reckoned from")
    know: str = Field(description="how one knows that it is dry")


class Mineral(Part):
    """A casting material mixed with water."""

    name: str
    binder: Literal["gypsum", "cement", ""]
    water_ratio: float = Field(description="mass of water over that of dry powder")
    water_ratio_from: Literal["job", "record"]
    powder_kg: float
    water_kg: float
    aggregate_kg: float = Field(description="crushed glass stirred in")
    aggregate_share: float = Field(description="of the volume")
    aggregate_grade: str | None
    cement_kg: float | None = Field(
        description="of the powder, where it holds sand too; null: all of it sets"
    )
    sand_kg: float | None
    mixed_kg: float = Field(description="all together, allowance in it")
    allowance: float
    wet_density_kg_m3: float = Field(description="as poured, glass in it")
    wet_kg: float = Field(description="the piece as it comes out of the mold, without a core")
    dry_kg: float
    pressure_kPa: float = Field(description="on the box at the mold's floor, full head")
    working_h: float | None = Field(description="until it does not pour any more, in this shop; rounded")
    setting_h: float | None
    demold_h: float | None
    times_at_degC: float
    change_mm_per_m: float = Field(description="above 0: it grows as it sets; below: it shrinks as it dries")
    change_mm: float = Field(description="over the longest side")
    heat_MJ: float | None = Field(description="that ever comes, in the piece")
    adiabatic_rise_K: float | None = Field(description="if no heat were lost")
    heat_run: bool = Field(default=False, description="whether `setting_heat` tells how hot it gets")
    heat_reason: str | None = Field(default=None, description="of a null above")
    most_kg: float | None = Field(description="one batch")
    most_by: Literal["pail", "scale", "time"] | None
    batches: list[MineralBatchStep]
    drying: Dries
    steps: list[str] = Field(description="how it is mixed and filled, in order")
    warnings: list[str] = Field(default_factory=list)
    cautions: list[str] = Field(default_factory=list)
