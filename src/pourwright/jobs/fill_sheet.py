"""The fill as a document, `fill.json`: what goes into the mold, how much of it, in which order."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.fill_bands import BandsTold
from pourwright.jobs.fill_batches import Batches
from pourwright.jobs.fill_bottles import CrushedGlass
from pourwright.jobs.fill_cube import TestCube
from pourwright.jobs.fill_mineral import Mineral
from pourwright.jobs.fill_setting_heat import SettingHeat
from pourwright.jobs.fill_shrinks import Shrinks
from pourwright.jobs.fill_voids import GlassVoids
from pourwright.jobs.fill_ways import Filling
from pourwright.jobs.plan import Fill
from pourwright.jobs.told import Told

SCHEMA = "pourwright-fill/1.0"


class FillSheet(Told):
    """The whole answer about a fill; a part is null where there is nothing to tell."""

    schema_: Literal["pourwright-fill/1.0"] = Field(default="pourwright-fill/1.0", alias="schema")
    bands: BandsTold | None = Field(
        default=None, description="what is missing and what moves; null: no bands"
    )
    batches: Batches | None = Field(default=None, description="how the resin is weighed and mixed")
    bottles: CrushedGlass | None = Field(default=None, description="from bottles to crushed glass")
    cube: TestCube | None = Field(default=None, description="a small cube of the bands, poured first")
    filling: Filling | None = Field(default=None, description="over dry glass, or glass stirred in first")
    laid: Fill | None = Field(default=None, description="bands, glass and resin; null: mixed with water")
    mineral: Mineral | None = Field(default=None, description="gypsum or concrete; null: a resin")
    setting_heat: SettingHeat | None = Field(default=None, description="its heat run; null: not asked for")
    voids: GlassVoids | None = Field(default=None, description="room that the grains leave")
    shrinks: Shrinks | None = Field(default=None, description="what shrinks, sinks, is planed and sanded")
