"""Who sells what: the offers of the list, else the price list by the kilogram."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from math import ceil, floor

from pourwright.app.ordering.look import OrderLook
from pourwright.app.ordering.needs import Thing, used_as
from pourwright.app.ordering.product import Made
from pourwright.foundation.errors import UserError
from pourwright.jobs.cost_line import PriceUsed
from pourwright.jobs.orders_sections import OfferRow
from pourwright.line.buying.offers import Offer, Terms

DAY = 86_400.0
LISTED = "the price list"
"""Supplier of what has a price and no offer."""


@dataclass(frozen=True)
class Sold:
    """An offer for a thing, and where it stands.

    Parameters
    ----------
    offer : Offer
        For the program.
    at : str
        File and line.
    by_kilogram : bool
        Taken from a price without a kit: any number of kilograms or pieces.
    """

    offer: Offer
    at: str
    by_kilogram: bool = False


def market_of(look: OrderLook, things: list[Thing]) -> list[Sold]:
    """Find everything that can be bought for the things that are missing."""
    return [sold for item, thing in enumerate(things) for sold in _for_thing(look, item, thing)]


def unused_offers(look: OrderLook, things: list[Thing]) -> Iterator[str]:
    """Offers that nothing on the list takes: a name may be mistyped."""
    for at, row in enumerate(look.orders.offer):
        if not any(_fits(row, thing) for thing in things):
            named = ", ".join(each for each in (row.id, row.grade, row.colour) if each)
            what = f"{row.of} {named}".strip()
            where = f"{look.orders.path.name}:{look.orders.line(('offer', at))}"
            yield f"No piece of this list takes what is offered as {what} ({where}): is its name right?"


def terms_of(look: OrderLook) -> dict[str, Terms]:
    """On what terms the suppliers sell."""
    return {
        row.name: Terms(
            Decimal(0) if row.least is None else row.least.amount,
            Decimal(0) if row.fee is None else row.fee.amount,
        )
        for row in look.orders.supplier
    }


def _for_thing(look: OrderLook, item: int, thing: Thing) -> Iterator[Sold]:
    rows = [(at, row) for at, row in enumerate(look.orders.offer) if _fits(row, thing)]
    for at, row in rows:
        yield Sold(_offer(item, row), f"{look.orders.path.name}:{look.orders.line(('offer', at))}")
    if not rows:
        yield from _listed(look, item, thing)


def _fits(row: OfferRow, thing: Thing) -> bool:
    wanted = (("id", thing.id), ("grade", thing.grade), ("colour", thing.colour))
    return row.of == thing.of and all(getattr(row, name) in (None, value) for name, value in wanted)


def _offer(item: int, row: OfferRow) -> Offer:
    return Offer(
        item=item,
        supplier=row.supplier,
        kit=float(row.kit) if isinstance(row.kit, int) else row.kit.si,
        prices=((1, row.price.amount), *((each.kits, each.price.amount) for each in row.more)),
        fewest=row.fewest,
        keeps=None if row.keeps is None else floor(row.keeps.si / DAY),
        delivery=0 if row.delivery is None else ceil(row.delivery.si / DAY),
    )


def _listed(look: OrderLook, item: int, thing: Thing) -> Iterator[Sold]:
    """A price without a kit, of the first product that has one."""
    for made in look.made:
        used = _price(look, made, thing)
        if used is None or used.money <= 0:
            continue
        currency = made.look.quotes.currency
        if look.orders.currency not in (None, currency):
            raise UserError(
                f"the list is in {look.orders.currency}, the price of {thing.of} in {currency} "
                f"({used.file}:{used.line})",
                where=look.orders.where(("currency",)),
                allowed="one currency for all",
                todo="write an [[offer]] for it, or convert one of the two",
            )
        offer = Offer(item=item, supplier=LISTED, kit=1.0, prices=((1, used.money),))
        yield Sold(offer, f"{used.file}:{used.line}", by_kilogram=True)
        return


def _price(look: OrderLook, made: Made, thing: Thing) -> PriceUsed | None:
    quotes = made.look.quotes
    if thing.of == "item":
        for at, row in enumerate(quotes.listed.item):
            if row.name == thing.id:
                return quotes.used(row.price, row.price.per_si, ("item", at, "price"), row.date)
        return None
    used = used_as(look, thing)
    density = None if used is None or used.density is None else used.density[1]
    unit = "kg" if thing.unit == "kg" else "piece"
    named = (thing.id or None, thing.grade or None, thing.colour or None)
    return quotes.of(thing.of, unit, density=density, id=named[0], grade=named[1], colour=named[2])
