"""The part of the mold's document about a piece cast hollow."""

from __future__ import annotations

from pydantic import Field

from pourwright.jobs.plan_hollow import Hollow
from pourwright.jobs.plan_part import Part


class HollowOffer(Part):
    """The piece cast hollow to one wall."""

    wall_m: float = Field(description="least thickness")
    core_m3: float = Field(description="0 where nothing is left for a core")
    saved_kg: float
    resin_saved_kg: float = Field(description="in the piece; for gypsum or concrete 0")
    solids_saved_kg: float = Field(description="glass, or gypsum or concrete")
    piece_kg: float
    money_saved: float | None = Field(description="null where the job has no prices for it")
    foam_weight_kg: float = Field(description="on the bars over a core of foam, with the safety factor")
    wood_weight_kg: float = Field(description="on the bars over a core of the box's board")


class MoldHollow(Part):
    """What a core would save, and what keeps it down."""

    piece_kg: float = Field(description="cast solid")
    chosen: Hollow | None = Field(description="the core of the job; null: it is cast solid")
    lines: list[str] = Field(description="each offer in one sentence")
    offers: list[HollowOffer]
    currency: str | None = Field(description="null: no prices in the job")
    most_kg: float | None = Field(description="what the piece may weigh; null: the job sets no limit")
    wall_for_most_m: float | None = Field(description="thickest wall that meets it; null: see the words")
    holes: int = Field(description="through the piece")
    holes_closed: int = Field(description="of them, filled by the mold's rubber from side to side")
    safety_factor: float
    words: list[str]
    warnings: list[str]
