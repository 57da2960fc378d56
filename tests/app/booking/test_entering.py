"""Entries: checked, in the journal, in the book, each with its plan."""

import hashlib
import json
import sqlite3
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from pourwright.app.benching.journal import JOURNAL, JournalEntry, add_to_journal, read_journal
from pourwright.app.booking.entering import Said, enter
from pourwright.app.booking.intake import take_in_journal
from pourwright.app.booking.logging import log_job
from pourwright.app.booking.places import book_place
from pourwright.foundation.errors import ConflictError, NotThereError, UserError
from pourwright.records import BookError, entries_of, open_book, plans_of, pours_of_job
from pourwright.records.moments import now
from tests.app.booking.conftest import write_plan
from tests.records.making import PHOTO


def log(job: Path, *words: str, **more: object) -> dict:
    return log_job(job, words, **more).to_json()  # type: ignore[arg-type]


def values(report: dict) -> list[tuple]:
    """Pour, kind and value of what stands in the log."""
    return [
        (pour["pour"], one["kind"], next((one[key] for key in one if key.startswith("value_")), None))
        for pour in report["pours"]
        for one in pour["entries"]
        if not one["corrected_by"]
    ]


def test_what_was_poured_is_in_journal_and_book_under_its_plan(stool: Path, shop: Path) -> None:
    log(stool, "weigh", "A", "1854 g")
    log(stool, "weigh", "B", "834 g")
    report = log(stool, "poured", "2.6 kg")
    assert values(report) == [(1, "weigh_a", 1.854), (1, "weigh_b", 0.834), (1, "poured", 2.6)]
    content = (stool / "plan" / "plan.json").read_bytes()
    sha256 = hashlib.sha256(content).hexdigest()
    assert [entry.plan for entry in read_journal(stool).entries] == [sha256] * 3
    with open_book(shop / "book.sqlite") as book:
        ((plan, pour),) = pours_of_job(book, "stool", "main")
        assert (plan.hash, plan.version, pour.number) == (sha256, json.loads(content)["version"], 1)
        assert [entry.source for entry in entries_of(book, pour.id)] == ["terminal"] * 3
        assert book.row("SELECT document FROM plans")[0].encode() == content


def test_a_level_in_each_reading_is_the_same_level(stool: Path) -> None:
    # poured upside down, the mold is 450 mm deep: 100 mm up is a dip of 350 mm, and 350 mm as it stands
    for said in ({"words": ("level", "100 mm")}, {"dip": "350 mm"}, {"standing": "350 mm"}):
        words = said.pop("words", ("level",))
        report = log(stool, *words, **said)
    assert [value for _, kind, value in values(report)] == pytest.approx([0.1, 0.1, 0.1])
    assert report["pours"][0]["entries"][0]["standing_m"] == pytest.approx(0.35)
    assert (
        report["pours"][0]["entries"][0]["value"] == "100 mm from the floor (350 mm as it stands), dip 350 mm"
    )


def test_a_level_that_cannot_be_read_is_an_entry(stool: Path) -> None:
    assert values(log(stool, "level", "cannot-read")) == [(1, "no_level", None)]
    assert values(log(stool, "level", "cannot", "read"))[1] == (1, "no_level", None)


def test_other_things_that_can_be_entered(stool: Path, tmp_path: Path) -> None:
    (tmp_path / "top.jpg").write_bytes(PHOTO)
    log(stool, "temperature", "86 degF")
    log(stool, "caught", "0 g")
    log(stool, "topped-up", "200 g")
    log(stool, "bubbles", "few", "at", "the", "rim")
    log(stool, "step", "pressed", "the glass down")
    log(stool, "photo", str(tmp_path / "top.jpg"))
    report = log(stool, "note", "smells", "warm")
    # 86 degF is 30 degC
    assert values(report)[0] == (1, "temperature", pytest.approx(30.0))
    assert [one["text"] for one in report["pours"][0]["entries"]][3:5] == [
        "few at the rim",
        "pressed the glass down",
    ]
    sha256 = hashlib.sha256(PHOTO).hexdigest()
    assert report["pours"][0]["entries"][5]["photo"] == sha256
    assert (stool / "photos" / f"{sha256}.jpeg").read_bytes() == PHOTO


def test_a_correction_keeps_the_old_value_and_its_time(stool: Path) -> None:
    when = "2026-11-28 09:00"
    wrong = log(stool, "poured", "26 kg", at=when)["entered"][0]
    report = log(stool, "correct", wrong[:8], "2.6 kg")
    old, new = report["pours"][0]["entries"]
    assert (old["corrected_by"], old["value_kg"]) == (new["id"], 26.0)
    assert (new["replaces"], new["value_kg"], new["at"]) == (wrong, 2.6, old["at"])
    assert report["pours"][0]["poured_kg"] == 2.6
    with pytest.raises(ConflictError, match="corrected already"):
        log(stool, "correct", wrong[:8], "2.5 kg")


def test_a_corrected_weight_was_read_and_stays_with_its_batch(stool: Path, shop: Path) -> None:
    pressed = Said(kind="weigh_a", value=1.159, text="batch 2 of 3, as planned", source="bench")
    enter(stool, shop / "book.sqlite", [pressed])
    report = log(stool, "correct", pressed.id, "1.2 kg")
    assert report["pours"][0]["entries"][-1]["text"] == "batch 2 of 3"
    (batch,) = report["pours"][0]["batches"]
    assert (batch["name"], batch["part_a_kg"], batch["mixed_kg"]) == ("batch 2 of 3", 1.2, None)


def test_the_log_tells_what_is_in_the_mold_of_a_pour_at_the_bench(stool: Path, shop: Path) -> None:
    name = "batch 1 of 3"
    entries = [("weigh_a", 1.2, name), ("weigh_b", 0.54, name), ("mixed", 1.681, f"{name}, A and B together")]
    said = [Said(kind=kind, value=value, text=text, source="bench") for kind, value, text in entries]
    enter(stool, shop / "book.sqlite", said)
    (pour,) = log(stool)["pours"]
    ledger = json.loads((stool / "plan" / "plan.json").read_text("utf8"))["fill"]
    loss = ledger["resin"]["bucket_kg"] / ledger["resin_kg"]
    assert pour["poured_kg"] == pytest.approx(1.74 * (1 - loss))
    assert not pour["weighed"]
    assert 0.0 < pour["poured_sd_kg"] < 0.05 * pour["poured_kg"]


def test_a_correction_stays_with_its_pour_and_its_piece(stool: Path) -> None:
    wrong = log(stool, "poured", "26 kg")["entered"][0]
    log(stool, "gel")
    log(stool, "poured", "1.6 kg")
    log(stool, "demolded")
    log(stool, "poured", "2.5 kg")
    report = log(stool, "correct", wrong, "2.6 kg", casting=None)
    with open_book(stool.parent / "book.sqlite") as book:
        logged = [(pour.casting, pour.number) for _, pour in pours_of_job(book, "stool", "main")]
    assert logged == [(1, 0), (1, 1), (1, 2), (2, 1)]
    first = log(stool, casting=1)
    assert (1, "poured", 2.6) in values(first)
    assert (1, "poured", 26.0) not in values(first)
    assert report["castings"] == [1, 2]


def test_after_the_gel_the_next_pour_is_meant(stool: Path) -> None:
    log(stool, "poured", "2.6 kg")
    log(stool, "gel")
    log(stool, "level", "120 mm")
    report = log(stool, "poured", "1.6 kg")
    assert values(report)[-2:] == [(1, "level", pytest.approx(0.12)), (2, "poured", 1.6)]
    assert report["pours"][0]["ended"] == report["pours"][1]["begun"]


def test_a_new_plan_in_the_middle_of_a_piece_goes_on_with_it(stool: Path, shop: Path) -> None:
    log(stool, "poured", "2.6 kg")
    write_plan(stool, title="Hourglass stool, second try")
    log(stool, "caught", "100 g")
    report = log(stool, "poured", "1.6 kg", pour=2)
    assert report["castings"] == [1]
    first, second = report["pours"]
    assert [one["kind"] for one in first["entries"]] == ["poured", "caught"]
    assert first["plan"] != second["plan"] == report["plan"]["hash"]
    with open_book(shop / "book.sqlite") as book:
        assert len(plans_of(book, "stool")) == 2


@pytest.mark.parametrize(
    ("words", "more", "told"),
    [
        (("level", "451.5 mm"), {}, "lies above the mold; allowed: 0 to 450 mm"),
        (("level",), {"dip": "-20 mm"}, "lies above the mold"),
        (("level",), {"dip": "46 cm"}, "lies below the mold's floor"),
        (("level",), {"standing": "50 cm"}, "lies below the mold's floor"),
        (("level",), {}, "needs something else after it"),
        (("level", "10 mm"), {"dip": "20 mm"}, "needs something else after it"),
        (("poured", "-3 kg"), {}, "a batch of −3.00 kg cannot be"),
        (("poured", "0 g"), {}, "cannot be"),
        (("poured", "3 mm"), {}, "no mass"),
        (("poured",), {}, "needs something else after it"),
        (("weigh", "C", "3 kg"), {}, "needs something else after it"),
        (("temperature", "800 degF"), {}, "no temperature of a casting"),
        (("poured", "2 kg"), {"at": "2126-11-28 09:00"}, "is still to come"),
        (("poured", "2 kg"), {"at": "yesterday"}, "no day and time"),
        (("poured", "2 kg"), {"pour": 5}, "the plan has no pour 5; allowed: 1 to 4"),
        (("gel",), {"dip": "20 mm"}, "no level"),
        (("pored", "2 kg"), {}, "'pored' is nothing to enter; allowed: weigh, mixed"),
        (("note",), {}, "needs something else after it"),
        (("photo", "nowhere.jpg"), {}, "cannot be read"),
        (("photo", __file__), {}, "this is no photo"),
        (("correct",), {}, "which entry"),
        (("correct", "abcdef12", "3 kg"), {}, "no entry 'abcdef12'"),
        ((), {"casting": 3}, "no casting 3"),
        (("poured", "2 kg"), {"variant": "second"}, "no plan of a variant 'second'"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_entered(
    words: tuple, more: dict, told: str, stool: Path
) -> None:
    with pytest.raises(UserError) as refused:
        log(stool, *words, **more)
    assert told in str(refused.value)
    assert not (stool / JOURNAL).exists()
    assert log(stool)["pours"] == []


def test_two_logs_of_one_pour_are_one_clear_error(stool: Path, shop: Path) -> None:
    book, nine = shop / "book.sqlite", datetime(2026, 11, 28, 9, 0, tzinfo=UTC)
    enter(stool, book, [Said(kind="poured", value=2.60, at=nine, source="bench")])
    same = {"kind": "poured", "value": 2.61, "at": nine + timedelta(minutes=4)}
    with pytest.raises(ConflictError, match=r"pour 1 has this already: poured 2.60 kg.*from bench"):
        enter(stool, book, [Said(**same)])
    # another batch, said so; one at another time; one of another weight; from the same bench
    enter(stool, book, [Said(**same, again=True)])
    enter(stool, book, [Said(**same | {"at": nine + timedelta(hours=2)})])
    enter(stool, book, [Said(**same | {"value": 1.2})])
    assert len(read_journal(stool).entries) == 4


def test_a_pour_gels_once_and_a_piece_leaves_its_mold_once(stool: Path) -> None:
    log(stool, "poured", "2.6 kg")
    log(stool, "gel")
    with pytest.raises(ConflictError, match="pour 1 has this already: gelled"):
        log(stool, "gel")
    log(stool, "demolded")
    with pytest.raises(ConflictError, match="has this already"):
        log(stool, "demolded")


def test_an_entry_that_is_sent_again_is_not_doubled(stool: Path, shop: Path) -> None:
    said = Said(kind="poured", value=2.6, source="bench")
    assert len(enter(stool, shop / "book.sqlite", [said]).entries) == 1
    assert enter(stool, shop / "book.sqlite", [said]).entries == ()
    assert len(read_journal(stool).entries) == 1


def test_a_journal_that_the_book_has_not_seen_is_taken_in_once(stool: Path, shop: Path) -> None:
    log(stool, "poured", "2.6 kg")
    (shop / "book.sqlite").unlink()
    report = log(stool)
    assert values(report) == [(1, "poured", 2.6)]
    with open_book(shop / "book.sqlite") as book:
        assert take_in_journal(book, stool).entries == 0


def test_what_cannot_be_taken_in_is_told_and_stays_in_the_journal(stool: Path) -> None:
    lost = JournalEntry(plan="00" * 32, casting=1, pour=1, kind="gel", at=now())
    good = JournalEntry(
        plan=log(stool)["plan"]["hash"],
        casting=1,
        pour=1,
        kind="note",
        at=now(),
        text="x",
    )
    add_to_journal(stool, [lost, good])
    report = log(stool)
    assert values(report) == [(1, "note", None)]
    (told,) = report["told"]
    assert f"gel of pour 1 ({lost.id[:8]}) is not in the book: the plan that this was entered under" in told
    assert read_journal(stool).entries == (lost, good)


def test_a_book_that_takes_nothing_leaves_the_entry_in_the_journal(
    stool: Path, shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise UserError(
            "the disk is full; nothing of this was written", where="book.sqlite", todo="make room"
        )

    monkeypatch.setattr("pourwright.app.booking.entering.take_in", full)
    with pytest.raises(UserError, match="in the job's journal, but not yet in the book: the disk is full"):
        enter(stool, shop / "book.sqlite", [Said(kind="poured", value=2.6)])
    monkeypatch.undo()
    assert values(log(stool)) == [(1, "poured", 2.6)]


def test_while_the_book_is_damaged_the_journal_takes_everything(stool: Path, shop: Path) -> None:
    first = log(stool, "poured", "2.6 kg")["entered"][0]
    book = shop / "book.sqlite"
    whole = book.read_bytes()
    book.write_bytes(whole[: len(whole) // 2])
    kept = pytest.raises(
        BookError, match="in the job's journal, but not yet in the book: the book is damaged"
    )
    same = Said(kind="level", value=0.08, source="bench")
    for said in (same, same, Said(kind="poured", value=2.5, replaces=first), Said(kind="gel", pour=1)):
        with kept:
            enter(stool, book, [said])
    for wrong, told in (
        (Said(kind="level", value=0.5), "lies above the mold"),
        (Said(kind="poured", value=1.0, replaces="0" * 36), "is not in the journal"),
        (Said(kind="gel", plan="00" * 32), "another plan"),
    ):
        with pytest.raises(UserError, match=told):
            enter(stool, book, [wrong])
    assert len(read_journal(stool).entries) == 4
    book.write_bytes(whole)
    report = log(stool)
    assert set(values(report)) == {(1, "poured", 2.5), (1, "level", 0.08), (1, "gel", None)}
    assert report["told"] == []


def test_a_book_that_may_only_be_read_leaves_the_entry_in_the_journal(
    stool: Path, shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    log(stool, "poured", "2.6 kg")
    with monkeypatch.context() as patch:
        # what the database says of a file that may not be written
        patch.setattr("pourwright.records.opening._set_up", _only_to_read)
        with pytest.raises(BookError, match="not yet in the book: the book is read-only"):
            enter(stool, shop / "book.sqlite", [Said(kind="caught", value=0.1)])
    assert values(log(stool)) == [(1, "poured", 2.6), (1, "caught", 0.1)]


def _only_to_read(connection: sqlite3.Connection, _: Path) -> None:
    connection.execute("PRAGMA query_only = ON")


def test_the_book_lies_with_the_shop(shop: Path, stool: Path, tmp_path: Path) -> None:
    assert book_place(stool) == book_place(shop) == shop / "book.sqlite"
    lone = tmp_path / "elsewhere" / "lamp"
    write_plan(lone)
    assert book_place(lone) == lone.parent / "book.sqlite"
    # a book that is there already is the one
    (tmp_path / "book.sqlite").touch()
    assert book_place(lone) == tmp_path / "book.sqlite"


def test_a_job_without_a_plan_is_told(shop: Path) -> None:
    (shop / "new").mkdir()
    (shop / "new" / "job.toml").write_text("format = 1")
    with pytest.raises(NotThereError, match="no plan yet"):
        log(shop / "new", "poured", "2 kg")
    with pytest.raises(NotThereError, match="no job is there"):
        log(shop / "nothing")


def test_of_several_variants_one_must_be_named(stool: Path) -> None:
    for name in ("clear", "green"):
        write_plan(stool / "plan" / name, variant=name)
        (stool / "plan" / name / "plan" / "plan.json").rename(stool / "plan" / name / "plan.json")
    (stool / "plan" / "plan.json").unlink()
    with pytest.raises(UserError, match="which variant"):
        log(stool, "poured", "2 kg")
    log(stool, "poured", "2 kg", variant="green")
    assert log(stool, variant="clear")["pours"] == []
    assert values(log(stool, variant="green")) == [(1, "poured", 2.0)]
