"""All variants of a job side by side, as a document: what `pourwright cost --all --json` prints."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from pydantic import Field

from pourwright.jobs.cost_line import Trace
from pourwright.jobs.cost_sheet import CostSheet, ListUsed
from pourwright.jobs.plan import JobInfo
from pourwright.jobs.plan_part import Part

VARIANTS_SCHEMA: Literal["pourwright-cost-variants/1.0"] = "pourwright-cost-variants/1.0"


class Column(Part):
    """What is compared."""

    key: Literal["cost", "shown", "margin", "days", "hours", "weight", "over_limit", "per_month"]
    words: str
    unit: str = Field(description="h, kg, day or piece; empty for money and shares")
    less_is_better: bool


class Cell(Part):
    """One number of one variant, and what it comes from."""

    key: str = Field(description="of its column")
    value: float | None = Field(default=None, description="null where it is money, or not known")
    money: Decimal | None = Field(default=None, description="null where it is none, or not known")
    words: str = ""
    made_of: list[Trace] = Field(
        default_factory=list, description="`cost`: a key of this variant's cost; `plan`: of its plan.json"
    )
    gap: str = Field(default="", description="why it is not known, and what to do; empty where it is")


class VariantCost(Part):
    """One variant: a line of the table, and its whole cost behind it."""

    name: str
    material: str
    surface: Literal["raw", "satin", "polished"]
    cells: list[Cell] = Field(description="in the order of the columns; empty where nothing is known")
    cost: CostSheet | None = Field(description="null where it cannot be planned or priced")
    gap: str = Field(default="", description="why it cannot; empty where it can")


class CostVariants(Part):
    """Every variant of a job, at the same prices."""

    schema_: Literal["pourwright-cost-variants/1.0"] = Field(default=VARIANTS_SCHEMA, alias="schema")
    version: str
    computed_for: str
    job: JobInfo
    currency: str = Field(description="ISO 4217")
    prices: ListUsed
    columns: list[Column]
    variants: list[VariantCost]
    notes: list[str] = Field(default_factory=list)
    warnings: list[str] = Field(default_factory=list, description="said of every variant alike")
