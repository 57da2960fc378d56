"""Pieces a month of every product, what stands in the way of more, and whether a second mold pays."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from math import inf
from typing import Literal

from pourwright.app.ordering.look import OrderLook
from pourwright.app.ordering.product import Made
from pourwright.app.pricing.hours import HOURS
from pourwright.app.pricing.quotes import exact
from pourwright.app.pricing.running import scrap_of
from pourwright.app.pricing.selling import prices_part
from pourwright.app.pricing.sums import sums_of
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import format_amount, format_duration
from pourwright.jobs.orders_sheet import LineProduct, MonthRate, MoreMold, StepHours
from pourwright.line.capacity.rate import MoldTime, Rate, mold_time, rate, working_hours
from pourwright.line.capacity.second import SecondMold, second_mold
from pourwright.line.dates.castings import Castings

MOST_MOLDS, MOST_PEOPLE = 3, 2
BOTTLENECK = {"mold": "the molds", "people": "the people"}


def products_part(look: OrderLook) -> Iterator[LineProduct]:
    """Tell every product as if it were made alone."""
    for at, made in enumerate(look.made):
        castings = look.line.castings[at]
        time = mold_time(castings)
        rates = list(_rates(look, castings, time))
        yield LineProduct(
            name=made.row.name,
            job=made.row.job,
            variant=made.plan.job.variant,
            plan_made=made.plan.computed_for,
            molds=made.row.molds,
            mold_kept_h=time.kept,
            mold_cycle_h=time.cycle,
            rest_h=castings.route.rest,
            scrap=castings.route.scrap,
            scrap_from=_scrap_from(look, at, made),
            hours=list(_hours(look, at)),
            hours_per_good_h=castings.route.work,
            month_hours_h=working_hours(castings),
            rates=[
                MonthRate(
                    molds=one.molds, people=one.people, pieces=one.pieces, by_molds=one.by_molds,
                    by_people=one.by_people, bottleneck=one.bottleneck,
                )
                for one in rates
            ],
            more_mold=_more_mold(look, at, castings, time),
            words=list(_words(look, castings, time, rates)),
        )  # fmt: skip


def _rates(look: OrderLook, castings: Castings, time: MoldTime) -> Iterator[Rate]:
    molds = {*range(1, MOST_MOLDS + 1), castings.route.molds, castings.route.molds + 1}
    people = {*range(1, MOST_PEOPLE + 1), look.orders.shop.people}
    for number in sorted(molds):
        yield from (rate(castings, time, number, some) for some in sorted(people))


def _hours(look: OrderLook, at: int) -> Iterator[StepHours]:
    own = look.made[at].row.finishing
    for entry in look.entries[at]:
        each: Literal["casting", "piece"] = "piece" if entry.stage == "piece" else "casting"
        if own is None or each == "casting":
            key = entry.key.removeprefix(HOURS)
            yield StepHours(key=key, words=entry.words, each=each, hours_h=float(entry.amount or 0))
    if own is not None:
        yield StepHours(
            key="finishing", words="finishing, as the list has it", each="piece", hours_h=own.si / 3600
        )


def _scrap_from(look: OrderLook, at: int, made: Made) -> str:
    if made.row.scrap is None:
        return scrap_of(made.look)[1]
    return look.orders.where(("product", at, "scrap"))


def _words(look: OrderLook, castings: Castings, time: MoldTime, rates: list[Rate]) -> Iterator[str]:
    route, people = castings.route, look.orders.shop.people
    now = next(one for one in rates if (one.molds, one.people) == (route.molds, people))
    kept, cycle = format_duration(time.kept * 3600), format_duration(time.cycle * 3600)
    yield (
        f"A casting keeps its mold {kept}; with nights and days off the next one begins after {cycle} on "
        "average."
    )
    by_mold = now.bottleneck == "mold"
    other, limit = (now.by_people, "people") if by_mold else (now.by_molds, "molds")
    yield (
        f"Made alone, {route.molds} mold{'s' * (route.molds > 1)} and {people} "
        f"{'person' if people == 1 else 'people'} give {now.pieces:.1f} good pieces a month: "
        f"{BOTTLENECK[now.bottleneck]} stand in the way of more, the {limit} would manage {other:.1f}."
    )


def _more_mold(look: OrderLook, at: int, castings: Castings, time: MoldTime) -> MoreMold | None:
    """Weigh one mold more, where its price and what a piece leaves are known."""
    known = _money(look, at)
    if known is None:
        return None
    price, left, casts, currency = known
    people = look.orders.shop.people
    now, more = (rate(castings, time, castings.route.molds + extra, people) for extra in (0, 1))
    sold = _sold(look, at)
    added = max(min(more.pieces, sold) - min(now.pieces, sold), 0.0)
    good = exact(casts * (1.0 - castings.route.scrap))
    found = second_mold(price, left, exact(round(added, 6)), max(good, Decimal(1)))
    cent = Decimal("0.01")
    return MoreMold(
        added_pieces=added,
        added_money=found.added.quantize(cent),
        price=price,
        months=found.months,
        life_months=found.life.quantize(Decimal("0.1")),
        earned=found.earned.quantize(cent),
        pays=found.pays,
        words=_no_more(now, sold)
        if added <= 0
        else _mold_words(look, (added, min(sold, more.pieces)), found, price, currency),
    )


def _sold(look: OrderLook, at: int) -> float:
    """Pieces that are sold in a month, where the price list says so."""
    told = look.made[at].look.quotes.listed.run.per_month
    return inf if told is None else told


def _no_more(now: Rate, sold: float) -> str:
    if sold <= now.pieces:
        return f"One mold more does not pay: {sold:g} pieces are sold in a month, as the price list has it."
    return "One mold more adds nothing: the people stand in the way."


def _mold_words(
    look: OrderLook, pieces: tuple[float, float], found: SecondMold, price: Decimal, currency: str
) -> str:
    """Pieces that are added, and how many that makes in a month."""
    cost = format_amount(price, currency, look.system)
    added, of = pieces
    begin = f"With one mold more {of:.1f} good pieces a month are made and sold, {added:.1f} more"
    if found.months is None or not found.pays:
        return f"{begin}; it is worn out after {found.life:.0f} months and does not bring back its {cost}."
    brings = format_amount(found.earned, currency, look.system)
    unit = "month" if found.months == 1 else "months"
    back = f"its {cost} are back after {found.months} {unit}"
    return f"{begin}; {back}, over its {found.life:.0f} months it earns {brings}."


def _money(look: OrderLook, at: int) -> tuple[Decimal, Decimal, float, str] | None:
    """Price of a mold, what a piece leaves, castings of a mold, currency."""
    made = look.made[at]
    row = made.row
    price = None if row.mold_price is None else row.mold_price.amount
    left = None if row.leaves is None else row.leaves.amount
    casts: float | None = row.mold_casts
    if made.priced and None in (price, left, casts):
        sums = sums_of(made.look)
        _refuse_mixed(look, at, made.look.quotes.currency)
        told = prices_part(sums)
        price = sums.mold.quantize(sums.cost.full) if price is None else price
        left = told.even.left if left is None and told is not None else left
        casts = float(sums.running.life) if casts is None else casts
    if price is None or left is None or price <= 0:
        return None
    casts = float(made.look.planned.way[1].casts) if casts is None else casts
    return price, left, casts, look.orders.currency or made.look.quotes.currency


def _refuse_mixed(look: OrderLook, at: int, currency: str) -> None:
    if look.orders.currency not in (None, currency):
        raise UserError(
            f"the list is in {look.orders.currency}, the prices of {look.made[at].row.name} in {currency}",
            where=look.orders.where(("currency",)),
            allowed="one currency for all",
            todo="convert one of the two, and note rate and day",
        )
