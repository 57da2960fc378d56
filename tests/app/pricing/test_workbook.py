"""The spreadsheet goes on reckoning: LibreOffice works it out after a change, and so does the tool."""

import csv
import io
import subprocess
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.app import cost_job
from pourwright.jobs.cost_sheet import CostSheet
from pourwright.sheets.costs.table import MISSING
from pourwright.sheets.costs.workbook import sheet_names, workbook_of
from tests.app.pricing.costed import JOB, NOW, PRICES, planned

CELLS = "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1"
"""All sheets, values as they are and not as they are shown."""
MARKED = "FDF3D0"
POUND = Decimal("0.45359237")
ALL = """[fees]
share = 0.05
fixed = "1 EUR"
[tax]
kind = "VAT"
rate = 0.19
[seconds]
share = 0.1
off = 0.3
[run]
pieces = 40
per_month = 2
learning = 0.9
begins = 3
[sell]
margin = 0.3
gallery = 0.4
point_step = "10 EUR"
point_less = "1 EUR"
asked = "300 EUR"
"""
MONTH = PRICES.replace('hour = "5 EUR"', 'month = "400 EUR"\nhours = 90').replace("EUR", "USD")
US = """[tax]
kind = "sales tax"
rate = 0.0825
[sell]
markup = 0.8
[run]
pieces = 21
per_month = 1.5
learning = 0.8
"""
ITEM = '[[item]]\nname = "=cmd()"\nprice = "0.35 EUR/piece"\n'
GAP = PRICES.replace('of = "resin"', 'of = "resin"\nid = "epoxy-fast"').replace("EUR", "JPY")


@dataclass(frozen=True)
class Case:
    """A cost, cells that are changed in its spreadsheet, and the same change in the price list."""

    prices: str
    cells: dict[str, Decimal]
    changed: Callable[[str], str]
    job: str = JOB


CASES = (
    Case(
        PRICES.replace("rate = 0.2", "rate = 0.3") + ALL,
        {"epoxy-slow-deep": Decimal("13.337"), "an hour of work": Decimal("23.5")},
        lambda text: text.replace('"10 EUR/kg"', '"13.337 EUR/kg"').replace('"20 EUR/h"', '"23.5 EUR/h"'),
    ),
    Case(
        PRICES + ALL,
        {
            "share of the castings that fail": Decimal("0.3"),
            "1 where a fault shows only once it is finished": Decimal(1),
            "hours of the 2n-th piece over the n-th": Decimal("0.85"),
        },
        lambda text: text.replace("rate = 0.2", 'rate = 0.3\nfound = "finished"').replace("= 0.9", "= 0.85"),
    ),
    # 1 lb is 0.45359237 kg; 21 / 0.7 are 30, one mold: in binary a hair more
    Case(
        MONTH.replace("rate = 0.2", "rate = 0.3").replace("casts = 20", "casts = 30") + US,
        {"epoxy-slow-deep": Decimal(13) * POUND, "castings that a mold gives": Decimal(7)},
        lambda text: text.replace('"10 USD/kg"', '"13 USD/kg"').replace("casts = 30", "casts = 7"),
        'units = "us"\n' + JOB,
    ),
    # a gap is filled, with coins that have no parts
    Case(
        GAP + "[sell]\nmargin = 0.5\n",
        {"epoxy-slow-deep": Decimal(1700)},
        lambda text: text + '[[price]]\nof = "resin"\nprice = "1700 JPY/kg"\n',
    ),
    Case(
        PRICES,
        {"gloves, cups, brushes and the like": Decimal("4.445")},
        lambda text: text.replace('"3 EUR/piece', '"4.445 EUR/piece'),
    ),
)


@pytest.fixture(autouse=True)
def own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("POURWRIGHT_CACHE", str(tmp_path / "caches"))


def cost(folder: Path, prices: str, job: str) -> CostSheet:
    folder.mkdir()
    return cost_job(planned(folder, prices, job), now=NOW).sheet


def saved(whole: bytes, place: Path, cells: dict[str, Decimal]) -> Path:
    """Change cells by the words beside them, and save without any value, so that all must be worked out."""
    book = openpyxl.load_workbook(io.BytesIO(whole))
    for words, value in cells.items():
        _, cell = next(row for row in book.worksheets[0].iter_rows(max_col=2) if row[0].value == words)
        assert cell.fill.fgColor.rgb.endswith(MARKED), words
        cell.value = float(value)
    book.save(place)
    return place


def worked_out(folder: Path, files: list[Path]) -> dict[str, list[list[str]]]:
    """Rows of every file, by its name."""
    profile = f"-env:UserInstallation={(folder / 'profile').as_uri()}"
    options = ["--headless", "--convert-to", CELLS, "--outdir", str(folder)]
    subprocess.run(["soffice", profile, *options, *map(str, files)], check=True, capture_output=True)
    found = {file.stem: next(folder.glob(f"{file.stem}-*.csv")) for file in files}
    return {name: list(csv.reader(io.StringIO(place.read_text("utf8")))) for name, place in found.items()}


def same(found: str, wanted: object) -> bool:
    """Numbers to a millionth of a cent, words as they are."""
    if isinstance(wanted, int | float | Decimal):
        share = Decimal(100 if found.endswith("%") else 1)
        value, told = Decimal(found.removesuffix("%")) / share, Decimal(str(wanted))
        return abs(value - told) < Decimal("1e-8") * max(1, abs(told))
    return found == (wanted or "")


def totals(sheet: CostSheet) -> Iterator[tuple[str, dict[int, Any]]]:
    """What the tool says: words of the row, then values by column."""
    yield "one casting begun", {1: sheet.totals.casting}
    yield "one good piece costs", {1: sheet.totals.full}
    if sheet.price is None:
        return
    for way in sheet.price.ways:
        told = (way.net, way.tax, way.shown, way.got, way.profit, way.margin, way.markup)
        yield way.words.split(",")[0].split(" that keeps")[0], dict(enumerate(told, 1))
    for point in sheet.price.points:
        yield point.words, {1: point.net, 3: point.shown, 5: point.profit, 6: point.margin}
    least, even = sheet.price.least, sheet.price.even
    yield "for the next piece, hours paid", {1: least.money}
    yield "for the next piece, hours unpaid", {1: least.without_hours}
    yield "at which all is paid and nothing earned", {1: least.full}
    yield "spent once", {1: even.spent}
    yield "left of each piece", {1: even.left}
    yield "good pieces", {1: even.pieces or "never"}
    if sheet.price.terms.per_month is not None:
        yield "months", {1: even.months or "never"}


def test_libre_office_works_out_what_the_tool_says_to_the_cent(tmp_path: Path) -> None:
    files, books, after = [], [], []
    for at, case in enumerate(CASES):
        books.append(workbook_of([cost(tmp_path / f"a{at}", case.prices, case.job)]))
        after.append(cost(tmp_path / f"b{at}", case.changed(case.prices), case.job))
        files += [saved(books[at], tmp_path / f"same{at}.xlsx", {})]
        files += [saved(books[at], tmp_path / f"other{at}.xlsx", case.cells)]
    found = worked_out(tmp_path, files)
    for at, sheet in enumerate(after):
        rows: dict[str, list[str]] = {}
        for row in found[f"other{at}"]:
            rows.setdefault(row[0], row)
        for words, values in totals(sheet):
            for column, value in values.items():
                assert same(rows[words][column], value), (at, words, column, rows[words], value)
    # the word of a gap goes once it is filled
    gaps = [sum(row.count(MISSING) for row in found[f"{name}3"]) for name in ("same", "other")]
    assert gaps == [3, 0]
    for at, book in enumerate(books):
        # the value beside each formula is what the formula gives
        rows = found[f"same{at}"]
        for row in openpyxl.load_workbook(io.BytesIO(book), data_only=True).worksheets[0].iter_rows():
            for cell in row:
                assert same(rows[cell.row - 1][cell.column - 1], cell.value), (at, cell.coordinate)


def test_the_same_cost_gives_the_same_bytes_and_words_are_no_formulas(tmp_path: Path) -> None:
    job = JOB.replace('title = "Plinth"', 'title = "=1+1"')
    sheet = cost(tmp_path / "a", PRICES.replace('"items", ', "") + ITEM, job)
    whole = workbook_of([sheet, sheet])
    assert whole == workbook_of([sheet, sheet])
    first, second = openpyxl.load_workbook(io.BytesIO(whole)).worksheets
    assert (first.title, second.title) == ("=1+1", "=1+1 2")
    told = {cell.value: cell.data_type for (cell,) in first.iter_rows(max_col=1) if cell.value}
    assert {told["=1+1"], told["=cmd()"]} == {"s"}


@settings(max_examples=40)
@given(told=st.lists(st.text(max_size=40), min_size=1, max_size=5))
def test_names_of_sheets_are_what_the_format_allows(told: list[str]) -> None:
    # ECMA-376 leaves them open; every program takes 31 letters without these marks, large like small
    names = sheet_names(told)
    assert len({name.lower() for name in names}) == len(told)
    for name in names:
        assert 1 <= len(name) <= 31
        assert not set("[]:*?/\\") & set(name)
        assert not name.startswith("'")
        assert not name.endswith("'")
