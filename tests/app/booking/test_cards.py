"""The card of a finished piece, what it warns of, labels for tubs: as the page and the paper show them."""

import io
from pathlib import Path

import pytest
from PIL import Image

from pourwright.app.booking.cards import piece_pdf, piece_told, pieces_told
from pourwright.app.booking.caring import care_of
from pourwright.app.booking.casting_log import casting_told
from pourwright.app.booking.counting import add_lot, take_lot
from pourwright.app.booking.finishing import change_card, finish_piece
from pourwright.app.booking.labelling import label_of, labels_of
from pourwright.app.booking.logging import log_job
from pourwright.app.booking.photos import keep_photo_file
from pourwright.app.papering.pages import page_count
from pourwright.foundation.errors import NotThereError, UserError
from pourwright.records import lot_by_id, open_book
from tests.records.making import PHOTO
from tests.sheets.sample_plan import sample_plan

EPOXY = sample_plan().piece.casting_material


@pytest.fixture
def cast(stool: Path, shop: Path) -> Path:
    """A stool that is out of its mold, cast from a pail that is on stock."""
    add_lot(shop, "resin", EPOXY, "10 kg", grade="A", name="pail 7", bought="2026-01-05")
    log_job(stool, ("poured", "2.9 kg"), at="2026-11-02 09:00")
    log_job(stool, ("demolded",), at="2026-11-09 09:00")
    return stool


def test_a_piece_waits_for_its_number_until_it_has_it(shop: Path, cast: Path) -> None:
    assert [(one["job"], one["casting"]) for one in pieces_told(shop)["waiting"]] == [("stool", 1)]
    finish_piece(cast, mass="31.4 kg", at="2026-11-10 16:00", note="for the show")
    told = pieces_told(shop)
    assert told["waiting"] == []
    assert [(one["number"], one["mass"], one["day"], one["note"]) for one in told["pieces"]] == [
        (1, "31.40 kg", "Tue 10 Nov 2026", "for the show")
    ]
    assert told["older"] is None
    assert pieces_told(shop, below=1)["pieces"] == []
    assert casting_told(shop, "stool")["state"] == "finished, piece 1"


def test_a_card_is_told_in_words(shop: Path, cast: Path) -> None:
    finish_piece(cast, mass="31.4 kg", at="2026-11-10 16:00")
    told = piece_told(shop, 1)
    assert (told["begun_on"], told["demolded_on"], told["finished_on"]) == (
        "Mon 2 Nov 2026",
        "Mon 9 Nov 2026",
        "Tue 10 Nov 2026",
    )
    # of 2.9 kg, 100 parts in 145 are A
    assert [(one["name"], one["amount_shown"]) for one in told["lots"]] == [("pail 7", "2.00 kg")]
    assert (told["mass"], told["poured"], told["glass"]) == ("31.40 kg", "2.90 kg", "")
    assert [one["word"] for one in told["care"]][:4] == ["Heat", "Sun", "Load", "Weight"]


def test_glass_is_told_as_the_stock_gave_it(shop: Path, stool: Path) -> None:
    add_lot(shop, "glass", "bottles", "100 kg", colour="green", grade="coarse", bought="2026-01-05")
    log_job(stool, ("poured", "2.9 kg"), at="2026-11-02 09:00")
    finish_piece(stool)
    first = sum(one.mass_kg for one in sample_plan().pours[0].glass if one.colour == "green")
    assert piece_told(shop, 1)["glass"] == f"{first:.2f} kg"


def test_heat_stays_below_the_glass_transition_and_weight_is_told_when_it_is_heavy() -> None:
    plan = sample_plan()
    light = {one.word: one.text for one in care_of(plan, 5.0)}
    # the sample's own glass transition, less the usual ten degrees
    assert f"below {plan.demold.glass_transition_degC - 10.0:.0f} °C" in light["Heat"]
    assert "Weight" not in light
    # the lifting equation ends at 23 kg
    assert "lift it with two" in {one.word: one.text for one in care_of(plan, 31.4)}["Weight"]


def test_a_piece_that_softens_in_a_warm_room_says_so_and_what_helps() -> None:
    plan = sample_plan()
    soft = plan.model_copy(update={"demold": plan.demold.model_copy(update={"glass_transition_degC": 31.0})})
    (heat,) = (one.text for one in care_of(soft, 5.0) if one.word == "Heat")
    # 31 less the usual ten would be colder than a room in summer, 30 degrees
    assert "softens above 31 °C" in heat
    assert "21 °C" not in heat
    assert "no warm room" in heat


def test_what_is_told_of_a_piece_is_put_right(shop: Path, cast: Path) -> None:
    finish_piece(cast, mass="31.4 kg", note="for the show")
    change_card(shop, 1, mass="30.4 kg", photo_hash=keep_photo_file(cast, PHOTO), note="")
    told = piece_told(shop, 1)
    assert (told["mass"], told["note"], len(told["photos"])) == ("30.40 kg", "", 1)
    for wrong in ({"mass": "-1 kg"}, {"mass": "30"}, {"photo_hash": "0" * 64}):
        with pytest.raises(UserError):
            change_card(shop, 1, **wrong)
    with pytest.raises(NotThereError):
        change_card(shop, 2, note="a")
    assert piece_told(shop, 1) == told


def test_a_piece_is_finished_with_a_photo_that_was_handed_in(shop: Path, cast: Path) -> None:
    with pytest.raises(NotThereError, match="is not there"):
        finish_piece(cast, photo_hash="0" * 64)
    assert pieces_told(shop)["pieces"] == []
    finish_piece(cast, photo_hash=keep_photo_file(cast, PHOTO))
    assert len(piece_told(shop, 1)["photos"]) == 1


def test_the_card_is_one_half_sheet_with_or_without_a_photo(shop: Path, cast: Path) -> None:
    finish_piece(cast, mass="31.4 kg", at="2026-11-10 16:00", note="for the show")
    plain = piece_pdf(shop, 1)
    assert plain == piece_pdf(shop, 1)
    # begins as a photo and is none: the card is made without it
    change_card(shop, 1, photo_hash=keep_photo_file(cast, PHOTO))
    assert piece_pdf(shop, 1) == plain
    picture = io.BytesIO()
    Image.new("RGB", (60, 40), "green").save(picture, "JPEG")
    change_card(shop, 1, photo_hash=keep_photo_file(cast, picture.getvalue()))
    shown = piece_pdf(shop, 1)
    assert len(shown) > len(plain)
    assert [page_count(one) for one in (plain, shown)] == [1, 1]
    with pytest.raises(NotThereError):
        piece_pdf(shop, 2)


def test_labels_are_of_what_holds_something_ten_to_a_page(shop: Path) -> None:
    with pytest.raises(NotThereError, match="no book here yet"):
        labels_of(shop)
    lots = [add_lot(shop, "consumable", f"thing {number}", "3")["lot"] for number in range(11)]
    assert page_count(labels_of(shop)) == 2
    take_lot(shop, lots[0], "0")
    assert page_count(labels_of(shop)) == 1
    assert page_count(labels_of(shop, lots)) == 2
    with pytest.raises(NotThereError, match="no lot 99"):
        labels_of(shop, [1, 99])


def test_a_label_says_what_it_is_and_leaves_room_for_days_to_come(shop: Path) -> None:
    add_lot(shop, "resin", EPOXY, "10 kg", grade="A", name="pail 7", bought="2026-01-05")
    add_lot(shop, "glass", "bottles", "10 kg", colour="green", grade="coarse")
    add_lot(shop, "mold", "stool", name="second mold", bought="2026-01-05")
    with open_book(shop / "book.sqlite") as book:
        pail, glass, mold = (label_of(lot_by_id(book, number), "UTC") for number in (1, 2, 3))
    assert (pail.number, pail.name, pail.what) == (1, "pail 7", ["resin", EPOXY, "part A"])
    assert pail.dates == [("Bought", "Mon 5 Jan 2026"), ("Opened", ""), ("Keeps until", "")]
    assert glass.what == ["crushed glass", "bottles", "green, coarse"]
    assert mold.dates == [("Made", "Mon 5 Jan 2026")]
