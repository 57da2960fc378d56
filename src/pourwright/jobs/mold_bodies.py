"""Part of the mold's document: every body in the box and around it, with the balance of their volumes."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part, Point


class BodyPart(Part):
    """One kind of body, numbered as in the picture of all parts."""

    number: int
    kind: Literal["rubber", "block", "master", "panel"]
    name: str
    count: int
    size_m: Point = Field(description="of one along x, y, z as poured; of a panel length, width, thickness")
    volume_m3: float = Field(description="of one, from its own mesh")


class Bodies(Part):
    """Volumes, each from its own mesh: rubber, space blocks, master and air fill the box."""

    rubber_m3: float
    blocks_m3: float
    master_m3: float
    air_m3: float = Field(description="between the rubber and the rim of the box")
    box_m3: float = Field(description="inside the panels")
    missing: float = Field(description="share of the box that the others do not add up to")
    rubber_mixed_for_m3: float = Field(
        description="volume that the rubber is weighed out for, allowance apart"
    )
    inside_m: Point = Field(description="inside of the box along x, y, z as poured")
    outside_m: Point
    parts: list[BodyPart]
    warnings: list[str] = Field(default_factory=list)
