"""The mold as a document, `mold.json`: how it is made, what it takes, how the piece comes out."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.mold_air import MoldAir
from pourwright.jobs.mold_blocks import MoldBlocks
from pourwright.jobs.mold_bodies import Bodies
from pourwright.jobs.mold_box import Box
from pourwright.jobs.mold_contact import Contact, RubberBatches
from pourwright.jobs.mold_floats import Floats
from pourwright.jobs.mold_hollow import MoldHollow
from pourwright.jobs.mold_inserts import MoldInserts
from pourwright.jobs.mold_seams import Seams, WaterTest
from pourwright.jobs.mold_way_out import MoldWayOut
from pourwright.jobs.mold_ways import Ways
from pourwright.jobs.told import Told

SCHEMA = "pourwright-mold/1.0"


class MoldSheet(Told):
    """The whole answer about a mold; a part is null where there is nothing to tell."""

    schema_: Literal["pourwright-mold/1.0"] = Field(default="pourwright-mold/1.0", alias="schema")
    ways: Ways | None = Field(default=None, description="every way it can be made, and the one to take")
    blocks: MoldBlocks | None = Field(default=None, description="wood that takes rubber's place")
    bodies: Bodies | None = Field(default=None, description="every body, and what fills the box")
    box: Box | None = Field(default=None, description="how far the box bulges, and what holds it")
    floats: Floats | None = Field(default=None, description="what the rubber lifts, and what holds it")
    contact: Contact | None = Field(default=None, description="whether the rubber sets and lets go")
    rubber: RubberBatches | None = Field(default=None, description="the work of pouring the rubber")
    air: MoldAir | None = Field(default=None, description="air that rubber and casting catch")
    way_out: MoldWayOut | None = Field(default=None, description="how the piece comes out of its rubber")
    seams: Seams | None = Field(default=None, description="which liquid reaches which seam, what is lost")
    water_test: WaterTest | None = Field(default=None, description="the mold filled with measured water")
    hollow: MoldHollow | None = Field(default=None, description="what a core would save, what holds it")
    inserts: MoldInserts | None = Field(default=None, description="null: nothing is set in")
