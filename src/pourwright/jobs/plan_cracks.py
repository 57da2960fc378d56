"""Where a casting may crack or turn white, how slowly to cool it, when to open, how far its tops sink."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part, Point

Light = Literal["green", "amber", "red"]


class CrackPlace(Part):
    """One place with its light."""

    mark: str = Field(description="letter on the drawing")
    kind: Literal["core", "top", "skin", "grain", "border", "corner"]
    pour: int
    where: str = Field(description="the place in words")
    place_m: Point
    light: Light = Field(description="green: nothing to fear; amber: look, cool slowly; red: expect it")
    load: float = Field(description="share of what it may bear that is used; the likely value")
    load_low: float
    load_high: float = Field(description="by the bands of all numbers it rests on")
    soft_shrinkage: float | None = Field(description="by length, from gel until it is glass")
    glass_shrinkage: float | None = Field(description="by length, as glass down to the coldest hour")
    hottest_degC: float | None = Field(description="since it gelled")
    glass_at_degC: float | None = Field(description="as it turned to glass")
    core_above_skin_K: float | None = Field(description="the most, once the skin had gelled")
    reason: str
    remedy: str = Field(description="empty where the light is green")


class Cooling(Part):
    """How fast the piece may cool."""

    most_K_per_h: float = Field(description="fastest steady fall of the skin's temperature")
    core_above_skin_K: float = Field(description="what that brings about, and what is left to bear")
    lag_h: float = Field(description="core above skin over the rate of cooling, on the run's grid")
    mind: bool = Field(description="false where no heated shop cools that fast by itself")
    text: str


class Opening(Part):
    """When the core is cool enough to open the box."""

    within_K: float = Field(description="the core at most so much above the shop's warmest hour")
    cool_after_h: float | None = Field(description="from the start of the last pour; null if not seen")
    text: str


class TopSinks(Part):
    """How far the top of one pour sinks before it gels, and what makes up for it."""

    pour: int
    sink_m: float = Field(description="likely; below 0 it gels standing higher, swollen by its own warmth")
    sink_most_m: float = Field(description="the family's greatest shrinkage, gelled no warmer than poured")
    after_gel_m: float = Field(description="what neat layers shrink in height after gel")
    missing_kg: float = Field(description="resin that makes up for the most")
    text: str


class AfterWarmBox(Part):
    """The worst place once a warm box has let it go soft and cool again."""

    mark: str = Field(description="letter on the drawing")
    light: Light
    load: float
    load_low: float
    load_high: float
    text: str


class Cracks(Part):
    """Lights by place: an indication, not a prediction."""

    light: Light = Field(description="the worst of all places")
    places: list[CrackPlace]
    shop_degC: float = Field(description="the shop's coldest hour, down to which all contracts")
    cooling: Cooling
    opening: Opening
    warm_box: AfterWarmBox | None = Field(default=None, description="null where none is planned or needed")
    tops: list[TopSinks]
    cover_m: float | None = Field(description="neat resin over the topmost glass; null without glass there")
    grain_m: float | None = Field(description="largest grain under it")
    cover_text: str
    notes: list[str]
