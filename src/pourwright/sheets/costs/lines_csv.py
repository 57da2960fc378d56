"""The lines of a cost as CSV."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pourwright.jobs.cost_line import CostLine
from pourwright.jobs.cost_sheet import CostSheet
from pourwright.sheets.costs.givens import Units
from pourwright.sheets.tables import Row, rows_text

HEADS = (
    "variant", "part", "key", "what", "amount", "unit", "price for one", "currency", "castings that share it",
    "cost", "unrounded", "price as written", "file", "line", "date", "missing",
)  # fmt: skip


def costs_csv(sheets: Sequence[CostSheet]) -> bytes:
    """Write every line and total (RFC 4180).

    Parameters
    ----------
    sheets : sequence of CostSheet
        One for each variant.

    Returns
    -------
    bytes
        UTF-8 with the mark that tells a spreadsheet so; a head, then a row for each line; totals are of
        the part ``total``. Numbers have a point, money is exact.
    """
    rows = [HEADS, *(row for sheet in sheets for row in _rows(sheet))]
    return rows_text(rows).encode("utf-8-sig")


def _rows(sheet: CostSheet) -> Iterator[Row]:
    units, variant = Units(sheet.job.units), sheet.job.variant
    for line in sheet.lines:
        part = "lost" if line.key == "scrap" else line.stage
        yield [variant, part, line.key, line.words, *_numbers(line, sheet, units), *_from(line), line.gap]
    totals = {"casting": "one casting begun", "full": "one good piece", "mold": "one mold, all of it"}
    for key, words in totals.items():
        money = str(getattr(sheet.totals, key))
        yield [variant, "total", key, words, None, None, None, sheet.currency, None, money, *[None] * 6]


def _numbers(line: CostLine, sheet: CostSheet, units: Units) -> list[str | float | None]:
    amount = units.amount(line.amount, line.unit)
    price = None if line.price is None else units.price(line.price.money, line.unit)
    return [
        None if amount is None else f"{float(amount):.9g}",
        units.name(line.unit) or None,
        None if price is None else f"{float(price):.9g}",
        sheet.currency,
        f"{line.shared:.9g}",
        None if line.money is None else str(line.money),
        None if line.exact is None else f"{line.exact:.6f}",
    ]


def _from(line: CostLine) -> list[str | int | None]:
    used = line.price
    return [None] * 4 if used is None else [used.text, used.file, used.line, used.date]
