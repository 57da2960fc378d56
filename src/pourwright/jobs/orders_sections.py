"""Tables of an order list: products, orders, who sells what, and who works."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, PlainSerializer, PlainValidator, WithJsonSchema, model_validator

from pourwright.costing.defaults import COSTING
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import parse_quantity
from pourwright.foundation.quantities import Dimension, Quantity
from pourwright.jobs.fields import Colour, Day, Duration, Refused, Share, TimeZone, Title, WorkingHours
from pourwright.jobs.keys import Section, key
from pourwright.jobs.prices_fields import Money, PartShare
from pourwright.jobs.sections import Weekday
from pourwright.line.defaults import LINE

Number = Annotated[int, Field(strict=True, ge=1, le=1000)]
Goods = Literal[
    "resin", "rubber", "glass", "bottle", "insert", "core", "item", "release", "consumables", "packing"
]


def _kit(value: object) -> Quantity | int:
    """What a kit holds: a mass, or a number of pieces."""
    if isinstance(value, int) and not isinstance(value, bool):
        if value < 1:
            raise Refused(f"a kit of {value} pieces", "1 or more", "mend it")
        return value
    if not isinstance(value, str):
        raise Refused(f"{value!r} is no kit", 'a mass, as "12 kg", or a number of pieces', "mend it")
    try:
        mass = parse_quantity(value, Dimension.MASS)
    except UserError as error:
        raise Refused(error.what, error.allowed, error.todo) from None
    if mass.si <= 0:
        raise Refused(f"a kit of {mass.text}", "above 0", "mend it")
    return mass


Kit = Annotated[
    Quantity | int,
    PlainValidator(_kit),
    PlainSerializer(lambda kit: kit if isinstance(kit, int) else kit.text),
    WithJsonSchema({"anyOf": [{"type": "integer", "minimum": 1}, {"type": "string", "examples": ["12 kg"]}]}),
]


def _refuse_below_zero(section: Section, *names: str) -> None:
    for name in names:
        length = getattr(section, name)
        if length is not None and length.si < 0:
            raise Refused(f"{name} of {length.text}", "0 or more", "mend it", name)


def _refuse_nothing(section: Section, *names: str) -> None:
    for name in names:
        money = getattr(section, name)
        if money is not None and money.amount <= 0:
            raise Refused(f"{name} of {money.text}", "above 0", "mend it, or leave the line out", name)


class LineShop(Section):
    """Who works when."""

    people: int = key("that work in the shop at once", default=1, why="most shops", ge=1, le=50)
    time_zone: TimeZone | None = key("IANA name of the time zone", shown="that of the first product's job")
    working_hours: WorkingHours | None = key("when somebody is there", shown="the first product's job's")
    working_days: list[Weekday] | None = key("days somebody is there", shown="the first product's job's")
    days_off: list[Day] | None = key("dates nobody is there", shown="the first product's job's")

    @model_validator(mode="after")
    def _some_day(self) -> Self:
        if self.working_days == []:
            raise Refused("no working days", "mon, tue, wed, thu, fri, sat, sun", "name one", "working_days")
        return self


class Product(Section):
    """What is made: a job with a plan."""

    name: Title = key("as the orders call it")
    job: str = key("folder of the job, from this file's own folder")
    variant: str | None = key("variant of the job", shown="needed where the job has plans of several")
    molds: Number = key("molds that there are, those to be made among them", default=1, why="the first one")
    new_molds: int = key("of them, still to be made: rubber is bought for them", default=0, ge=0, le=1000)
    rest: Duration | None = key("of a mold after each casting", room=LINE["rest"], shown="12 h")
    scrap: PartShare | None = key(
        "share of castings that give no good piece, below 1", room=COSTING["scrap"],
        shown="the price list's, else what the shop's book has learnt, else 0.10",
    )  # fmt: skip
    finishing: Duration | None = key(
        "hours of a person on a piece that is out of its mold",
        shown="as pourwright cost has them",
        why="sanding grit by grit, photos, packing",
    )
    leaves: Money | None = key(
        "what a piece leaves once its own material and hours are paid, the mold not",
        shown="the price list's: what reaches you less what each piece costs",
    )
    mold_price: Money | None = key("of one more mold", shown="the price list's")
    mold_casts: int | None = key(
        "castings it gives", shown="the price list's, else as pourwright mold says", ge=1
    )

    @model_validator(mode="after")
    def _possible(self) -> Self:
        if self.new_molds > self.molds:
            raise Refused(
                f"{self.new_molds} of {self.molds} molds", f"up to {self.molds}", "mend", "new_molds"
            )
        _refuse_below_zero(self, "rest", "finishing")
        _refuse_nothing(self, "mold_price")
        return self


class OrderRow(Section):
    """Pieces that somebody waits for."""

    name: Title = key("whose, or what for")
    product: str = key("name of the product")
    count: Number = key("good pieces")
    by: Day = key("the last day on which they may be ready")


class Price(Section):
    """A lower price for more kits."""

    kits: int = key("from so many bought at once", ge=2, le=100_000)
    price: Money = key("of one kit then")

    @model_validator(mode="after")
    def _something(self) -> Self:
        _refuse_nothing(self, "price")
        return self


class OfferRow(Section):
    """What somebody sells, in kits of one size."""

    of: Goods = key("what it is; item: as named in the price list")
    id: str | None = key("id of the resin or rubber, name of the insert or item", shown="any")
    grade: str | None = key("grade of the glass", shown="any")
    colour: Colour | None = key("colour of glass or bottles", shown="any")
    supplier: Title = key("who sells it", default="a supplier", why="orders are put together by their name")
    kit: Kit = key('what one kit holds, parts A and B together: "12 kg", or a number of pieces')
    price: Money = key("of one kit")
    more: list[Price] = key("lower prices for more kits", factory=list, shown="none")
    fewest: int = key("kits that are sold at once", default=1, ge=1, le=100_000)
    keeps: Duration | None = key("how long a kit keeps from the day it comes", shown="for ever")
    delivery: Duration | None = key("from the order until it is there", shown="no time: fetched")

    @model_validator(mode="after")
    def _possible(self) -> Self:
        _refuse_nothing(self, "price")
        _refuse_below_zero(self, "keeps", "delivery")
        for name in ("keeps", "delivery"):
            length = getattr(self, name)
            if length is not None and name == "keeps" and length.si < DAY:
                raise Refused(f"a kit that keeps {length.text}", "a day or more", "mend it", name)
        steps = [each.kits for each in self.more]
        if steps != sorted(set(steps)):
            raise Refused("prices for more kits that do not grow", "each from more kits", "sort them", "more")
        by_piece = self.of not in {"resin", "rubber", "glass"}
        if by_piece != isinstance(self.kit, int):
            told = self.kit if isinstance(self.kit, int) else self.kit.text
            allowed = "a number of pieces" if by_piece else 'a mass, as "12 kg"'
            raise Refused(f"{self.of} in kits of {told!r}", allowed, "mend the kit", "kit")
        return self


DAY = 86_400


class SupplierRow(Section):
    """On what terms somebody sells."""

    name: Title = key("as the offers call it")
    least: Money | None = key("that an order comes to, sending left out", shown="any order will do")
    fee: Money | None = key("for sending an order", shown="none")


class Buying(Section):
    """How it is bought."""

    holding: Share | None = key(
        "of its price that a thing on the shelf costs in a year: money, room, what goes off",
        shown="none: no lot sizes are told", why="0.15 to 0.30 is common",
    )  # fmt: skip
