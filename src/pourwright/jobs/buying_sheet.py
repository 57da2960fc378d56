"""What is bought for an order list, as a document, `pourwright buy --json`; money is text, exact."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from pydantic import Field

from pourwright.jobs.plan import JobInfo, SourceUsed
from pourwright.jobs.plan_part import Part

SCHEMA: Literal["pourwright-buying/1.0"] = "pourwright-buying/1.0"
"""Minor versions add keys; a reader refuses a newer major one."""


class NeededOn(Part):
    """So much of a thing on a day."""

    day: str
    amount: float


class FromLot(Part):
    """So much of a lot of the shop's book."""

    lot: int = Field(description="number on its label")
    name: str
    part: str = Field(description="A or B of a kit; empty: all of it")
    amount: float
    expires: str | None


class Goods(Part):
    """A thing that is needed."""

    words: str
    of: str
    id: str
    grade: str
    colour: str
    unit: Literal["kg", "pieces"]
    needed: float
    needs: list[NeededOn]
    from_stock: list[FromLot] = Field(default_factory=list, description="the first to expire first")
    missing: float = Field(description="that the stock does not have")
    bought: float
    left_over: float = Field(description="of what is bought")
    gap: str = Field(description="why none of it is bought although it is missing; empty: all is bought")
    often: float | None = Field(
        description="amount at a time that costs least in the long run; null: not known"
    )


class Kits(Part):
    """Kits of one offer that come on one day."""

    words: str
    of: str
    id: str
    grade: str
    colour: str
    supplier: str
    kits: int
    kit: float = Field(description="what one holds, in its unit")
    unit: Literal["kg", "pieces"]
    price: Decimal = Field(description="of one kit")
    money: Decimal
    order_by: str
    comes: str
    used: float
    over: float
    goes_off: str | None = Field(description="last day on which the rest can be used; null: it keeps")
    at: str = Field(description="file and line of its offer or price")


class Sent(Part):
    """What a supplier takes for sending."""

    supplier: str
    comes: str
    fee: Decimal


class Totals(Part):
    """What all of it costs."""

    money: Decimal
    currency: str
    proven: bool = Field(description="nothing is cheaper")
    least: Decimal = Field(description="nothing costs less")
    castings: int = Field(description="that it is enough for, failed ones among them")
    words: str


class BuyingSheet(Part):
    """The whole answer about what is bought."""

    schema_: Literal["pourwright-buying/1.0"] = Field(default=SCHEMA, alias="schema")
    version: str
    computed_for: str
    inputs: dict[str, str] = Field(description="sha256 of each input file")
    job: JobInfo = Field(description="title, units and clock of the list")
    goods: list[Goods]
    kits: list[Kits]
    sent: list[Sent]
    totals: Totals
    notes: list[str] = Field(default_factory=list)
    warnings: list[str] = Field(default_factory=list)
    sources: list[SourceUsed] = Field(default_factory=list)
