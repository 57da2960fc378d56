"""The log as the page shows it, and what is entered there by hand."""

import shutil
from pathlib import Path

import pytest

from pourwright.app.benching.journal import read_journal
from pourwright.app.booking import casting_log
from pourwright.app.booking.by_hand import ENTERED, ByHand, enter_by_hand
from pourwright.app.booking.casting_log import casting_told, castings_told
from pourwright.app.booking.logging import log_job
from pourwright.app.booking.photos import keep_photo_file
from pourwright.foundation.errors import ConflictError, NotThereError, UserError
from tests.app.booking.conftest import write_plan
from tests.records.making import PHOTO


def log(stool: Path, *words: str, **more: object) -> str:
    return str(log_job(stool, words, **more).to_json()["entered"][0])


def entries(shop: Path) -> list[tuple[str, str, str]]:
    """Value, text and what stands in its place, of all that was entered."""
    told = casting_told(shop, "stool")
    return [(one["value"], one["text"], one["now"]) for pour in told["pours"] for one in pour["entries"]]


def test_a_look_makes_no_book(shop: Path, stool: Path) -> None:
    assert castings_told(shop)["castings"] == []
    assert casting_told(shop, "stool")["pours"] == []
    assert not (shop / "book.sqlite").exists()


def test_what_the_journals_hold_is_taken_in_first(shop: Path, stool: Path) -> None:
    log(stool, "poured", "2.4 kg")
    (shop / "book.sqlite").unlink()
    assert [one["pours"] for one in castings_told(shop)["castings"]] == [1]
    # and again, where another book has come in its place
    (shop / "book.sqlite").unlink()
    assert [one["pours"] for one in castings_told(shop)["castings"]] == [1]


def test_castings_come_latest_first_with_their_state(shop: Path, stool: Path) -> None:
    log(stool, "poured", "2.4 kg", at="2026-11-02 09:00")
    log(stool, "demolded", at="2026-11-09 09:00")
    log(stool, "poured", "2.5 kg", at="2026-11-10 09:00")
    told = castings_told(shop)
    assert [(one["casting"], one["state"], one["day"]) for one in told["castings"]] == [
        (2, "under way", "Tue 10 Nov 2026"),
        (1, "out of the mold", "Mon 2 Nov 2026"),
    ]
    assert (told["older"], told["page"]) == (False, 1)
    assert castings_told(shop, 2)["castings"] == []


def test_more_than_a_page_has_older_ones(shop: Path, stool: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(casting_log, "PAGE", 2)
    for number in (1, 2, 3):
        log_job(stool, ("poured", "1 kg"), casting=number, at=f"2026-11-0{number} 09:00")
    told = [castings_told(shop, page) for page in (1, 2)]
    assert [[one["casting"] for one in each["castings"]] for each in told] == [[3, 2], [1]]
    assert [each["older"] for each in told] == [True, False]


def test_a_corrected_entry_is_kept_beside_what_took_its_place(shop: Path, stool: Path) -> None:
    wrong = log(stool, "poured", "24 kg")
    enter_by_hand(stool, ByHand(corrects=wrong, value="2.4 kg"))
    assert entries(shop) == [("24.00 kg", "", "now: 2.40 kg"), ("2.40 kg", "", "")]
    told = casting_told(shop, "stool")
    assert (told["poured"], told["pours"][0]["poured"]) == ("2.40 kg", "2.40 kg")


def test_what_was_a_slip_is_taken_back(shop: Path, stool: Path) -> None:
    enter_by_hand(stool, ByHand(takes_back=log(stool, "poured", "2.4 kg")))
    note = "taken back: poured, 2.40 kg"
    assert entries(shop) == [("2.40 kg", "", "taken back"), ("", note, "")]
    assert casting_told(shop, "stool")["pours"][0]["poured_kg"] == 0.0


@pytest.mark.parametrize(
    ("asked", "kind", "value"),
    [
        (ByHand(what="weigh A", value="412 g"), "weigh_a", 0.412),
        (ByHand(what="poured", value="2.4 kg"), "poured", 2.4),
        (ByHand(what="level", value="85 mm"), "level", 0.085),
        # the sample's mold is 450 mm high and poured upside down
        (ByHand(what="level", value="365 mm", how="dip"), "level", 0.085),
        (ByHand(what="level", value="365 mm", how="standing"), "level", 0.085),
        (ByHand(what="level", how="cannot"), "no_level", None),
        (ByHand(what="temperature", value="31 degC", how="dip"), "temperature", 31.0),
        (ByHand(what="gel"), "gel", None),
    ],
)
def test_what_is_entered_by_hand(stool: Path, asked: ByHand, kind: str, value: float | None) -> None:
    enter_by_hand(stool, asked)
    (entry,) = read_journal(stool).entries
    assert (entry.kind, entry.source) == (kind, "hand")
    assert entry.value == (None if value is None else pytest.approx(value))


def test_all_that_is_offered_can_be_entered_as_its_example_says(stool: Path) -> None:
    assert set(ENTERED) - {"size"} > {"mold-made", "water", "rubber A", "sieved"}
    # the sample has no size ledger
    for what in set(ENTERED) - {"size"}:
        photo = keep_photo_file(stool, PHOTO) if what == "photo" else None
        assert enter_by_hand(stool, ByHand(what=what, value=ENTERED[what][1], photo=photo, casting=1))
    found = {one.kind: one for one in read_journal(stool).entries}
    assert (found["sieved"].text, found["sieved"].value) == ("coarse", 4.2)
    assert found["rubber_b"].value == 2.1
    assert found["water_level"].value == pytest.approx(0.085)


def test_a_water_test_may_be_read_as_a_dip(stool: Path) -> None:
    enter_by_hand(stool, ByHand(what="water", value="3 L at 365 mm", how="dip"))
    level = next(one for one in read_journal(stool).entries if one.kind == "water_level")
    # the sample's mold is 450 mm high
    assert level.value == pytest.approx(0.085)


def test_a_form_that_is_sent_twice_is_entered_once(stool: Path) -> None:
    asked = ByHand(what="water", value="3 L at 85 mm", id="0b0e7a86-6a2c-4f0e-9d5f-0d2f1a3c4b5d")
    assert len(enter_by_hand(stool, asked)) == 2
    assert enter_by_hand(stool, asked) == ()
    assert len(read_journal(stool).entries) == 2


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        (ByHand(what="gold", value="1 kg"), "nothing to enter"),
        (ByHand(what="poured"), "needs something else after it"),
        (ByHand(what="poured", value="2.4"), "the unit is missing"),
        (ByHand(what="poured", value="2.4 kg", pour=9), "the plan has no pour 9"),
        (ByHand(what="poured", value="2.4 kg", at="2126-01-01 09:00"), "still to come"),
        (ByHand(what="level", value="60 cm"), "lies above the mold"),
        (ByHand(what="photo"), "no photo was handed in"),
        (ByHand(what="photo", photo="0" * 64), "is not there"),
        (ByHand(corrects="1a2b3c4d", value="1 kg"), "no book here yet"),
    ],
)
def test_what_cannot_be_is_refused_as_at_the_terminal(stool: Path, asked: ByHand, told: str) -> None:
    with pytest.raises(UserError, match=told):
        enter_by_hand(stool, asked)
    assert read_journal(stool).entries == ()


def test_a_photo_is_never_named_by_its_path(stool: Path, tmp_path: Path) -> None:
    secret = tmp_path / "secret.jpg"
    secret.write_bytes(PHOTO + b"of somebody else")
    first = enter_by_hand(stool, ByHand(what="photo", photo=keep_photo_file(stool, PHOTO)))[0]
    for asked in (ByHand(what="photo", value=str(secret)), ByHand(corrects=first, value=str(secret))):
        with pytest.raises(UserError, match="no photo was handed in"):
            enter_by_hand(stool, asked)
    assert len(list((stool / "photos").iterdir())) == 1


def test_what_another_has_entered_is_refused_unless_it_is_another(stool: Path) -> None:
    log(stool, "poured", "2.4 kg")
    with pytest.raises(ConflictError, match="has this already"):
        enter_by_hand(stool, ByHand(what="poured", value="2.4 kg"))
    assert enter_by_hand(stool, ByHand(what="poured", value="2.4 kg", again=True))


def test_a_job_that_left_the_shelf_is_read_and_not_written(shop: Path, stool: Path) -> None:
    log(stool, "poured", "2.4 kg")
    shutil.rmtree(stool)
    told = casting_told(shop, "stool")
    assert (told["title"], told["may_enter"]) == ("Hourglass stool", None)
    assert [pour["poured"] for pour in told["pours"]] == ["2.40 kg"]


def test_each_pour_is_read_by_its_own_plan(shop: Path, stool: Path) -> None:
    log(stool, "level", "85 mm", pour=1)
    write_plan(stool, units="us")
    log(stool, "level", "100 mm", pour=2)
    shown = [value for value, _, _ in entries(shop)]
    assert shown[0].startswith("85 mm from the floor")
    assert " in from the floor" in shown[1]


def test_unknown_jobs_variants_and_castings_are_told(shop: Path, stool: Path) -> None:
    log(stool, "poured", "2.4 kg")
    for given in (("table",), ("stool", "tall"), ("stool", "main", 7)):
        with pytest.raises(NotThereError):
            casting_told(shop, *given)
