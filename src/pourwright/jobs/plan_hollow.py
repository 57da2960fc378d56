"""The part of the plan about a core: what it is, what holds it down, what it spares."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part


class CoreLevel(Part):
    """What lifts the core once it is poured up to a level."""

    level_m: float
    force_N: float = Field(description="upwards, less its weight; negative: it still rests on its supports")
    weight_needed_kg: float = Field(description="on the bar, with the safety factor")


class CoreHoldDown(Part):
    """What keeps the core from floating up in what is poured."""

    force_N: float = Field(description="at the worst level, less the core's weight; 0 where it sinks")
    worst_level_m: float
    rises_at_m: float | None = Field(description="level from which it floats; null where it never does")
    safety_factor: float
    weight_needed_kg: float = Field(description="on the bar, with the safety factor")
    levels: list[CoreLevel]


class Hollow(Part):
    """A piece cast hollow: all volumes and masses of the plan are those around the core."""

    wall_m: float = Field(description="least thickness beside and under the core")
    top: Literal["open", "closed"] = Field(description="closed: the wall lies over the core too")
    stays: bool
    material: str
    material_name: str
    core_m3: float
    core_kg: float
    left_out_m3: float = Field(description="deep places that a core hung through the mouth does not reach")
    peak_limit_degC: float | None = Field(description="hottest the core may get; null: no limit of its own")
    solid_kg: float = Field(description="the same piece cast solid")
    hollow_kg: float = Field(description="as planned, with a core that stays")
    resin_saved_kg: float
    money_saved: float | None = Field(description="resin and glass; null: no prices for them")
    currency: str | None
    hold_down: CoreHoldDown
    words: list[str] = Field(description="how it is made ready, hung and held")
