"""How many, and by when, as a document, `pourwright orders --json`; money is text, exact, ISO 4217."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from pydantic import Field

from pourwright.jobs.plan import JobInfo, SourceUsed
from pourwright.jobs.plan_part import Part

SCHEMA: Literal["pourwright-orders/1.0"] = "pourwright-orders/1.0"
"""Minor versions add keys; a reader refuses a newer major one."""


class StepHours(Part):
    """Hours of one person for a step."""

    key: str = Field(description="as under [work] of the price list")
    words: str
    each: Literal["casting", "piece"] = Field(description="for every casting begun, or every good piece")
    hours_h: float


class MonthRate(Part):
    """Good pieces a month from so many molds and people."""

    molds: int
    people: int
    pieces: float
    by_molds: float = Field(description="what the molds alone let through")
    by_people: float = Field(description="what the people alone let through")
    bottleneck: Literal["mold", "people"]


class MoreMold(Part):
    """What one mold more brings; money in the currency of the list."""

    added_pieces: float = Field(description="good ones in a month")
    added_money: Decimal = Field(description="in a month, before the mold's own price")
    price: Decimal
    months: int | None = Field(description="until its price has come back; null: never")
    life_months: Decimal = Field(description="until it is worn out; 0: it adds nothing")
    earned: Decimal = Field(description="over its life, its price paid")
    pays: bool
    words: str


class LineProduct(Part):
    """A product on the line, alone: pieces a month."""

    name: str
    job: str
    variant: str
    plan_made: str = Field(description="ISO 8601, when its plan was made")
    molds: int
    mold_kept_h: float = Field(description="first pour until the mold has rested, at best")
    mold_cycle_h: float = Field(description="from one first pour to the next, nights and days off in it")
    rest_h: float
    scrap: float
    scrap_from: str
    hours: list[StepHours]
    hours_per_good_h: float = Field(description="of a person for one good piece, failed castings in it")
    month_hours_h: float = Field(description="that one person works in a month")
    rates: list[MonthRate]
    more_mold: MoreMold | None = Field(description="null: price or what a piece leaves is not known")
    words: list[str]


class Remedy(Part):
    """What would make an order ready in time."""

    molds: int = Field(description="more than there are")
    people: int = Field(description="more than there are")
    promised: str | None = Field(description="date that could be promised then; null: none in sight")
    in_time: float = Field(description="share of the months in which the wanted day holds then")
    does: bool
    words: str


class OrderDates(Part):
    """An order with its dates."""

    name: str
    product: str
    count: int
    by: str = Field(description="wanted day")
    ready: str = Field(description="day on which all is ready if every casting comes out good")
    promised: str | None = Field(description="day that holds often enough; null: none in sight")
    holds: float = Field(description="share of the simulated months in which the promised day holds")
    in_time: float = Field(description="share of them in which the wanted day holds")
    late: bool = Field(description="the wanted day does not hold often enough")
    remedies: list[Remedy] = Field(default_factory=list)
    words: str


class PieceDates(Part):
    """One piece, as thought: every casting comes out good."""

    order: str
    product: str
    number: int
    poured: str = Field(description="ISO 8601, half day of its first pour")
    out: str = Field(description="half day in which it is taken out")
    ready: str = Field(description="day on which it is finished")


class Dates(Part):
    """All dates, and how good they are."""

    start: str = Field(description="ISO 8601")
    people: int
    kept: float = Field(description="how often a promised day has to hold")
    months: int = Field(description="simulated")
    pieces: list[PieceDates]
    late_half_days: float = Field(description="pieces late, summed over half days")
    proven: bool = Field(description="no dates are better altogether")
    gap: float = Field(description="by how much they might still be better, as a share")
    words: list[str]


class OrdersSheet(Part):
    """The whole answer about dates."""

    schema_: Literal["pourwright-orders/1.0"] = Field(default=SCHEMA, alias="schema")
    version: str
    computed_for: str
    inputs: dict[str, str] = Field(description="sha256 of each input file")
    job: JobInfo = Field(description="title, units and clock of the list")
    products: list[LineProduct]
    orders: list[OrderDates]
    dates: Dates
    notes: list[str] = Field(default_factory=list)
    warnings: list[str] = Field(default_factory=list)
    sources: list[SourceUsed] = Field(default_factory=list)
