"""What a piece is sold for: the margin wanted, fees, tax, dealer and gallery, and the least of all prices."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from pourwright.app.pricing.even_words import break_even_of, least_of
from pourwright.app.pricing.overhead import monthly
from pourwright.app.pricing.quotes import exact
from pourwright.app.pricing.sums import Sums
from pourwright.app.pricing.terms import Deal, deal_of
from pourwright.costing.margins import Terms, margin_at, markup_from_margin, price_for, price_points
from pourwright.foundation.notation import format_share
from pourwright.jobs.cost_price import Offered, PricePoint, Prices, SaleTerms, WayToSell
from pourwright.jobs.prices_sections import Sell

NOTHING = Decimal(0)
ABOVE, ASKED = "the point above", "the price you think of"


@dataclass(frozen=True)
class _Way:
    way: str
    words: str
    net: Decimal
    terms: Terms
    gets: Decimal | None = None


def prices_part(sums: Sums) -> Prices | None:
    """Every price; None where the list wants no margin."""
    sell = sums.look.quotes.listed.sell
    if sell is None:
        return None
    deal = deal_of(sums, sell)
    ways = [_told(one, deal) for one in _ways(deal, sell)]
    points = list(_points(deal, sell))
    return Prices(
        margin=float(deal.margin),
        markup=float(markup_from_margin(deal.margin)),
        terms=_terms_told(deal, sums, sell),
        ways=ways,
        points=points,
        offered=None if sums.missing else _offered(ways[0], points, deal),
        least=least_of(sums, deal),
        even=break_even_of(sums, deal, ways[0].net),
        words=list(_words(deal, sums)),
    )


def _terms_told(deal: Deal, sums: Sums, sell: Sell) -> SaleTerms:
    listed, terms = sums.look.quotes.listed, deal.terms
    points = {name: getattr(sell, name) for name in ("point_step", "point_less", "asked")}
    return SaleTerms(
        tax_kind="" if listed.tax is None else listed.tax.kind,
        tax=float(terms.tax),
        fee=float(terms.fee),
        fixed=terms.fixed,
        seconds=float(terms.seconds),
        off=float(terms.off),
        retail=sell.retail,
        gallery=sell.gallery,
        per_month=listed.run.per_month,
        monthly=monthly(sums.look),
        **{name: None if price is None else price.amount for name, price in points.items()},
    )


def _ways(deal: Deal, sell: Sell) -> Iterator[_Way]:
    plain = Terms(tax=deal.terms.tax, seconds=deal.terms.seconds, off=deal.terms.off)
    yield _Way("direct", "you to the buyer", price_for(deal.cost, deal.margin, deal.terms), deal.terms)
    dealer = price_for(deal.cost, deal.margin, plain)
    yield _Way("wholesale", "you to a dealer", dealer, plain)
    retail = f"a dealer to the buyer, {sell.retail:g} times what he pays"
    yield _Way("retail", retail, dealer * exact(sell.retail), plain, gets=dealer)
    if sell.gallery is not None:
        terms = Terms(tax=plain.tax, seconds=plain.seconds, off=plain.off, commission=exact(sell.gallery))
        words = f"through a gallery that keeps {format_share(sell.gallery)}"
        yield _Way("gallery", words, price_for(deal.cost, deal.margin, terms), terms)


def _told(one: _Way, deal: Deal) -> WayToSell:
    net = deal.round(one.net)
    tax = deal.round(net * one.terms.tax)
    got = one.terms.got(net) if one.gets is None else one.gets * one.terms.fetched
    fetched = net * one.terms.fetched * (1 - one.terms.commission) if one.gets is None else got
    profit = deal.round(got) - deal.cost
    return WayToSell(
        way=one.way,  # type: ignore[arg-type]  # the four that _ways names
        words=one.words,
        net=net,
        tax=tax,
        shown=net + tax if deal.tax_shown else net,
        got=deal.round(got),
        profit=profit,
        margin=float(round(profit / fetched, 4)),
        markup=float(round(profit / (fetched - profit), 4)) if fetched > profit else 0.0,
    )


def _points(deal: Deal, sell: Sell) -> Iterator[PricePoint]:
    """Price points around the price sold directly, and the price that the maker thinks of."""
    wanted = deal.shown(price_for(deal.cost, deal.margin, deal.terms))
    if sell.point_step is not None:
        less = NOTHING if sell.point_less is None else sell.point_less.amount
        below, above = price_points(wanted, sell.point_step.amount, less)
        if below > 0:
            yield _point(below, "the point below", deal)
        yield _point(above, ABOVE, deal)
    if sell.asked is not None and sell.asked.amount > 0:
        yield _point(sell.asked.amount, ASKED, deal)


def _point(shown: Decimal, words: str, deal: Deal) -> PricePoint:
    net = deal.round(deal.terms.net_of(shown)) if deal.tax_shown else shown
    return PricePoint(
        shown=deal.round(shown),
        net=net,
        profit=deal.round(deal.terms.got(net)) - deal.cost,
        margin=float(round(margin_at(net, deal.cost, deal.terms), 4)),
        words=words,
    )


def _offered(direct: WayToSell, points: list[PricePoint], deal: Deal) -> Offered:
    """The price that the maker thinks of, else the price point above, else the one that leaves the margin."""
    told = {point.words: point for point in points}
    point = told.get(ASKED) or told.get(ABOVE)
    if point is None:
        return Offered(
            net=direct.net, tax=direct.tax, shown=direct.shown, words="the price that leaves the margin"
        )
    tax = point.shown - point.net if deal.tax_shown else deal.round(point.net * deal.terms.tax)
    return Offered(net=point.net, tax=tax, shown=point.shown, words=point.words)


def _words(deal: Deal, sums: Sums) -> Iterator[str]:
    yield (
        f"A margin of {format_share(float(deal.margin))} of the price is a mark-up of "
        f"{format_share(float(markup_from_margin(deal.margin)))} on the cost."
    )
    if deal.terms.seconds:
        yield (
            f"{format_share(float(deal.terms.seconds))} of the good pieces are sold "
            f"{format_share(float(deal.terms.off))} cheaper, so a piece fetches "
            f"{format_share(float(deal.terms.fetched), digits=1)} of its price on average; the margin is "
            "kept over all."
        )
    if sums.missing:
        yield "All prices are too low by what is not in the cost."
