"""Everything wooden of a job as a document, `cut.json`: parts, sheets they come from, steps."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from pourwright.jobs.cut_nested import NestedBar, NestedSheet
from pourwright.jobs.cut_part import CutPart
from pourwright.jobs.plan_part import Part
from pourwright.jobs.told import Told

SCHEMA = "pourwright-cut/1.0"


class CutMaster(Part):
    """The master as it is glued up from boards."""

    kind: Literal["stacked", "sliced"] = Field(description="sawn to size, or sawn larger and sanded down")
    board: str
    board_m: float = Field(description="thickness of the board")
    layers_m: list[tuple[float, float]] = Field(description="lower and upper face of each, from below")
    sand_m: float = Field(description="deepest step that is left to sand, straight inward")
    sand_layer: str = Field(description="mark of the part that has it; empty: none")
    glue_m2: float = Field(description="of all glue lines")
    mass_kg: float = Field(description="of the finished master")
    sawn_kg: float = Field(description="of its parts as they are sawn")
    seal_m2: float = Field(description="surface that meets rubber")
    sealed: str = Field(description="coats against the rubber, and whether it lets go of them")
    words: list[str] = Field(default_factory=list)
    warnings: list[str] = Field(default_factory=list)


class CutList(Part):
    """Every part, as it is pencilled."""

    parts: list[CutPart]
    mass_kg: float = Field(description="of all of them, finished")
    words: list[str] = Field(default_factory=list)
    warnings: list[str] = Field(default_factory=list)
    cautions: list[str] = Field(default_factory=list)


class CutPlan(Part):
    """Where each part comes from."""

    sheets: list[NestedSheet] = Field(default_factory=list)
    bars: list[NestedBar] = Field(default_factory=list)
    words: list[str] = Field(default_factory=list)
    warnings: list[str] = Field(default_factory=list)


class CutStep(Part):
    """One step of putting it together."""

    number: int
    title: str
    marks: list[str] = Field(default_factory=list, description="parts that come in")
    text: str


class CutAssembly(Part):
    """How the parts come together, and what is checked before any rubber is mixed."""

    steps: list[CutStep]
    checks: list[str]
    pictures: dict[str, str] = Field(
        default_factory=dict, description="drawings of where things sit, by name, with what they show"
    )


class CutSheet(Told):
    """The whole answer about what is sawn."""

    schema_: Literal["pourwright-cut/1.0"] = Field(default="pourwright-cut/1.0", alias="schema")
    master: CutMaster | None = Field(default=None, description="null: it is no work for boards")
    list: CutList = Field(description="everything wooden")
    plan: CutPlan = Field(description="on the sheets and bars of the shop")
    assembly: CutAssembly = Field(description="of box and blocks around the master")
