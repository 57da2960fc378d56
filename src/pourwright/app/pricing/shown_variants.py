"""All variants side by side as the page shows them: a row for each number, what is not known below."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal

from pourwright.app.pricing.shown_line import Row
from pourwright.app.pricing.there import PlanThere
from pourwright.foundation.notation import format_amount
from pourwright.jobs.cost_variants import Cell, Column, CostVariants, VariantCost
from pourwright.sheets.wording import Wording

MONEY = ("cost", "shown")
DAY = 24.0
GAP = "?"


def shown_variants(sheet: CostVariants, plans: Mapping[str, PlanThere | None]) -> Row:
    """Tell all variants for the page.

    Parameters
    ----------
    sheet : CostVariants
        As the command has it.
    plans : mapping
        What each variant was told from.

    Returns
    -------
    dict
        ``heads`` (a column for each variant), ``rows`` (a number each), ``gaps`` with their reasons,
        ``old`` plans.
    """
    old = {name: plan for name, plan in plans.items() if plan is not None and plan.word}
    return {
        "heads": [
            {
                "name": each.name,
                "made_of": f"{each.material}, {each.surface}",
                "missing": each.gap if each.name in plans and plans[each.name] is None else "",
                "old": each.name in old,
            }
            for each in sheet.variants
        ],
        "rows": [_row(column, sheet) for column in sheet.columns],
        "gaps": [f"{', '.join(whose)}: {why}" for why, whose in _gaps(sheet).items()],
        "old": [f"{name}: {'; '.join([plan.word, *plan.because])}" for name, plan in old.items()],
    }


def _row(column: Column, sheet: CostVariants) -> Row:
    cells = [_cell(column, each) for each in sheet.variants]
    known = {at: value for at, cell in enumerate(cells) if (value := _value(cell)) is not None}
    wanted = (min if column.less_is_better else max)(known.values(), default=None)
    differ = len(set(known.values())) > 1
    code = f", in {sheet.currency}" if column.key in MONEY else ""
    return {
        "words": f"{column.words[:1].upper()}{column.words[1:]}{code}",
        "cells": [
            {"text": _text(cell, sheet), "gap": _is_gap(cell), "best": differ and known.get(at) == wanted}
            for at, cell in enumerate(cells)
        ],
    }


def _cell(column: Column, variant: VariantCost) -> Cell | None:
    return next((cell for cell in variant.cells if cell.key == column.key), None)


def _is_gap(cell: Cell | None) -> bool:
    """Not known, or only in part."""
    return cell is None or bool(cell.gap) or (cell.key == "cost" and bool(cell.words))


def _value(cell: Cell | None) -> float | Decimal | None:
    """What is compared: nothing with a gap in it."""
    if cell is None or _is_gap(cell):
        return None
    return cell.value if cell.money is None else cell.money


def _text(cell: Cell | None, sheet: CostVariants) -> str:
    if cell is None or cell.gap:
        return ""
    words = Wording(sheet.job)
    if cell.money is not None:
        return format_amount(cell.money, sheet.currency, words.system, code=False)
    value = cell.value or 0.0
    said = {
        "days": lambda: words.duration(DAY * value),
        "hours": lambda: f"{value:.1f} h",
        "weight": lambda: words.mass(value),
        "per_month": lambda: f"{value:.1f}",
    }
    return said[cell.key]() if cell.key in said else cell.words.replace(" too hot", "")


def _gaps(sheet: CostVariants) -> dict[str, list[str]]:
    """Every reason once, with all that it is the reason of."""
    found: dict[str, list[str]] = {}
    for each in sheet.variants:
        for why, whose in _missing(each, sheet):
            found.setdefault(why, []).append(whose)
    return found


def _missing(variant: VariantCost, sheet: CostVariants) -> Iterator[tuple[str, str]]:
    if variant.gap:
        yield variant.gap, variant.name
    names: dict[str, str] = {column.key: column.words.partition(",")[0] for column in sheet.columns}
    for cell in variant.cells:
        if cell.gap:
            yield cell.gap, f"{variant.name} ({names[cell.key]})"
        elif _is_gap(cell):
            yield f"the cost is {cell.words}", variant.name
