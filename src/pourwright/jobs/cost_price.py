"""What a piece is sold for, and what moves its cost."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from pydantic import Field

from pourwright.jobs.plan_part import Part


class WayToSell(Part):
    """One way of selling, at the price that leaves the margin."""

    way: Literal["direct", "wholesale", "retail", "gallery"]
    words: str
    net: Decimal = Field(description="without tax")
    tax: Decimal
    shown: Decimal = Field(description="as a label says it: VAT is in it, sales tax comes on top")
    got: Decimal = Field(description="what reaches you, on average over firsts and seconds")
    profit: Decimal
    margin: float = Field(description="profit over what it fetches net, a gallery's part taken off")
    markup: float = Field(description="profit over all that it costs, fees in it")


class PricePoint(Part):
    """A price that is easily said, and what it leaves; sold directly."""

    shown: Decimal
    net: Decimal
    profit: Decimal
    margin: float
    words: str


class Least(Part):
    """The least that the next piece may bring in: what is paid already is left out."""

    money: Decimal = Field(description="net, your hours paid")
    without_hours: Decimal = Field(description="net, only what leaves the shop's purse for it")
    full: Decimal = Field(description="net, at which all is paid and nothing earned")
    left_out: list[str]
    words: str


class BreakEven(Part):
    """When what is spent once has come back, sold directly."""

    spent: Decimal = Field(description="once, for the mold")
    left: Decimal = Field(description="of each piece, after all that it costs")
    pieces: int | None = Field(description="null: no number of them pays")
    fetch: Decimal | None = Field(description="what they bring in")
    months: int | None = Field(description="null: never, or nobody said how many are sold in a month")
    month_words: str
    words: str


class SaleTerms(Part):
    """On what terms a piece is sold, as the price list has them."""

    tax_kind: Literal["VAT", "sales tax", ""] = Field(description="empty where the list names no tax")
    tax: float
    fee: float = Field(description="share of what the buyer pays, tax in it")
    fixed: Decimal = Field(description="fee for each sale")
    seconds: float = Field(description="share of the good pieces sold as seconds")
    off: float = Field(description="taken off their price")
    retail: float = Field(description="a dealer's price over what he pays")
    gallery: float | None = Field(description="share that a gallery keeps")
    point_step: Decimal | None
    point_less: Decimal | None
    asked: Decimal | None = Field(description="a price that the maker thinks of, as it is shown")
    per_month: float | None = Field(description="pieces sold in a month")
    monthly: Decimal = Field(description="overhead and tools, paid every month whatever is sold")


class Offered(Part):
    """The price that the offer sheet asks, sold directly."""

    net: Decimal
    tax: Decimal
    shown: Decimal
    words: str = Field(description="which of the prices it is")


class Prices(Part):
    """Prices from a cost and a margin."""

    margin: float
    markup: float
    terms: SaleTerms
    ways: list[WayToSell]
    points: list[PricePoint] = Field(default_factory=list)
    offered: Offered | None = Field(
        default=None, description="null: something is missing in the cost, the price is left open"
    )
    least: Least
    even: BreakEven
    words: list[str] = Field(default_factory=list)


class Move(Part):
    """What one change does to the cost of a good piece, and to the price sold directly."""

    key: str
    words: str
    cost: Decimal
    price: Decimal | None = Field(description="shown price; null where no margin is wanted")
