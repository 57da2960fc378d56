"""Part of the fill's document: how much room the grains leave, in the bucket and in the mold."""

from __future__ import annotations

from pydantic import Field

from pourwright.jobs.plan_part import Part


class BandVoids(Part):
    """The voids of one band of glass, shares of its volume."""

    band: str
    grade: str
    sieve_from_m: float
    sieve_to_m: float
    bucket: float = Field(description="as a bucket of it has")
    mold: float = Field(description="between the walls of this mold")
    mold_low: float
    mold_high: float
    source: str
    tapped: bool
    measured: bool = Field(description="by the shop's own bucket test")
    sifts_low: float | None = Field(description="once the finer band above has sifted in; null: it does not")
    sifts_high: float | None


class Closer(Part):
    """Another way to lay the same bands, and what it would save."""

    what: str
    resin_saved_kg: float
    glass_more_kg: float
    money: float | None = Field(description="resin saved less glass; null: no prices")
    voids: float = Field(description="of all glass bands together")
    words: str


class GlassVoids(Part):
    """Grades and voids."""

    bands: list[BandVoids]
    voids: float = Field(description="of all glass bands together")
    closer: list[Closer]
    currency: str | None
    words: list[str]
    warnings: list[str] = Field(default_factory=list)
