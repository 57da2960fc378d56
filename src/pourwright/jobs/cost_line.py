"""One line of a cost: an amount from the plan times a price from the list, and where both stand."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part


class Trace(Part):
    """One number that an amount was made from."""

    where: Literal["plan", "fill", "mold", "prices", "material", "practice", "cost"] = Field(
        description="plan.json, fill.json, mold.json; price list; a material; common practice; a line here"
    )
    path: str = Field(description="key in that document; file and line in a price list")
    words: str
    value: float
    unit: str


class PriceUsed(Part):
    """The price that an amount was multiplied with."""

    text: str = Field(description="as it is written; an hour's overhead as it follows")
    money: Decimal = Field(description="for one unit of the line")
    file: str
    line: int
    date: str | None = Field(description="ISO 8601; null where the file has none")
    age_days: int | None
    old: bool
    note: str = ""
    by_volume: bool = Field(default=False, description="turned into a price by mass with the density")
    by_sheet: bool = Field(default=False, description="turned into a price by area with the sheet's size")


class CostLine(Part):
    """What one thing puts on one casting begun, or on one good piece."""

    key: str
    stage: Literal["mold", "casting", "piece"] = Field(
        description="paid once for a mold, for every casting begun, or for every good piece"
    )
    words: str
    amount: float | None = Field(description="once for its stage; null where it is no amount times a price")
    unit: str = Field(description="kg, h, m2, kWh or piece")
    shared: float = Field(default=1.0, description="castings that share it; 1 unless it is of the mold")
    made_of: list[Trace] = Field(default_factory=list, description="all that the amount comes from")
    price: PriceUsed | None = None
    exact: Decimal | None = Field(description="unrounded; null where a price or an amount is missing")
    money: Decimal | None = Field(description="rounded to the smallest coin: lines add up to the totals")
    gap: str = Field(default="", description="what is missing, and what to write; empty where nothing is")
