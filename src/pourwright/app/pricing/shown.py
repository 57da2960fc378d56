"""A cost as the page shows it: lines by stage with their sums, prices, what moves them, in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from decimal import Decimal

from pourwright.app.pricing.shown_line import Row, shown_line
from pourwright.app.pricing.shown_numbers import Told
from pourwright.costing.lines import SCRAP
from pourwright.jobs.cost_line import CostLine
from pourwright.jobs.cost_price import Prices
from pourwright.jobs.cost_sheet import CostSheet

GAP = "?"
LABEL = {"VAT": "VAT in it", "sales tax": "sales tax comes on top at the till", "": "the list names no tax"}
CASTING, GOOD = "One casting begun", "One good piece"


def shown_cost(sheet: CostSheet, listed: str = "") -> Row:
    """Tell a cost for the page.

    Parameters
    ----------
    sheet : CostSheet
        The cost.
    listed : str
        Name of the price list whose lines the page shows; empty where it shows none.

    Returns
    -------
    dict
        In words and in the maker's units.
    """
    told = Told(sheet, listed)
    return {
        "currency": sheet.currency,
        "full": _total(told, sheet.totals.full),
        "plan": f"{sheet.plan.words[:1].upper()}{sheet.plan.words[1:]}",
        "made": told.words.dated(sheet.plan.made),
        "invented": sheet.prices.invented,
        "from_job": not sheet.prices.file,
        "groups": list(_groups(told)),
        "without": sheet.totals.without,
        "run": list(_run(told)),
        "price": None if sheet.price is None else _prices(sheet.price, told),
        "moves": list(_moves(told)),
        "notes": [sheet.rule, *sheet.notes],
        "warnings": sheet.warnings,
        "sources": [f"{one.used_for}: {one.citation}" for one in sheet.sources],
    }


def _total(told: Told, money: Decimal) -> str:
    """A sum; none of nothing."""
    known = any(line.money is not None for line in told.sheet.lines)
    return told.money(money) if known else GAP


def _groups(told: Told) -> Iterator[Row]:
    """Into one casting, the mold, once it is good; a sum below the second and the last."""
    sheet = told.sheet
    late = [line for line in sheet.lines if _is_late(line)]
    cast = {
        stage: [line for line in sheet.lines if line.stage == stage and not _is_late(line)]
        for stage in ("casting", "mold")
    }
    yield _group("Into one casting", cast["casting"], told)
    casts = f"{round(sheet.made.casts, 1):g}"
    mold = f"The mold, {_total(told, sheet.totals.mold)} in all, shared by {casts} castings"
    yield _group(mold, cast["mold"], told, (CASTING, sheet.totals.casting))
    yield _group("Once it is good", late, told, (GOOD, sheet.totals.full))


def _is_late(line: CostLine) -> bool:
    return line.stage == "piece" or line.key == SCRAP


def _group(
    title: str, lines: Iterable[CostLine], told: Told, total: tuple[str, Decimal] | None = None
) -> Row:
    summed = None if total is None else {"words": total[0], "money": _total(told, total[1])}
    return {"title": title, "lines": [shown_line(line, told) for line in lines], "total": summed}


def _run(told: Told) -> Iterator[str]:
    made = told.sheet.made
    yield f"{made.hours:.1f} h of work for one good piece, its share of the mold and of lost castings in it."
    if made.pieces:
        pieces = f"{made.pieces} good piece{'' if made.pieces == 1 else 's'}"
        molds = f"{made.molds} mold{'' if made.molds == 1 else 's'}"
        starts = f"{made.starts_mean:.1f} castings on average, {made.starts_p95} to be sure 95 times in 100"
        yield f"For {pieces}: {starts}, {molds}."


def _prices(price: Prices, told: Told) -> Row:
    return {
        "shown": told.money(price.ways[0].shown, code=True),
        "margin": _percent(price.margin),
        "profit": told.money(price.ways[0].profit, code=True),
        "words": [*price.words, *_label(price, told)],
        "ways": [
            {
                "words": way.words,
                **{name: told.money(getattr(way, name)) for name in ("net", "tax", "shown", "got", "profit")},
                "margin": _percent(way.margin),
                "markup": _percent(way.markup),
            }
            for way in price.ways
        ],
        "points": [
            {
                "words": point.words,
                **{name: told.money(getattr(point, name)) for name in ("net", "shown", "profit")},
                "margin": _percent(point.margin),
            }
            for point in price.points
        ],
        "even": [price.even.words, price.even.month_words],
        "least": price.least.words,
    }


def _label(price: Prices, told: Told) -> Iterator[str]:
    """What a label says, and what the offer asks."""
    yield f"Shown is what stands on the label: {LABEL[price.terms.tax_kind]}."
    if price.offered is not None:
        asks = told.money(price.offered.shown, code=True)
        yield f"The offer sheet (pourwright cost JOB --out FOLDER) asks {asks}: {price.offered.words}."


def _percent(share: float) -> str:
    return f"{100 * share:.1f} %"


def _moves(told: Told) -> Iterator[Row]:
    """Each with the length of its bar, in per cent of the longest."""
    moves = told.sheet.moves
    longest = max((abs(move.cost) for move in moves), default=Decimal(0))
    for move in moves:
        yield {
            "words": move.words,
            "cost": told.signed(move.cost),
            "price": "" if move.price is None else told.signed(move.price),
            "bar": f"{100 * abs(move.cost) / longest:.1f}" if longest else "0",
        }
