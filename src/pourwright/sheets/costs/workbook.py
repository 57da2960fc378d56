"""A cost as a spreadsheet that goes on reckoning: a sheet for each variant."""

from __future__ import annotations

import io
import re
from collections.abc import Sequence
from datetime import UTC
from decimal import Decimal
from importlib import import_module
from typing import Any

from pourwright.jobs.cost_sheet import CostSheet
from pourwright.sheets.costs.givens import Units, write_prices, write_run, write_terms
from pourwright.sheets.costs.grid import Cell, Grid
from pourwright.sheets.costs.selling import Shop
from pourwright.sheets.costs.sums import write_sums
from pourwright.sheets.costs.table import EXACT, STAGE, Table, write_lines
from pourwright.sheets.wording import Wording, utc

WIDTHS = (46, 14, 15, 12, 12, 14, 14, 14, 40)
FORBIDDEN = re.compile(r"[\[\]:*?/\\\x00-\x1f]")
LONGEST = 31
"""Letters that the name of a sheet may have."""
PAPERS = {"A4": 9, "letter": 1}
"""Numbers of paper sizes in the format."""
RESULTS = 6
"""Rows kept at the top."""


def workbook_of(sheets: Sequence[CostSheet]) -> bytes:
    """Write a workbook; the same costs give the same bytes.

    Parameters
    ----------
    sheets : sequence of CostSheet
        One for each variant.

    Returns
    -------
    bytes
        An Office Open XML workbook (ISO/IEC 29500). Every formula has its value beside it.
    """
    # loaded when a workbook is wanted, for it is a large library
    library = import_module("xlsxwriter")
    page = io.BytesIO()
    book = library.Workbook(page, {"in_memory": True})
    made = utc(sheets[0].computed_for).astimezone(UTC).replace(tzinfo=None)
    book.set_properties({"title": sheets[0].job.title, "created": made})
    names = sheet_names(
        [each.job.title if each.job.variant == "main" else each.job.variant for each in sheets]
    )
    for sheet, name in zip(sheets, names, strict=True):
        _fill(book, book.add_worksheet(name), sheet)
    book.close()
    return page.getvalue()


def sheet_names(told: Sequence[str]) -> list[str]:
    """Name the sheets as the format allows it, each once.

    Parameters
    ----------
    told : sequence of str
        Titles or variants.

    Returns
    -------
    list of str
        31 letters at most, without the marks of a formula, large and small letters taken for the same.

    Examples
    --------
    >>> sheet_names(["clear / green", "A", "a"])
    ['clear   green', 'A', 'a 2']
    """
    found: list[str] = []
    for text in told:
        plain = FORBIDDEN.sub(" ", text).strip(" '")[:LONGEST].strip(" '") or "cost"
        taken = {each.lower() for each in (*found, "history")}
        again = (f"{plain[: LONGEST - 4]} {number}" for number in range(2, 999))
        found.append(next(name for name in (plain, *again) if name.lower() not in taken))
    return found


def _fill(book: Any, page: Any, sheet: CostSheet) -> None:
    grid, units = Grid(book, page, sheet.currency), Units(sheet.job.units)
    for column, width in enumerate(WIDTHS):
        page.set_column(column, column, width)
    page.set_landscape()
    page.set_paper(PAPERS[sheet.job.paper])
    page.fit_to_pages(1, 0)
    grid.row = _head(grid, sheet)
    top = grid.row
    grid.next(RESULTS)
    prices = write_prices(grid, sheet, units)
    run = write_run(grid, sheet.made)
    terms = None if sheet.price is None else write_terms(grid, sheet.price)
    table = write_lines(grid, sheet, prices, run, units)
    mold = _mold(grid, table, run.casts)
    shown = None
    if sheet.price is not None and terms is not None:
        sums = write_sums(grid, table, run, sheet.made, terms["monthly"])
        shown = Shop(grid, sheet.price, terms, sums).write(mold)
    _results(grid, top, table, shown)


def _head(grid: Grid, sheet: CostSheet) -> int:
    words = Wording(sheet.job)
    variant = "" if sheet.job.variant == "main" else f", {sheet.job.variant}"
    grid.words(0, f"{sheet.job.title}{variant}", "title")
    grid.next()
    grid.words(
        0,
        f"Made {words.dated(sheet.computed_for)}, in {sheet.currency}. Change what has a coloured ground: "
        "everything else follows.",
        "note",
    )
    grid.next()
    if sheet.job.invented or sheet.prices.invented:
        grid.words(0, "An example: prices are invented.", "note")
        grid.next()
    grid.next()
    return grid.row


def _mold(grid: Grid, table: Table, casts: Cell) -> Cell:
    """Money of one mold, all of it."""
    moldy = [row for row in table.rows if row.line.stage == "mold"]
    value = sum((row.exact.number for row in moldy), Decimal(0)) * casts.number
    rows, stages = (
        f"{grid.place(column, table.first)}:{grid.place(column, table.last)}" for column in (EXACT, STAGE)
    )
    grid.words(0, "one mold, all of it")
    cell = grid.formula(1, f'SUMIFS({rows},{stages},"mold")*{casts.at}', value, "exact")
    grid.next(2)
    return cell


def _results(grid: Grid, top: int, table: Table, shown: Cell | None) -> None:
    grid.row = top
    for words, cell in (
        ("one casting begun", table.casting),
        ("one good piece costs", table.full),
        ("price shown, sold directly", shown),
    ):
        if cell is not None:
            grid.words(0, words)
            grid.formula(1, cell.at, cell.value)
            grid.next()
    grid.formula(1, table.missing.at, table.missing.value, "right", "note")
