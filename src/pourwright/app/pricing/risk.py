"""What a month may bring in: many months drawn by chance, told for the maker."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

from pourwright.app.pricing.month import Spread, month_of_sums, spreads_of
from pourwright.app.pricing.sums import Sums
from pourwright.app.pricing.terms import Deal, deal_of
from pourwright.costing.risk.month import Month, Parts
from pourwright.costing.risk.months import Months
from pourwright.costing.risk.three_points import ThreePoints
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import format_amount
from pourwright.jobs.cost_risk import RiskBar, RiskInput, RiskMatters, RiskOfMonth, RiskWhatIf

WORDS = {
    "demand": "orders", "scrap": "castings that fail", "leaks": "leaks", "hours": "hours of work",
    "resin": "price of resin", "cast": "price of what is cast", "rubber": "price of rubber",
    "bought": "prices of all else", "used": "resin and glass used", "paid": "what a buyer pays",
}  # fmt: skip
BARS = 12
LEAST = 0.005
"""What brings less of the spread is not told."""
LESS_WORK, DEARER = 0.75, 1.1


def risk_of(sums: Sums) -> RiskOfMonth:
    """Weigh a month.

    Raises
    ------
    UserError
        Where nobody said how many are sold in a month, or at which margin.
    """
    listed = sums.look.quotes.listed
    if listed.run.per_month is None or listed.sell is None:
        missing = "[run] per_month" if listed.run.per_month is None else "[sell] margin"
        what = "how many are sold in a month" if listed.run.per_month is None else "what margin is wanted"
        raise UserError(
            f"nobody said {what}", where=str(listed.path), todo=f"write {missing} into the price list"
        )
    deal, spreads = deal_of(sums, listed.sell), spreads_of(sums)
    month = month_of_sums(sums, deal, spreads)
    drawn = Months(month, sums.look.job.seed)
    low, middle, high = (_money(each, deal) for each in drawn.band)
    return RiskOfMonth(
        orders=month.orders,
        most=None if month.most == float("inf") else month.most,
        planned=_money(month.planned, deal),
        mean=_money(drawn.mean, deal),
        mean_error=_money(drawn.mean_error, deal),
        p10=low,
        p50=middle,
        p90=high,
        loses=drawn.loses,
        months=drawn.count,
        seed=drawn.seed,
        law=listed.risk.law,
        inputs=list(_inputs(spreads, month)),
        matters=list(_matters(drawn)),
        bars=list(_bars(drawn, deal)),
        what_ifs=list(_what_ifs(drawn, deal)),
        words=list(_words(drawn, deal, sums)),
    )


def _money(money: float, deal: Deal) -> Decimal:
    return deal.round(Decimal(repr(money)))


def _inputs(spreads: dict[str, Spread], month: Month) -> Iterator[RiskInput]:
    for key, spread in spreads.items():
        points = spread.points
        yield RiskInput(
            key=key, words=WORDS[key], low=points.low, likely=points.likely, high=points.high,
            mean=points.mean, where=spread.where,
        )  # fmt: skip
    chance = month.leak.chance
    words = "leaks, among the castings that fail"
    yield RiskInput(
        key="leaks", words=words, low=chance, likely=chance, high=chance, mean=chance, where="[risk] leaks"
    )


def _matters(drawn: Months) -> Iterator[RiskMatters]:
    for name, (alone, total) in drawn.matters().items():
        if total > LEAST:
            yield RiskMatters(key=name, words=WORDS[name], alone=alone, total=total)


def _bars(drawn: Months, deal: Deal) -> Iterator[RiskBar]:
    shares, edges = drawn.heights(BARS)
    for at, share in enumerate(shares.tolist()):
        yield RiskBar(
            low=_money(float(edges[at]), deal), high=_money(float(edges[at + 1]), deal), share=share
        )


def _what_ifs(drawn: Months, deal: Deal) -> Iterator[RiskWhatIf]:
    """The same months with one thing changed."""
    for words, month in _changes(drawn.month):
        changed = replace(drawn, month=month)
        mean, before = (_money(each.mean, deal) for each in (changed, drawn))
        yield RiskWhatIf(words=words, mean=mean, change=mean - before, loses=changed.loses)


def _changes(month: Month) -> Iterator[tuple[str, Month]]:
    scrap = month.scrap
    if scrap.high > 0:
        half = ThreePoints(scrap.low / 2, scrap.likely / 2, scrap.high / 2, scrap.law)
        yield "half as many castings fail", replace(month, scrap=half)
    less = replace(month, casting=_less_work(month.casting), piece=_less_work(month.piece))
    yield "a quarter fewer hours", less
    more = (month.fetch + month.kept) * DEARER - month.kept
    yield "a price 10 % higher, and as many are ordered", replace(month, fetch=more)
    yield "one more ordered in a month", replace(month, orders=month.orders + 1)
    if month.most < 2 * month.orders:
        yield "a mold and hands for twice as many castings", replace(month, most=2 * month.most)


def _less_work(parts: Parts) -> Parts:
    return replace(parts, work=LESS_WORK * parts.work)


def _words(drawn: Months, deal: Deal, sums: Sums) -> Iterator[str]:
    low, middle, high = (
        format_amount(_money(each, deal), deal.currency, sums.look.system) for each in drawn.band
    )
    month = drawn.month
    yield f"Half of all months bring more than {middle}; eight of ten lie between {low} and {high}."
    yield f"Of 100 months {100 * drawn.loses:.0f} lose money."
    if month.orders > month.most * (1 - month.scrap.likely):
        yield (
            f"{month.orders:g} are ordered in a month, and {month.most:.1f} castings can be begun: what "
            "cannot be made is not sold. Write [risk] most where there are more molds or hands."
        )
    if month.monthly:
        paid = format_amount(_money(month.monthly, deal), deal.currency, sums.look.system)
        yield f"Overhead of {paid} is paid every month, whatever is sold; a mold is paid as it is used up."
    if sums.missing:
        yield f"Without what is not in the cost: {', '.join(sums.missing)}."
