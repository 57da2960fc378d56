"""What was entered about a pour."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, strategies as st

from pourwright.foundation.errors import ConflictError, NotThereError, TooMuchError, UserError
from pourwright.records import (
    Book,
    Entry,
    end_pour,
    entries_of,
    entry_by_id,
    keep_entries,
    keep_entry,
    keep_photo,
    keep_plan,
    keep_pour,
    media_type_of,
    open_book,
    photo_of,
    photos,
    plan_by_hash,
    plans_of,
    pour_by_id,
    pours_of,
)
from pourwright.records.moments import read, written
from tests.records.making import LAMP, NINE, PHOTO, first_pour, poured


@pytest.fixture
def book(tmp_path: Path):
    with open_book(tmp_path / "book.sqlite") as opened:
        yield opened


def test_the_same_id_is_the_same_entry(book: Book) -> None:
    pour = first_pour(book)
    entry = poured(pour, 2.5)
    assert keep_entry(book, entry)
    assert not keep_entry(book, entry)
    assert not keep_entry(book, poured(pour, 9.9, id=entry.id))
    assert entries_of(book, pour.id) == (entry,)


def test_the_same_plan_and_pour_are_kept_once(book: Book) -> None:
    assert keep_plan(book, LAMP, "{}") == keep_plan(book, LAMP, "{}")
    plan = plan_by_hash(book, LAMP.hash)
    assert plan is not None
    assert keep_pour(book, plan.id, 1) == keep_pour(book, plan.id, 1)
    assert [one.number for one in pours_of(book, plan.id)] == [1]
    assert plans_of(book, job="lamp") == (plan,)
    assert plans_of(book, job="stool") == ()


def test_the_very_same_plan_of_two_jobs_is_one_of_each(book: Book) -> None:
    lamp, copy = keep_plan(book, LAMP, "{}"), keep_plan(book, replace(LAMP, job="copy"), "{}")
    assert lamp.id != copy.id
    assert plan_by_hash(book, LAMP.hash, "copy", "main") == copy
    assert plan_by_hash(book, LAMP.hash) == lamp
    assert plan_by_hash(book, LAMP.hash, "copy", "second") is None


def test_a_pour_begins_with_its_earliest_entry_and_ends_when_told(book: Book) -> None:
    plan = keep_plan(book, LAMP, "{}")
    keep_pour(book, plan.id, 1, begun=NINE + timedelta(minutes=5))
    keep_pour(book, plan.id, 1, begun=NINE)
    pour = keep_pour(book, plan.id, 1, begun=NINE + timedelta(minutes=9))
    assert pour.begun == NINE
    end_pour(book, pour.id, NINE + timedelta(hours=1))
    assert pour_by_id(book, pour.id).ended == NINE + timedelta(hours=1)


def test_the_next_piece_by_the_same_plan_has_pours_of_its_own(book: Book) -> None:
    plan = keep_plan(book, LAMP, "{}")
    first, second = keep_pour(book, plan.id, 1), keep_pour(book, plan.id, 1, casting=2)
    assert first.id != second.id
    assert pours_of(book, plan.id, casting=2) == (second,)


def test_a_correction_keeps_what_it_corrects(book: Book) -> None:
    pour = first_pour(book)
    wrong = poured(pour, 25.0)
    right = poured(pour, 2.5, replaces=wrong.id)
    assert keep_entries(book, [wrong, right]) == 2
    assert entries_of(book, pour.id) == (right,)
    assert entries_of(book, pour.id, corrected=True) == (wrong, right)


def test_a_correction_is_corrected_in_turn(book: Book) -> None:
    pour = first_pour(book)
    wrong = poured(pour, 25.0)
    still = poured(pour, 0.25, replaces=wrong.id)
    right = poured(pour, 2.5, replaces=still.id)
    keep_entries(book, [wrong, still, right])
    assert entries_of(book, pour.id) == (right,)
    with pytest.raises(ConflictError, match=f"corrected already, by {right.id}"):
        keep_entry(book, poured(pour, 2.4, replaces=still.id))


def test_a_level_may_be_corrected_to_cannot_read(book: Book) -> None:
    pour = first_pour(book)
    level = Entry(pour_id=pour.id, kind="level", at=NINE, value=0.08)
    none = Entry(pour_id=pour.id, kind="no_level", at=NINE, replaces=level.id)
    keep_entries(book, [level, none])
    assert [entry.kind for entry in entries_of(book, pour.id)] == ["no_level"]


def test_a_note_takes_back_what_was_entered_by_mistake(book: Book) -> None:
    pour = first_pour(book)
    wrong = poured(pour, 2.5)
    back = Entry(pour_id=pour.id, kind="note", at=NINE, text="taken back", replaces=wrong.id)
    keep_entries(book, [wrong, back])
    assert [entry.kind for entry in entries_of(book, pour.id)] == ["note"]
    assert {entry.id for entry in entries_of(book, pour.id, corrected=True)} == {wrong.id, back.id}


def test_what_is_no_correction_is_refused_and_all_with_it(book: Book) -> None:
    pour = first_pour(book)
    other = keep_pour(book, pour.plan_id, 2)
    known = poured(pour, 2.5)
    keep_entry(book, known)
    for wrong, told in (
        (poured(other, 1.0, replaces=known.id), "entry of another pour"),
        (poured(pour, 1.0, kind="caught", replaces=known.id), "'caught' cannot correct a 'poured'"),
        (poured(pour, 1.0, replaces="0" * 36), "no entry 0000"),
        (poured(pour, 1.0, kind="guessed"), "no entry is called 'guessed'"),
    ):
        with pytest.raises(UserError, match=told):
            keep_entries(book, [poured(pour, 7.0), wrong])
    assert entries_of(book, pour.id) == (known,)


def test_an_entry_of_a_pour_that_is_not_there_is_refused(book: Book) -> None:
    with pytest.raises(ConflictError, match="does not fit"):
        keep_entry(book, Entry(pour_id=77, kind="note", at=NINE))


def test_an_entry_is_found_by_the_beginning_of_its_id(book: Book) -> None:
    pour = first_pour(book)
    one = poured(pour, 1.0, id="aaaaaa11-0000-4000-8000-000000000000")
    other = poured(pour, 2.0, id="aaaaaa22-0000-4000-8000-000000000000")
    keep_entries(book, [one, other])
    assert entry_by_id(book, "AAAAAA11") == one
    for unclear, told in (
        ("aaaaaa", "more than one"),
        ("aaa", "no entry"),
        ("%", "no entry"),
        ("ffffff", "no"),
    ):
        with pytest.raises(NotThereError, match=told):
            entry_by_id(book, unclear)


def test_entries_of_the_repeated_hour_keep_their_order(book: Book) -> None:
    # Berlin, 25 October 2026: 02:00 to 03:00 comes twice (IANA time zone data)
    zone, pour = ZoneInfo("Europe/Berlin"), first_pour(book)
    walls = [
        datetime(2026, 10, 25, 2, 50, tzinfo=zone, fold=0),
        datetime(2026, 10, 25, 2, 10, tzinfo=zone, fold=1),
        datetime(2026, 10, 25, 2, 50, tzinfo=zone, fold=1),
    ]
    entries = [poured(pour, float(number), at=at) for number, at in enumerate(walls)]
    keep_entries(book, entries[::-1])
    found = entries_of(book, pour.id)
    assert [entry.value for entry in found] == [0.0, 1.0, 2.0]
    assert [entry.at for entry in found] == [
        datetime(2026, 10, 25, 0, 50, tzinfo=UTC),
        datetime(2026, 10, 25, 1, 10, tzinfo=UTC),
        datetime(2026, 10, 25, 1, 50, tzinfo=UTC),
    ]


def test_entries_across_the_missing_hour_keep_their_order(book: Book) -> None:
    # Berlin, 29 March 2026: the clock goes from 02:00 to 03:00
    zone, pour = ZoneInfo("Europe/Berlin"), first_pour(book)
    before, after = datetime(2026, 3, 29, 1, 59, tzinfo=zone), datetime(2026, 3, 29, 3, 1, tzinfo=zone)
    keep_entries(book, [poured(pour, 2.0, at=after), poured(pour, 1.0, at=before)])
    found = entries_of(book, pour.id)
    assert [entry.value for entry in found] == [1.0, 2.0]
    assert found[1].at - found[0].at == timedelta(minutes=2)


def test_what_happened_at_the_same_moment_keeps_the_order_in_which_it_was_entered(book: Book) -> None:
    pour = first_pour(book)
    entries = [poured(pour, float(number), written=NINE) for number in range(20)]
    keep_entries(book, entries)
    assert [entry.value for entry in entries_of(book, pour.id)] == [float(number) for number in range(20)]


@given(
    moment=st.datetimes(
        min_value=datetime(1971, 1, 1),
        max_value=datetime(2199, 1, 1),
        timezones=st.integers(-14 * 60, 14 * 60).map(lambda minutes: timezone(timedelta(minutes=minutes))),
    )
)
def test_a_moment_is_read_as_it_was_written(moment: datetime) -> None:
    text = written(moment)
    assert len(text) == len("2026-12-01T09:00:00.000Z")
    assert abs(read(text) - moment) < timedelta(milliseconds=1)


def test_a_moment_without_a_zone_is_refused() -> None:
    with pytest.raises(ValueError, match="without a zone"):
        written(datetime(2026, 12, 1))


def test_a_photo_is_kept_once(book: Book) -> None:
    pour = first_pour(book)
    once, again = keep_photo(book, PHOTO), keep_photo(book, PHOTO)
    assert once == again
    keep_entries(book, [poured(pour, 1.0, kind="photo", value=None, photo_hash=once) for _ in range(3)])
    assert book.number("SELECT count(*) FROM photos") == 1
    assert photo_of(book, once) == ("image/jpeg", PHOTO)
    with pytest.raises(NotThereError, match="no such photo"):
        photo_of(book, "00" * 32)


@pytest.mark.parametrize("content", [b"", b"GIF89a", b"<svg/>", b"<script>", b"RIFF1234WAVE", b"%PDF-1.7"])
def test_what_is_no_photo_is_refused(content: bytes) -> None:
    with pytest.raises(UserError, match="this is no photo"):
        media_type_of(content)


def test_a_photo_that_is_too_large_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(photos, "LARGEST", 20)
    with pytest.raises(TooMuchError, match="too large"):
        media_type_of(PHOTO)


@pytest.mark.parametrize(
    ("content", "media_type"),
    [
        (b"\x89PNG\r\n\x1a\n....", "image/png"),
        (b"RIFF....WEBPVP8 ", "image/webp"),
        (b"\x00\x00\x00\x18ftypheic", "image/heic"),
        (b"\x00\x00\x00\x1cftypavif", "image/avif"),
    ],
)
def test_photos_are_known_by_their_content(content: bytes, media_type: str) -> None:
    assert media_type_of(content) == media_type
