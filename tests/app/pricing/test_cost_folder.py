"""The folder of a cost: price sheet, offer and CSV read back; nothing of the cost is on the offer."""

import csv
import io
import json
import re
import shutil
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path

import openpyxl
import pypdf
import pytest

from pourwright.app import cost_job
from pourwright.app.pricing.pricing import CostReport
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import format_amount
from tests.app.pricing.costed import JOB, NOW, PRICES, plan_document, planned
from tests.cli.asking import asked
from tests.sheets.printed import words_of

SELL = """[sell]
margin = 0.45
gallery = 0.4
point_step = "10 EUR"
point_less = "1 EUR"
[tax]
kind = "VAT"
rate = 0.19
[[item]]
name = "felt feet"
count = 4
price = "0.35 EUR/piece"
[[freight]]
price = "32.50 EUR"
"""
DOCS = Path(__file__).parents[3] / "docs" / "offer.md"
(SHOP,) = re.findall(r"^```toml\n(.*?)^```$", DOCS.read_text("utf8"), re.MULTILINE | re.DOTALL)
POINTS = 72 / 25.4
SENT = PRICES.replace('"items", "freight", ', "")


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> Iterator[CostReport]:
    """One cost with all its files."""
    folder = tmp_path_factory.mktemp("costed")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("POURWRIGHT_CACHE", str(folder / "caches"))
        (folder / "shop.toml").write_text(SHOP, "utf8")
        yield cost_job(planned(folder, SENT + SELL), now=NOW, out=folder / "cost")


def named(report: CostReport, name: str) -> bytes:
    return next(file for file in report.files if file.name == name).read_bytes()


def size_of(pdf: bytes) -> tuple[int, int]:
    """Of the first page [mm]."""
    box = pypdf.PdfReader(io.BytesIO(pdf)).pages[0].mediabox
    return round(float(box.width) / POINTS), round(float(box.height) / POINTS)


def printed(money: Decimal) -> str:
    return format_amount(money, "EUR", "metric", code=False).replace("\u202f", " ")


def test_the_folder_holds_all_of_it(written: CostReport) -> None:
    names = [file.name for file in written.files]
    assert names == ["cost.json", "costs.csv", "costs.xlsx", "offer.pdf", "price-sheet.pdf"]
    told = written.to_json()
    assert told.pop("files") == [str(file) for file in written.files]
    assert json.loads(named(written, "cost.json")) == told


def test_the_table_adds_up_and_is_rfc_4180(written: CostReport) -> None:
    text = named(written, "costs.csv").decode("utf-8-sig")
    assert text.count("\r\n") == text.count("\n")
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    lines = [row for row in rows if row["part"] != "total"]
    total = {row["key"]: Decimal(row["cost"]) for row in rows if row["part"] == "total"}
    assert sum(Decimal(row["cost"]) for row in lines) == total["full"] == written.sheet.totals.full
    cast = [row for row in lines if row["part"] in {"casting", "mold"}]
    assert sum(Decimal(row["cost"]) for row in cast) == total["casting"]
    resin = next(row for row in rows if row["key"] == "resin")
    assert (resin["amount"], resin["price as written"], resin["line"]) == ("5", "10 EUR/kg", "7")


def test_the_price_sheet_has_every_line_with_its_place(written: CostReport) -> None:
    pdf = named(written, "price-sheet.pdf")
    # ISO 216: A4
    assert size_of(pdf) == (210, 297)
    text = " ".join(words_of(pdf))
    sheet = written.sheet
    for line in sheet.lines:
        assert line.money is not None
        assert re.search(f"{re.escape(line.words)}.*? {printed(line.money)}", text), line.key
        if line.price is not None:
            assert f"prices.toml, line {line.price.line}, 2026-11-02" in text
    assert sheet.price is not None
    for way in sheet.price.ways:
        moneys = map(printed, (way.net, way.tax, way.shown, way.got, way.profit))
        assert f"{way.words} {' '.join(moneys)}" in text
    for move in sheet.moves:
        assert f"{move.words} +{move.cost} +{move.price}" in text
    for words in (sheet.price.even.words, sheet.price.least.words, "plan.json, pours[0].resin_kg"):
        assert words in text


def test_the_offer_says_what_a_buyer_must_know(written: CostReport) -> None:
    pdf = named(written, "offer.pdf")
    assert size_of(pdf) == (210, 297)
    (text,) = words_of(pdf)
    plan = plan_document()
    softens = plan["demold"]["glass_transition_degC"]
    for words in (
        "Example Casting", "1 Invented Lane", "Plinth", "280 × 280 × 450 mm", "12.0 kg", "4 felt feet",
        # ten kelvin below the plan's glass transition is common practice
        f"Keep it below {softens - 10:.0f} °C", "What it bears was not reckoned",
        "Packing and sending are in", "Valid until", "Ready in", "Pieces", "VAT, 19 %",
    ):  # fmt: skip
        assert words in text
    offered = written.sheet.price and written.sheet.price.offered
    assert offered
    # the point above: a step of ten less one
    assert str(offered.shown).endswith("9.00")
    assert offered.net + offered.tax == offered.shown
    numbers = re.findall(r"\d+\.\d\d", text)
    assert numbers == [str(offered.net), str(offered.tax), str(offered.shown)]


def test_the_offer_holds_no_cost_figure(written: CostReport) -> None:
    (text,) = words_of(named(written, "offer.pdf"))
    sheet, price = written.sheet, written.sheet.price
    assert price is not None
    secret = {line.money for line in sheet.lines} | {
        sheet.totals.full,
        sheet.totals.casting,
        sheet.totals.mold,
    }
    secret |= {way.profit for way in price.ways} | {way.got for way in price.ways} | {price.least.money}
    assert price.offered is not None
    assert {str(one) for one in secret} & set(text.split()) == set()
    assert not re.search(r"margin|mark-up|cost|profit|overhead|scrap|45 %|20 %|prices\.toml", text)


def test_a_gap_leaves_the_price_of_the_offer_open(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("POURWRIGHT_CACHE", str(tmp_path / "caches"))
    prices = SENT.replace('of = "resin"', 'of = "resin"\nid = "epoxy-fast"') + SELL
    path = planned(tmp_path, prices, 'paper = "letter"\n' + JOB)
    report = cost_job(path, now=NOW, out=tmp_path / "cost")
    (text,) = words_of(named(report, "offer.pdf"))
    assert re.findall(r"\d+\.\d\d", text) == []
    # nobody is named: lines to fill in; letter paper is 8 1/2 by 11 in
    assert "Seller Address" in text
    assert size_of(named(report, "offer.pdf")) == size_of(named(report, "price-sheet.pdf")) == (216, 279)
    assert "leaves its price open" in " ".join(words_of(named(report, "price-sheet.pdf")))


def test_sales_tax_is_told_with_all_its_digits(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("POURWRIGHT_CACHE", str(tmp_path / "caches"))
    prices = PRICES + '[tax]\nkind = "sales tax"\nrate = 0.08875\n[sell]\nmargin = 0.5\nasked = "400 EUR"\n'
    report = cost_job(planned(tmp_path, prices), now=NOW, out=tmp_path / "cost")
    (text,) = words_of(named(report, "offer.pdf"))
    # 400 x 0.08875 is 35.50
    assert "without tax 400.00 EUR Sales tax, 8.875 % 35.50 EUR Price of one, with tax 435.50 EUR" in text


def test_an_offer_of_gypsum_minds_water(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("POURWRIGHT_CACHE", str(tmp_path / "caches"))
    job = JOB.replace("epoxy-slow-deep", "gypsum-casting")
    report = cost_job(planned(tmp_path, PRICES, job), now=NOW, out=tmp_path / "cost")
    (text,) = words_of(named(report, "offer.pdf"))
    assert "gypsum grows soft where it stays wet" in text
    assert "resin" not in text
    # half of 60 mm over half of 40 mm: atan 1.5 is 56 degrees
    assert "leans by 56°" in text


def test_each_variant_has_its_sheet(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("POURWRIGHT_CACHE", str(tmp_path / "caches"))
    path = planned(tmp_path, PRICES, JOB + '[[variant]]\nname = "sea green"\n[[variant]]\nname = "clear"\n')
    for name in ("sea-green", "clear"):
        shutil.copytree(tmp_path / "plan", tmp_path / "plans" / name)
    shutil.rmtree(tmp_path / "plan")
    (tmp_path / "plans").rename(tmp_path / "plan")
    said = asked("cost", str(path), "--out", str(tmp_path / "cost"))
    assert said.exit_code == 0, said.output
    told = json.loads((tmp_path / "cost" / "cost.json").read_text("utf8"))
    assert [one["job"]["variant"] for one in told["costs"]] == ["sea green", "clear"]
    book = openpyxl.load_workbook(tmp_path / "cost" / "costs.xlsx", read_only=True)
    assert book.sheetnames == ["sea green", "clear"]
    for name in ("sea-green", "clear"):
        assert {one.name for one in (tmp_path / "cost" / name).iterdir()} == {"offer.pdf", "price-sheet.pdf"}
    rows = csv.DictReader(io.StringIO((tmp_path / "cost" / "costs.csv").read_text("utf-8-sig"), newline=""))
    assert {row["variant"] for row in rows} == {"sea green", "clear"}
    # one of them alone takes their place
    asked("cost", str(path), "--variant", "clear", "--out", str(tmp_path / "cost"))
    left = {one.name for one in (tmp_path / "cost").iterdir() if one.is_file() or any(one.iterdir())}
    assert left == {"cost.json", "costs.csv", "costs.xlsx", "offer.pdf", "price-sheet.pdf"}


def test_a_folder_of_something_else_stays_as_it_is(tmp_path: Path) -> None:
    path = planned(tmp_path)
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "photo.jpg").write_bytes(b"mine")
    with pytest.raises(UserError, match="the folder for a cost holds other things"):
        cost_job(path, now=NOW, out=tmp_path / "mine")
    assert [one.name for one in (tmp_path / "mine").iterdir()] == ["photo.jpg"]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('[seller]\nname = "Example"\nadress = []\n', r"shop.toml:3 seller.adress"),
        ('[seller]\naddress = ["1 Invented Lane"]\n', r"shop.toml:1 seller.name"),
        ("[seller\n", r"shop.toml"),
    ],
)
def test_a_shop_file_with_errors_says_its_line(tmp_path: Path, text: str, words: str) -> None:
    path = planned(tmp_path)
    (tmp_path / "shop.toml").write_text(text, "utf8")
    with pytest.raises(UserError, match=words):
        cost_job(path, now=NOW, out=tmp_path / "cost")
    assert not (tmp_path / "cost").exists()
