"""What stays soft, what a warm box gains, and where the shop's air is too damp, as parts of a plan."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part, Point


class SoftPlace(Part):
    """The least-cured place of one pour at one moment."""

    pour: int
    moment: Literal["next pour", "demold"] = Field(description="as the next pour comes, or all is hard")
    at: str | None
    cured: float
    glass_transition_degC: float
    shop_degC: float = Field(description="the air at that moment")
    place_m: Point
    place: str = Field(description="the same place in words")


class Stall(Part):
    """How far the resin cures in this shop."""

    shop_degC: float = Field(description="mean of day and night")
    cured: float = Field(description="1 where it cures through")
    glass_transition_degC: float
    full_glass_transition_degC: float
    keep_below_degC: float = Field(description="warmest use of a piece cured that far")
    text: str


class LeastThickness(Part):
    """The least thickness of one kind that gets hard within a time."""

    form: Literal["layer", "rib"]
    solid_fraction: float = Field(description="volume of glass over volume of the bed; 0 without glass")
    verdict: Literal["any", "from", "none"] = Field(description="which thicknesses get hard in time")
    thickness_m: float = Field(description="the least; what was tried last where none gets hard")
    hard_after_h: float | None
    within_h: float
    text: str


class ThinPlace(Part):
    """Thinnest section of the piece, or shallowest pour of the plan, taken by itself."""

    form: Literal["layer", "rib"]
    pour: int | None
    thickness_m: float
    place_m: Point | None
    hard_after_h: float | None
    text: str


class WarmBox(Part):
    """A plan for warming the closed mold; the data sheet decides."""

    begin: str
    shop_degC: float
    hold_degC: float
    ramp_K_per_h: float
    warm_at: str = Field(description="the air is as warm as it gets")
    lag_h: float | None = Field(description="so much later the coolest place is nearly as warm")
    hold_h: float
    cool_at: str = Field(description="the air begins to cool")
    shop_at: str = Field(description="the air is as cool as the shop again")
    open_at: str = Field(description="the core is near the shop: not before")
    open_within_K: float
    cured_from: float
    cured_to: float
    glass_transition_from_degC: float
    glass_transition_to_degC: float
    without_degC: float = Field(description="glass transition at the planned demolding without a warm box")
    peak_degC: float
    peak_limit_degC: float
    hard_at: str | None = Field(description="all is hard enough to demold, while still warm")
    time_h: list[float] = Field(description="of the two rows below, counted from its begin")
    hottest_degC: list[float]
    coolest_degC: list[float]
    steps: list[str]
    gain: str
    cautions: list[str]


class DampHours(Part):
    """The shop by the full hour, counted from the start of the first pour."""

    time_h: list[float]
    air_degC: list[float]
    humidity: list[float]
    mold_degC: list[float] = Field(description="mean of the cavity's wall, and of the glass in it")
    top_degC: list[float | None] = Field(description="coolest tenth of the top of the pour that is in")
    too_close: list[bool] = Field(description="mold or top too near the dew point, or the air too damp")


class PourDamp(Part):
    """One pour: whether it goes onto dry matter, and whether its top blushes."""

    number: int
    surface_degC: float = Field(description="coolest of what it goes onto, at its start")
    humidity: float = Field(description="of the air at its start")
    dry: bool
    dry_from: str | None
    dry_until: str | None
    warm_to_degC: float
    dry_below: float = Field(description="humidity by day below which it is dry as it is")
    damp_h: float = Field(description="time for which its top is damp while it sets")
    blushes: bool = Field(description="wash and sand before the next pour; the bond window is void")
    text: str
    wash: str


class Damp(Part):
    """Dew point against mold, glass and tops."""

    dew_point_degC: float
    humidity_given: float
    given_at_degC: float
    highest_humidity: float = Field(description="when the shop is coolest")
    margin_K: float
    most_humidity: float
    hours: DampHours
    pours: list[PourDamp]
    text: str


class Soft(Part):
    """Under-cure and damp."""

    places: list[SoftPlace]
    stall: Stall
    least: list[LeastThickness]
    thin: list[ThinPlace]
    warm_box: WarmBox | None
    damp: Damp
    notes: list[str] = Field(default_factory=list)
