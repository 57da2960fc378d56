"""Rent and the like, and tools, spread over the hours worked."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal

from pourwright.app.pricing.look import CostLook, Entry
from pourwright.app.pricing.quotes import exact
from pourwright.costing.even import capital_recovery
from pourwright.costing.lines import Stage
from pourwright.foundation.notation import format_amount
from pourwright.foundation.quantities import Price
from pourwright.jobs.cost_line import PriceUsed, Trace

WORDS: dict[Stage, str] = {
    "mold": "overhead of making the mold",
    "casting": "overhead of casting",
    "piece": "overhead of finishing",
}
GAP = 'no amount: write [overhead] hour, or month with hours; or without = ["overhead"]'


def overheads(look: CostLook, work: Sequence[Entry]) -> Iterator[Entry]:
    """Overhead of all hours, for each stage."""
    if "overhead" in look.quotes.listed.without:
        return
    price = overhead_price(look)
    for stage, words in WORDS.items():
        entries = [entry for entry in work if entry.stage == stage and entry.amount is not None]
        hours = sum((entry.amount for entry in entries if entry.amount is not None), Decimal(0))
        made_of = tuple(_summed(entry) for entry in entries)
        if hours:
            yield Entry(f"overhead-{stage}", stage, words, "h", made_of, hours, price, GAP, kind="overhead")


def _summed(entry: Entry) -> Trace:
    hours = float(entry.amount or 0)
    return Trace(where="cost", path=f"lines[{entry.key}].amount", words=entry.words, value=hours, unit="h")


def overhead_price(look: CostLook) -> PriceUsed | None:
    """Overhead of an hour, tools in it."""
    overhead = look.quotes.listed.overhead
    if overhead is None:
        return None
    name = "month" if overhead.hour is None else "hour"
    money: Price = getattr(overhead, name)
    hours = None if overhead.hours is None else exact(overhead.hours)
    each = money.amount if name == "hour" or hours is None else money.amount / hours
    note = "" if name == "hour" else f"{money.text} a month over {overhead.hours:g} h"
    tools = tools_a_month(look)
    if tools and hours is not None:
        each += tools / hours
        note += f"{', ' if note else ''}tools {_told(tools, look)} a month"
    used = look.quotes.used(money, each, ("overhead", name), note=note)
    return used.model_copy(update={"text": f"{_told(each, look)}/h"})


def _told(money: Decimal, look: CostLook) -> str:
    return format_amount(money, look.quotes.currency, look.system)


def tools_a_month(look: CostLook) -> Decimal:
    """What all tools have to bring back in a month."""
    return sum(
        (
            tool.price.amount * capital_recovery(exact(tool.interest), exact(tool.years)) / 12
            for tool in look.quotes.listed.tool
        ),
        Decimal(0),
    )


def monthly(look: CostLook) -> Decimal:
    """What is paid every month whatever is made; 0 where overhead is told by the hour."""
    overhead = look.quotes.listed.overhead
    if overhead is None or overhead.month is None:
        return Decimal(0)
    return overhead.month.amount + tools_a_month(look)
