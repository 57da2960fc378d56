"""What a piece costs and what it is sold for, as a document, `cost.json`; money is text, exact, ISO 4217."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from pydantic import Field

from pourwright.jobs.cost_line import CostLine
from pourwright.jobs.cost_price import Move, Prices
from pourwright.jobs.cost_risk import RiskOfMonth
from pourwright.jobs.plan import JobInfo, SourceUsed
from pourwright.jobs.plan_part import Part

SCHEMA: Literal["pourwright-cost/1.0"] = "pourwright-cost/1.0"
"""Minor versions add keys; a reader refuses a newer major one."""


class PlanUsed(Part):
    """The plan that the amounts are from."""

    file: str = Field(description="empty where it was made or kept apart from the plan folder")
    made: str = Field(description="ISO 8601")
    words: str


class ListUsed(Part):
    """The price list."""

    file: str = Field(description="empty where only the job's own [prices] are there")
    date: str | None
    old_after_days: int
    old_why: str
    invented: bool


class Made(Part):
    """How many are made, and how many fail."""

    casts: float = Field(description="castings that share one mold")
    life: float = Field(description="castings that a mold gives")
    life_from: str
    scrap: float
    scrap_from: str
    starts: float = Field(description="castings begun for one good piece, on average")
    pieces: int | None = Field(description="good ones wanted; null: as many as the mold gives")
    starts_mean: float | None = Field(description="castings begun for all of them, on average")
    starts_p95: int | None = Field(description="that are enough in 95 of 100 such runs")
    molds: int | None
    castings: float | None = Field(
        default=None, description="begun in all, on average; null: as many as the mold gives"
    )
    found_finished: bool = Field(
        default=False, description="whether a fault shows only once a piece is finished"
    )
    learning: float
    begins: int = Field(default=1, description="which piece of its kind the first one is")
    practice_casting: float = Field(default=1.0, description="mean hours of a casting over the first one's")
    practice_piece: float = Field(default=1.0, description="the same for finishing")
    hours: float = Field(description="worked for one good piece, the mold's share and lost castings in it")


class CostTotals(Part):
    """Sums of rounded lines."""

    casting: Decimal = Field(description="one casting begun, its share of the mold in it")
    full: Decimal = Field(description="one good piece")
    mold: Decimal = Field(description="one mold, all of it")
    without: list[str] = Field(description="lines that are in no sum, because a price is missing")


class CostSheet(Part):
    """The whole answer about money."""

    schema_: Literal["pourwright-cost/1.0"] = Field(default=SCHEMA, alias="schema")
    version: str
    computed_for: str
    inputs: dict[str, str] = Field(description="sha256 of each input file")
    job: JobInfo
    currency: str = Field(description="ISO 4217")
    plan: PlanUsed
    prices: ListUsed
    made: Made
    lines: list[CostLine]
    totals: CostTotals
    price: Prices | None = Field(description="null: the price list wants no margin")
    moves: list[Move]
    risk: RiskOfMonth | None = Field(default=None, description="what a month may bring in, where asked for")
    rule: str = Field(description="how it is rounded")
    notes: list[str] = Field(default_factory=list)
    warnings: list[str] = Field(default_factory=list)
    sources: list[SourceUsed] = Field(default_factory=list)
