"""What is set into a casting, as plan and mold tell it."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part, Point


class Insert(Part):
    """One insert in its place, as poured."""

    name: str
    kind: Literal["socket", "tube", "light"]
    face: str = Field(description="from which it goes in, as poured")
    from_m: Point = Field(description="middle of its outer end")
    to_m: Point = Field(description="middle of its inner end")
    diameter_m: float
    depth_m: float
    ends: Literal["casting", "core", "face"] = Field(description="what its inner end lies in")
    edge_m: float = Field(description="from its axis to the nearest face beside it")
    edge_needed_m: float = Field(description="what that must be at least")
    beside_core: bool = Field(description="that face is the core's")
    beyond_m: float = Field(description="casting behind its end; 0 where it goes through")
    volume_m3: float = Field(description="not taken off the fill")
    mass_kg: float
    force_N: float = Field(description="upwards once drowned, less its weight; negative: it sinks")
    weight_needed_kg: float = Field(description="that keeps it down, with the safety factor")
    most_heat_W: float | None = Field(description="of a light: what the casting alone leads away")
    held: str = Field(description="how it is held while it is poured")
    sealed: str = Field(description="how resin is kept out of it")
