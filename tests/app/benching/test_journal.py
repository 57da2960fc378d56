"""The journal: on the disk before it is confirmed, readable after a crash."""

import json
import os
from datetime import UTC, datetime
from pathlib import Path
from threading import Thread

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.app.benching.journal import (
    JOURNAL,
    JournalEntry,
    add_to_journal,
    line_of,
    read_journal,
)
from pourwright.foundation.errors import UserError
from pourwright.records import KINDS

NINE = datetime(2026, 11, 28, 9, 0, tzinfo=UTC)


def poured(kilograms: float, **more: object) -> JournalEntry:
    said = {
        "plan": "ab" * 32,
        "casting": 1,
        "pour": 1,
        "kind": "poured",
        "at": NINE,
        "value": kilograms,
    } | more
    return JournalEntry(**said)  # type: ignore[arg-type]


def test_a_line_says_the_unit_in_its_key() -> None:
    said = json.loads(line_of(poured(2.4, sd=0.01, source="bench")))
    assert said["value_kg"] == 2.4
    assert said["sd_kg"] == 0.01
    assert said["at"] == "2026-11-28T09:00:00.000Z"
    assert "value_m" in json.loads(line_of(poured(0.08, kind="level")))


@settings(max_examples=30, deadline=None)
@given(
    kind=st.sampled_from(sorted(KINDS)),
    value=st.none() | st.floats(-1e6, 1e6),
    text=st.text(max_size=40),
    pour=st.integers(0, 99),
)
def test_an_entry_is_read_as_it_was_written(
    tmp_path_factory: pytest.TempPathFactory, kind: str, value: float | None, text: str, pour: int
) -> None:
    folder = tmp_path_factory.mktemp("job")
    entry = poured(0, kind=kind, value=value if KINDS[kind] else None, text=text, pour=pour)
    add_to_journal(folder, [entry])
    assert read_journal(folder).entries == (entry,)


def test_a_torn_last_line_is_passed_over_and_told(tmp_path: Path) -> None:
    whole, torn, after = poured(1.0), poured(2.0), poured(3.0)
    add_to_journal(tmp_path, [whole])
    with (tmp_path / JOURNAL).open("a") as file:
        file.write(line_of(torn)[:40])
    assert read_journal(tmp_path).entries == (whole,)
    assert read_journal(tmp_path).torn == (2,)
    add_to_journal(tmp_path, [after])
    journal = read_journal(tmp_path)
    assert journal.entries == (whole, after)
    assert "line 2 of journal.jsonl cannot be read" in journal.told()


def test_every_place_where_the_last_line_may_be_torn(tmp_path: Path) -> None:
    whole, last = poured(1.0), line_of(poured(2.0, text="größer")).encode()
    for cut in range(len(last) - 1):
        (tmp_path / JOURNAL).write_bytes(line_of(whole).encode() + last[:cut])
        journal = read_journal(tmp_path)
        assert journal.entries == (whole,)
        assert journal.torn == ((2,) if cut else ())


# the same in every process that collects the tests
LINE = line_of(poured(1.0, id="25cf6ba2-6bb6-40ed-ae05-28760c1b9062", written=NINE))


@pytest.mark.parametrize(
    "line",
    [
        "[]",
        "7",
        "{}",
        '"poured"',
        LINE.replace("poured", "guessed"),
        LINE.replace("09:00:00.000Z", "09:00:00"),
        LINE.replace("1.0", "NaN"),
        LINE.replace("1.0", "true"),
        LINE.replace('"casting": 1', '"casting": 0'),
        LINE.replace("abab", "xyxy"),
        "\x00" * 50,
    ],
)
def test_what_is_no_line_of_a_journal_is_told(line: str, tmp_path: Path) -> None:
    (tmp_path / JOURNAL).write_text(line.strip("\n") + "\n" + line_of(poured(1.0)), "utf8")
    journal = read_journal(tmp_path)
    assert journal.torn == (1,)
    assert len(journal.entries) == 1


def test_a_line_that_came_twice_counts_once(tmp_path: Path) -> None:
    entry = poured(1.0)
    add_to_journal(tmp_path, [entry])
    add_to_journal(tmp_path, [entry])
    assert read_journal(tmp_path).entries == (entry,)


def test_there_may_be_no_journal_yet(tmp_path: Path) -> None:
    assert read_journal(tmp_path).entries == ()
    assert read_journal(tmp_path).told() == ""


def test_it_is_on_the_disk_before_it_is_confirmed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    synced: list[bytes] = []
    real = os.fsync

    def fsync(handle: int) -> None:
        synced.append((tmp_path / JOURNAL).read_bytes())
        real(handle)

    monkeypatch.setattr(os, "fsync", fsync)
    entry = poured(1.0)
    add_to_journal(tmp_path, [entry])
    assert synced[0] == line_of(entry).encode()


def test_a_full_disk_is_told_and_no_half_line_stays(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    whole = poured(1.0)
    add_to_journal(tmp_path, [whole])
    real = os.write

    def write(handle: int, content: bytes) -> int:
        if len(content) > 20:
            return real(handle, content[:20])
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "write", write)
    with pytest.raises(UserError, match="No space left"):
        add_to_journal(tmp_path, [poured(2.0)])
    monkeypatch.undo()
    assert (tmp_path / JOURNAL).read_text() == line_of(whole)


def test_two_who_write_at_once_tear_no_line(tmp_path: Path) -> None:
    each = [[poured(float(number), source=who) for number in range(60)] for who in ("phone", "laptop")]

    def write(entries: list[JournalEntry]) -> None:
        for entry in entries:
            add_to_journal(tmp_path, [entry])

    writers = [Thread(target=write, args=(entries,)) for entries in each]
    for one in writers:
        one.start()
    for one in writers:
        one.join()
    journal = read_journal(tmp_path)
    assert journal.torn == ()
    assert {entry.id for entry in journal.entries} == {entry.id for entries in each for entry in entries}
