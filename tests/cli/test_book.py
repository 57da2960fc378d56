"""`pourwright book` as it is typed."""

import json
from pathlib import Path

import pytest

from tests.app.booking.conftest import write_plan
from tests.cli.test_log import typed


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    write_plan(tmp_path / "shop" / "stool")
    return tmp_path / "shop"


def test_stock_from_buying_to_running_short(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    there = ("--shop", str(shop))
    out = typed(
        capsys, "book", "add", "glass", "", "12 kg", "--colour", "green", "--grade", "coarse", *there
    )[1]
    assert "12.00 kg" in out
    out = typed(capsys, "book", "reserve", str(shop / "stool"))[1]
    assert "Runs short" in out
    assert "first for stool" in out
    assert "−1.00 kg" in typed(capsys, "book", "take", "1", "--used", "1 kg", *there)[1]
    assert "counted" in typed(capsys, "book", "take", "1", "10 kg", "--note", "damp", *there)[1]
    stock = json.loads(typed(capsys, "book", "stock", "--json", *there)[1])
    assert [(one["left"], one["note"]) for one in stock["lots"]] == [(10.0, "damp")]
    assert "10.00 kg" in typed(capsys, "book", "stock", *there)[1]


def test_a_piece_and_the_book_out_and_in(
    shop: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    typed(capsys, "log", str(shop / "stool"), "poured", "2.6 kg")
    out = typed(capsys, "book", "piece", str(shop / "stool"), "--mass", "31 kg")[1]
    assert "Piece 1: Hourglass stool" in out
    assert "31.00 kg" in out
    shown = typed(capsys, "book", "show", "--shop", str(shop))[1]
    assert "1 pours, 1 entries" in shown
    assert "Hourglass stool" in shown
    (tmp_path / "other").mkdir()
    for target in ("book.json", "tables"):
        assert "written to" in typed(capsys, "book", "export", str(tmp_path / target), "--shop", str(shop))[1]
    status, out, _ = typed(
        capsys, "book", "import", str(tmp_path / "tables"), "--shop", str(tmp_path / "other")
    )
    assert (status, "taken in from" in out) == (0, True)
    again = ("book", "import", str(tmp_path / "book.json"), "--shop", str(tmp_path / "other"))
    status, out, err = typed(capsys, *again)
    assert (status, out, err.count("\n")) == (2, "", 1)
    assert "holds something already" in err


def test_card_and_labels_go_to_files(
    shop: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    there = ("--shop", str(shop))
    typed(capsys, "log", str(shop / "stool"), "poured", "2.6 kg")
    typed(capsys, "book", "piece", str(shop / "stool"))
    assert "written to piece-1.pdf" in typed(capsys, "book", "card", "1", *there)[1]
    out = typed(capsys, "book", "labels", "1", "--out", str(tmp_path / "tubs.pdf"), "--json", *there)[1]
    assert json.loads(out) == {"written": str(tmp_path / "tubs.pdf")}
    for name in ("piece-1.pdf", "tubs.pdf"):
        assert (tmp_path / name).read_bytes().startswith(b"%PDF-")
    for wrong in (("card", "2"), ("labels", "9"), ("card", "1", "--out", str(tmp_path))):
        status, out, err = typed(capsys, "book", *wrong, *there)
        assert (status, out, err.count("\n")) == (2, "", 1)


def test_where_there_is_no_book_one_line_says_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for command in ("show", "stock", "labels"):
        status, out, err = typed(capsys, "book", command, "--shop", str(tmp_path))
        assert (status, out, err.count("\n")) == (2, "", 1)
        assert "no book here yet" in err
