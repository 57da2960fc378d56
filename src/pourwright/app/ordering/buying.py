"""Say what is bought for an order list, when, and what is left over."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any

from pourwright import __version__
from pourwright.app.document.credits import listed
from pourwright.app.document.moments import iso
from pourwright.app.ordering.buying_words import goods_words, notes_of, remarks_of, total_words
from pourwright.app.ordering.look import OrderLook, look_at_orders
from pourwright.app.ordering.market import Sold, market_of, terms_of, unused_offers
from pourwright.app.ordering.needs import Thing, needs_of
from pourwright.app.ordering.orders import inputs_of, warnings_of
from pourwright.app.ordering.shelf import FromShelf, lots_without_part, shares_of, shelf_of
from pourwright.app.pricing.quotes import exact
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import rounded_money
from pourwright.foundation.progress import SILENT, Progress
from pourwright.jobs.buying_sheet import BuyingSheet, FromLot, Goods, Kits, NeededOn, Sent, Totals
from pourwright.line.buying.cheapest import CannotBeThere, cheapest
from pourwright.line.buying.days import days_of_coming, gathered
from pourwright.line.buying.lot_size import economic_lot
from pourwright.line.buying.offers import Bought, Purchase, Wanted
from pourwright.line.buying.stock import Need

YEAR, SHORTEST = 365, 28
"""Days; from a shorter list no use of a year is read."""


@dataclass(frozen=True)
class BuyingReport:
    """A shopping list with its days.

    Parameters
    ----------
    sheet : BuyingSheet
        All that is told.
    """

    sheet: BuyingSheet

    def to_json(self) -> dict[str, Any]:
        """The report as JSON."""
        return self.sheet.model_dump(mode="json", by_alias=True)


@dataclass(frozen=True)
class Shopping:
    """Needs, stock, market and what is bought.

    Parameters
    ----------
    look : OrderLook
        The list.
    castings : int
        That it is enough for.
    things : list of Thing
        All that is needed.
    needs : list of list of Need
        Of each.
    taken : list of list of FromShelf
        Of each.
    short : list of list of Need
        What is missing of each.
    sold : list of Sold
        Offers; their item is a position of ``things``.
    purchase : Purchase
        Cheapest; its offers are those of ``sold``.
    today : date
        Nothing is ordered before.
    unused : tuple of str
        Lots that are not counted, in words.
    """

    look: OrderLook
    castings: int
    things: list[Thing]
    needs: list[list[Need]]
    taken: list[list[FromShelf]]
    short: list[list[Need]]
    sold: list[Sold]
    purchase: Purchase
    today: date
    unused: tuple[str, ...]


def buy_for_orders(path: Path, *, progress: Progress = SILENT, now: datetime | None = None) -> BuyingReport:
    """Say what is bought for the orders of a list.

    Parameters
    ----------
    path : Path
        The order list, `orders.toml`.
    progress : Progress
        Told what is done; may raise Cancelled.
    now : datetime, optional
        Aware; the clock where left out.

    Returns
    -------
    BuyingReport
        Nothing is written, nothing is booked.

    Raises
    ------
    UserError
        For a list, a job or a plan that will not do, and for what no supplier brings in time.
    """
    return BuyingReport(buying_sheet(look_at_orders(path, now or datetime.now(UTC)), progress))


def buying_sheet(look: OrderLook, progress: Progress = SILENT) -> BuyingSheet:
    """Tell the purchase for a list that was looked at, as `buy_for_orders` does."""
    progress.step("dates", 0, 2)
    shopping = _shop(look, progress)
    goods = list(_goods(shopping))
    kits = [_kits(shopping, each) for each in shopping.purchase.bought]
    return BuyingSheet(
        version=__version__,
        computed_for=iso(look.now),
        inputs=inputs_of(look),
        job=look.info(),
        goods=goods,
        kits=kits,
        sent=[
            Sent(supplier=supplier, comes=comes.isoformat(), fee=fee)
            for supplier, comes, fee in shopping.purchase.sent
        ],
        totals=_totals(shopping, kits),
        notes=list(notes_of(look, shopping.castings)),
        warnings=[
            *warnings_of(look),
            *remarks_of(goods, kits, look),
            *unused_offers(look, shopping.things),
            *shopping.unused,
        ],
        sources=listed((), {}),
    )


def _shop(look: OrderLook, progress: Progress) -> Shopping:
    wants, castings = needs_of(look)
    things, needs = list(wants), [sorted(each, key=lambda one: one.day) for each in wants.values()]
    shelf, shares = shelf_of(look), shares_of(look, wants)
    both = [shelf.take(thing, wants[thing], shares.get(thing, (1.0, 0.0))) for thing in things]
    short = [missing for _, missing in both]
    sold = market_of(look, things)
    today = min(look.now.astimezone(look.hours.zone).date(), look.start.date())
    progress.step("the cheapest purchase", 1, 2)
    return Shopping(
        look, castings, things, needs, [taken for taken, _ in both], short, sold,
        _purchase(look, things, short, sold, today), today, tuple(lots_without_part(look, shelf, things)),
    )  # fmt: skip


def _purchase(
    look: OrderLook, things: list[Thing], short: list[list[Need]], sold: list[Sold], today: date
) -> Purchase:
    """What is missing and can be bought; the rest is told as a gap."""
    offered = {one.offer.item for one in sold}
    comes = days_of_coming(need.day for at, each in enumerate(short) if at in offered for need in each)
    needs = [
        gathered(each, comes, _shortest(sold, at)) if at in offered else () for at, each in enumerate(short)
    ]
    wanted = Wanted(today, tuple(needs), tuple(one.offer for one in sold), terms_of(look), comes)
    try:
        return cheapest(wanted)
    except CannotBeThere as late:
        raise _too_late(look, things[late.item], late, sold) from late


def _shortest(sold: Sequence[Sold], item: int) -> int | None:
    keeps = [one.offer.keeps for one in sold if one.offer.item == item and one.offer.keeps is not None]
    return min(keeps, default=None)


def _too_late(look: OrderLook, thing: Thing, late: CannotBeThere, sold: Sequence[Sold]) -> UserError:
    soonest = min((one for one in sold if one.offer.item == late.item), key=lambda one: one.offer.delivery)
    earliest = late.earliest or late.day
    later = (earliest - late.day).days
    return UserError(
        f"{goods_words(thing, look)} is needed on {late.day}, nobody brings it before {earliest}",
        where=f"{look.orders.path}:{soonest.at.rpartition(':')[2]} offer.delivery",
        allowed=f"there by {late.day}",
        todo=f"find who brings it sooner, or let start be {later} day{'s' * (later > 1)} later",
    )


def _goods(shopping: Shopping) -> Iterator[Goods]:
    for at, thing in enumerate(shopping.things):
        bought = [each for each in shopping.purchase.bought if shopping.sold[each.offer].offer.item == at]
        amount = sum(each.kits * shopping.sold[each.offer].offer.kit for each in bought)
        missing = sum(need.amount for need in shopping.short[at])
        offered = any(one.offer.item == at for one in shopping.sold)
        days: dict[date, float] = {}
        for need in shopping.needs[at]:
            days[need.day] = days.get(need.day, 0.0) + need.amount
        yield Goods(
            words=goods_words(thing, shopping.look),
            **thing._asdict(),
            unit="kg" if thing.unit == "kg" else "pieces",
            needed=sum(days.values()),
            needs=[NeededOn(day=day.isoformat(), amount=some) for day, some in days.items()],
            from_stock=[_from_lot(shopping, thing, each) for each in shopping.taken[at]],
            missing=missing,
            bought=amount,
            left_over=max(amount - missing, 0.0) if bought else 0.0,
            gap="" if offered or not missing else f'no price and no offer: write [[offer]] of = "{thing.of}"',
            often=_often(shopping, at),
        )


def _from_lot(shopping: Shopping, thing: Thing, each: FromShelf) -> FromLot:
    lot = each.lot
    expires = lot.expires
    return FromLot(
        lot=lot.id,
        name=lot.name,
        part=lot.grade if thing.of in ("resin", "rubber") else "",
        amount=each.amount,
        expires=None if expires is None else expires.astimezone(shopping.look.hours.zone).date().isoformat(),
    )


def _often(shopping: Shopping, at: int) -> float | None:
    """The economic lot, where the list says what keeping costs and the supplier takes a fee."""
    holding = shopping.look.orders.buying.holding
    bought = [each for each in shopping.purchase.bought if shopping.sold[each.offer].offer.item == at]
    days = [need.day for need in shopping.needs[at]]
    span = (max(days) - min(days)).days
    if not holding or not bought or span < SHORTEST:
        return None
    offer = shopping.sold[bought[0].offer].offer
    fee = terms_of(shopping.look).get(offer.supplier)
    if fee is None or fee.fee <= 0:
        return None
    of_year = exact(sum(need.amount for need in shopping.needs[at])) * YEAR / span
    unit = bought[0].money / bought[0].kits / exact(offer.kit)
    return float(economic_lot(of_year, fee.fee, exact(holding) * unit))


def _kits(shopping: Shopping, bought: Bought) -> Kits:
    sold = shopping.sold[bought.offer]
    offer, thing = sold.offer, shopping.things[sold.offer.item]
    over = bought.kits * offer.kit - bought.used
    goes_off = None if offer.keeps is None else (bought.comes + timedelta(offer.keeps)).isoformat()
    return Kits(
        words=goods_words(thing, shopping.look),
        **thing._asdict(),
        supplier=offer.supplier,
        kits=bought.kits,
        kit=offer.kit,
        unit="kg" if thing.unit == "kg" else "pieces",
        price=bought.money / bought.kits,
        money=rounded_money(bought.money, shopping.look.info().currency),
        order_by=(bought.comes - timedelta(offer.delivery)).isoformat(),
        comes=bought.comes.isoformat(),
        used=bought.used,
        over=max(over, 0.0),
        goes_off=goes_off,
        at=sold.at,
    )


def _totals(shopping: Shopping, kits: Sequence[Kits]) -> Totals:
    """Lines are rounded once, so that they add up."""
    look, purchase = shopping.look, shopping.purchase
    currency = look.info().currency
    fees = sum((fee for *_, fee in purchase.sent), Decimal(0))
    money = rounded_money(sum((each.money for each in kits), fees), currency)
    return Totals(
        money=money,
        currency=currency,
        proven=purchase.proven,
        least=rounded_money(Decimal(repr(purchase.least)), currency),
        castings=shopping.castings,
        words=total_words(look, purchase, money, currency),
    )
