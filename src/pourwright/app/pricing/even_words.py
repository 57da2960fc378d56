"""When the mold has come back, and the least that the next piece may bring in."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from pourwright.app.pricing.look import Entry
from pourwright.app.pricing.overhead import monthly
from pourwright.app.pricing.quotes import exact
from pourwright.app.pricing.sums import Sums
from pourwright.app.pricing.terms import NOTHING, Deal
from pourwright.costing.even import break_even, months_until
from pourwright.costing.margins import price_for
from pourwright.foundation.notation import format_amount
from pourwright.jobs.cost_price import BreakEven, Least


def least_of(sums: Sums, deal: Deal) -> Least:
    """Leave out what is paid already: the mold, and overhead that runs anyway."""

    def next_one(entry: Entry) -> bool:
        return entry.stage != "mold" and entry.kind != "overhead"

    def bought(entry: Entry) -> bool:
        return next_one(entry) and entry.kind != "work"

    with_hours, without = (
        deal.round(price_for(sums.again(wanted).full, NOTHING, deal.terms)) for wanted in (next_one, bought)
    )
    full = deal.round(price_for(deal.cost, NOTHING, deal.terms))
    money, small, whole = (
        format_amount(each, deal.currency, sums.look.system) for each in (with_hours, without, full)
    )
    return Least(
        money=with_hours,
        without_hours=without,
        full=full,
        left_out=["the mold", "overhead"],
        words=(
            f"The next piece must bring in {money} net with your hours paid, {small} where they are not; "
            f"{whole} pays all and earns nothing. The mold is paid already and overhead runs anyway: left "
            "out of the first two. Sell so once, not as a rule."
        ),
    )


def break_even_of(sums: Sums, deal: Deal, net: Decimal) -> BreakEven:
    """Count pieces and months until the mold has come back, sold directly."""
    a_month = monthly(sums.look)

    def each(entry: Entry) -> bool:
        return entry.stage != "mold" and not (a_month and entry.kind == "overhead")

    variable = sums.again(each).full
    spent = deal.round(sums.mold)
    got = deal.round(deal.terms.got(net))
    even = break_even(spent, got, variable)
    sold = sums.look.quotes.listed.run.per_month
    months = None if sold is None else months_until(spent, got - variable, exact(sold), a_month)
    return BreakEven(
        spent=spent,
        left=got - variable,
        pieces=even.units,
        fetch=even.revenue,
        months=months,
        month_words=_months(months, sold, a_month, deal, sums),
        words=" ".join(_pieces(even.units, spent, got - variable, deal, sums)),
    )


def _pieces(units: int | None, spent: Decimal, left: Decimal, deal: Deal, sums: Sums) -> Iterator[str]:
    mold, each = (format_amount(one, deal.currency, sums.look.system) for one in (spent, left))
    if units is None:
        yield f"The mold, {mold}, never comes back: a piece leaves {each}."
        return
    aside = ", overhead of the month aside" if monthly(sums.look) else ""
    pieces = "1 good piece" if units == 1 else f"{units} good pieces"
    yield f"The mold, {mold}, has come back after {pieces}: each leaves {each}{aside}."
    good = sums.running.life * (1 - sums.running.run.scrap)
    if units > good:
        yield f"One mold gives only about {good:.0f} good ones."


def _months(months: int | None, sold: float | None, a_month: Decimal, deal: Deal, sums: Sums) -> str:
    if sold is None:
        return "Months are told once [run] per_month says how many are sold."
    paid = format_amount(a_month, deal.currency, sums.look.system)
    besides = f", overhead of {paid} a month paid" if a_month else ""
    if months is None:
        return f"With {sold:g} sold in a month it never comes back{besides}."
    return f"With {sold:g} sold in a month that takes {months} month{'' if months == 1 else 's'}{besides}."
