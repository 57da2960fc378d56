"""The part of the mold's document about what is set into the casting."""

from __future__ import annotations

from pydantic import Field

from pourwright.jobs.plan_inserts import Insert
from pourwright.jobs.plan_part import Part


class MoldInserts(Part):
    """Sockets, tubes and lights: place, edge, seal, what lifts them."""

    inserts: list[Insert]
    safety_factor: float = Field(description="on what lifts them")
    words: list[str]
    warnings: list[str]
    cautions: list[str]
