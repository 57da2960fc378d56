"""A finished piece, its number and its card; the book at a glance."""

import hashlib
from pathlib import Path

import pytest

from pourwright.app.booking.counting import add_lot
from pourwright.app.booking.finishing import finish_piece, piece_card
from pourwright.app.booking.logging import log_job
from pourwright.app.booking.showing import show_book
from pourwright.foundation.errors import ConflictError, NotThereError, UserError
from pourwright.records import open_book
from tests.records.making import PHOTO
from tests.sheets.sample_plan import sample_plan

EPOXY = sample_plan().piece.casting_material


def test_a_card_tells_what_the_piece_is_made_of(stool: Path, shop: Path, tmp_path: Path) -> None:
    lot = add_lot(shop, "resin", EPOXY, "10 kg", grade="A", name="pail 7", bought="2026-01-05")["lot"]
    (tmp_path / "stool.jpg").write_bytes(PHOTO)
    log_job(stool, ("poured", "2.9 kg"), at="2026-11-02 09:00")
    log_job(stool, ("topped-up", "290 g"), at="2026-11-03 09:00")
    log_job(stool, ("demolded",), at="2026-11-09 09:00")
    card = finish_piece(
        stool, mass="31.4 kg", at="2026-11-10 16:00", photo=tmp_path / "stool.jpg", note="for the show"
    )
    # Berlin in November is an hour ahead of UTC
    assert (card["begun"], card["demolded"], card["finished"]) == (
        "2026-11-02T08:00:00.000Z",
        "2026-11-09T08:00:00.000Z",
        "2026-11-10T15:00:00.000Z",
    )
    assert (card["number"], card["casting"], card["mass_kg"]) == (1, 1, 31.4)
    assert card["poured_kg"] == pytest.approx(3.19)
    assert card["photos"] == [hashlib.sha256(PHOTO).hexdigest()]
    # of 2.9 kg and 0.29 kg, 100 parts in 145 are A
    (used,) = card["lots"]
    assert (used["lot"], used["name"], used["amount"]) == (lot, "pail 7", pytest.approx(2.2))
    with open_book(shop / "book.sqlite") as book:
        assert piece_card(book, 1) == card


def test_each_piece_has_its_own_number(stool: Path) -> None:
    with pytest.raises(NotThereError, match="was not cast"):
        finish_piece(stool)
    for _ in range(2):
        log_job(stool, ("poured", "2.9 kg"))
        log_job(stool, ("demolded",))
    assert finish_piece(stool)["casting"] == 2
    assert finish_piece(stool, casting=1)["number"] == 2
    with pytest.raises(ConflictError, match="has its number already: 1"):
        finish_piece(stool)
    for wrong in ({"mass": "-3 kg"}, {"mass": "3"}, {"casting": 7}, {"photo": Path("nowhere.jpg")}):
        with pytest.raises(UserError):
            finish_piece(stool, **wrong)


def test_the_book_at_a_glance_takes_the_journals_in_first(stool: Path, shop: Path) -> None:
    log_job(stool, ("poured", "2.9 kg"))
    (shop / "book.sqlite").unlink()
    with pytest.raises(NotThereError, match="no book here yet"):
        show_book(shop)
    with open_book(shop / "book.sqlite"):
        pass
    shown = show_book(shop)
    assert shown["taken"] == 1
    assert (shown["rows"]["pours"], shown["rows"]["entries"]) == (1, 1)
    assert [(one["job"], one["castings"]) for one in shown["jobs"]] == [("stool", 1)]
    assert [(one["kind"], one["value"], one["pour"]) for one in shown["recent"]] == [("poured", 2.9, 1)]
    assert [one["casts"] for one in shown["molds"]] == [1]
    assert show_book(shop)["taken"] == 0
