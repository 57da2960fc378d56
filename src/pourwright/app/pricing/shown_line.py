"""A line of cost as the page opens it: the amount and where it stands, the price and where it stands."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import datetime
from decimal import Decimal
from typing import Any

from pourwright.app.pricing.shown_numbers import Told, decimals
from pourwright.costing.lines import SCRAP
from pourwright.foundation.notation import format_day
from pourwright.jobs.cost_line import CostLine, PriceUsed, Trace

Row = dict[str, Any]
FILES = {"plan": "plan.json", "fill": "fill.json", "mold": "mold.json", "material": "material"}
STEPS = {"plan": "pour", "fill": "fill", "mold": "mold"}
"""Where the job's page shows what a document says."""
EACH = {"mold": "one for each mold", "casting": "one for each casting", "piece": "one for each good piece"}
_IN_COST = re.compile(r"^lines\[(?P<key>.+)\]\.amount$")


def shown_line(line: CostLine, told: Told) -> Row:
    """Tell a line.

    Parameters
    ----------
    line : CostLine
        Of the cost.
    told : Told
        Says numbers.

    Returns
    -------
    dict
        ``id``, ``words``, ``amount``, ``price``, ``old`` and ``money`` as they stand closed; ``head`` and
        ``made_of`` (the amount), ``at`` (the price), ``reckoned`` and ``gap`` once it is opened.
    """
    used = line.price
    amount = "" if line.amount is None else told.amount(line.amount, line.unit)
    return {
        "id": told.anchors[line.key],
        "words": line.words,
        "amount": amount,
        "price": "" if used is None else used.text,
        "old": used is not None and used.old,
        "money": None if line.money is None else told.money(line.money),
        "head": _head(line, amount),
        "made_of": list(_amounts(line, told)),
        "at": None if used is None else _price(used, told),
        "reckoned": list(_reckoned(line, told)),
        "gap": line.gap,
    }


def _head(line: CostLine, amount: str) -> str:
    """What stands over the numbers of an amount: not the amount itself where they are of another kind."""
    alike = all(trace.unit == line.unit for trace in line.made_of)
    return f"The amount: {amount}" if alike and amount else "What it is told from"


def _amounts(line: CostLine, told: Told) -> Iterator[Row]:
    yield from (_made_of(trace, told) for trace in line.made_of)
    if line.key == SCRAP:
        place = told.place(told.sheet.made.scrap_from)
        share = told.words.share(told.sheet.made.scrap)
        yield {"words": "castings that fail", "value": share, "step": ""} | place
    elif line.amount is not None and not line.made_of:
        yield {"words": EACH[line.stage], "value": "", "step": "", "text": "", "to": ""}


def _made_of(trace: Trace, told: Told) -> Row:
    said = {"words": trace.words, "value": told.fine(trace.value, trace.unit), "step": ""}
    if trace.where == "prices":
        return said | told.place(trace.path)
    if trace.where == "practice":
        name = trace.path.removeprefix("shop ").replace("_", " ")
        return said | {"text": f"common practice, no source: {name}", "to": ""}
    if trace.where == "cost":
        found = _IN_COST.match(trace.path)
        to = "" if found is None else told.anchors.get(found["key"], "")
        return said | {"text": "its line on this page", "to": f"#{to}" if to else ""}
    step = STEPS.get(trace.where, "")
    return said | {"text": f"{FILES[trace.where]}, {trace.path}", "to": "", "step": step}


def _price(used: PriceUsed, told: Told) -> Row:
    turned = "for a volume, turned into a price by weight with the density above" if used.by_volume else ""
    if used.by_sheet:
        turned = "for a whole sheet, turned into a price by area with its size above"
    return {
        "text": used.text,
        "place": told.place(f"{used.file}:{used.line}"),
        "dated": _dated(used, told),
        "old": used.old,
        "note": used.note,
        "turned": turned,
    }


def _dated(used: PriceUsed, told: Told) -> str:
    if used.date is None or used.age_days is None:
        return "no date beside it"
    day = datetime.fromisoformat(used.date)
    said = f"of {format_day(day)} {day.year}"
    if used.age_days < 0:
        return f"{said}, which lies ahead"
    age = f"{said}, {used.age_days} day{'' if used.age_days == 1 else 's'} old"
    return f"{age}, over {told.sheet.prices.old_after_days}: ask again" if used.old else age


def _reckoned(line: CostLine, told: Told) -> Iterator[str]:
    """Amount times price with all decimals, so that it can be checked by hand."""
    if line.exact is None or line.money is None:
        return
    if line.price is None or line.amount is None:
        yield _by_run(line, told)
        return
    product = f"{told.exact(line.amount, line.unit)} × {told.rate(line.price.money, line.unit)}"
    if line.stage != "mold":
        yield f"{product} = {told.rounded(line.exact)}"
        return
    castings = Decimal(repr(line.shared))
    yield f"{product} = {told.rounded(line.exact * castings)} for one mold"
    yield f"Shared by {decimals(castings)} castings: {told.rounded(line.exact)}"


def _by_run(line: CostLine, told: Told) -> str:
    """A line that is no amount times a price: what fails, or what practice takes off."""
    made = told.sheet.made
    if line.key == SCRAP:
        return (
            f"{made.starts:.3f} castings are begun for one good piece. What the failed ones cost, their "
            f"share of the mold in it, stands here: {told.rounded(line.exact or Decimal(0))}"
        )
    return (
        f"Twice as many pieces made, and one takes {told.words.share(made.learning)} of the hours. The plan "
        f"has the hours of the first one; what the run takes less on average comes off: "
        f"{told.rounded(line.exact or Decimal(0))}"
    )
