"""The file of the book: made, brought up to date, or refused in words with nothing torn."""

import errno
import os
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import replace
from pathlib import Path

import pytest

from pourwright.foundation.errors import ConflictError, NotThereError, UserError
from pourwright.records import entries_of, keep_entry, keep_plan, open_book, opening, plans_of
from pourwright.records.migrating import LATEST, Migration, migrations
from tests.records.making import beside, first_pour, poured

HERE = Path(__file__).parent
NOBODY = 65534


@pytest.fixture
def place(tmp_path: Path) -> Path:
    return tmp_path / "book.sqlite"


def filled(place: Path) -> str:
    """Make a book with one entry; its id."""
    with open_book(place) as book:
        entry = poured(first_pour(book), 2.5)
        keep_entry(book, entry)
    return entry.id


def build(place: Path, script: str) -> None:
    with closing(sqlite3.connect(place)) as connection:
        connection.executescript(script)


def test_a_new_book_is_set_up_as_the_house_wants_it(place: Path) -> None:
    with open_book(place) as book:
        asked = ("journal_mode", "synchronous", "foreign_keys", "user_version")
        assert [book.row(f"PRAGMA {name}")[0] for name in asked] == ["wal", 2, 1, LATEST]
        loose = book.rows("SELECT name FROM pragma_table_list WHERE schema = 'main' AND strict = 0")
    assert {row["name"] for row in loose} <= {"sqlite_schema", "sqlite_sequence"}
    assert beside(place) == {"book.sqlite"}


def test_migrations_are_numbered_without_a_gap() -> None:
    assert [step.number for step in migrations()] == list(range(1, LATEST + 1))


def test_a_file_of_every_earlier_version_is_kept() -> None:
    kept = sorted(int(one.stem.rpartition("_")[2]) for one in HERE.glob("book_version_*.sql"))
    assert kept == list(range(1, LATEST))


@pytest.mark.parametrize("script", sorted(HERE.glob("book_version_*.sql")), ids=lambda one: one.stem)
def test_an_earlier_version_is_brought_up_to_date_and_a_copy_kept(script: Path, place: Path) -> None:
    build(place, script.read_text("utf8"))
    version = int(script.stem.rpartition("_")[2])
    with open_book(place) as book:
        assert book.row("PRAGMA user_version")[0] == LATEST
        assert [plan.title for plan in plans_of(book)] == ["Table lamp"]
        assert [entry.value for entry in entries_of(book, 1)] == [1.2]
        assert [entry.value for entry in entries_of(book, 1, corrected=True)] == [2.1, 1.2]
    with closing(sqlite3.connect(place.with_name(f"book.before-{version + 1}.sqlite"))) as before:
        assert before.execute("PRAGMA user_version").fetchone()[0] == version
        assert before.execute("SELECT sum(value) FROM entries").fetchone()[0] == pytest.approx(3.38)
    copies = {f"book.before-{number}.sqlite" for number in range(version + 1, LATEST + 1)}
    assert beside(place) == {"book.sqlite"} | copies


def test_pours_stock_and_pieces_stay_with_their_plan_when_its_table_is_made_anew(place: Path) -> None:
    build(place, (HERE / "book_version_3.sql").read_text("utf8"))
    with open_book(place) as book:
        assert book.rows("PRAGMA foreign_key_check") == []
        (plan,) = plans_of(book)
        for table in ("pours", "pieces", "reservations"):
            assert [tuple(row) for row in book.rows(f"SELECT DISTINCT plan_id FROM {table}")] == [(plan.id,)]
        assert book.number("SELECT count(*) FROM moves WHERE plan_id = ?", (plan.id,)) == 1
        copy = keep_plan(book, replace(plan, job="copy"), "{}")
        assert (copy.hash, copy.job) == (plan.hash, "copy")


def test_the_tables_are_the_same_whether_new_or_brought_up_to_date(place: Path) -> None:
    build(place, (HERE / "book_version_1.sql").read_text("utf8"))
    with open_book(place) as old, open_book(place.with_name("new.sqlite")) as new:
        asked = (
            'SELECT m.name, c.name, c.type, c."notnull", c.pk FROM sqlite_schema AS m'
            " JOIN pragma_table_info(m.name) AS c WHERE m.type IN ('table', 'index') ORDER BY 1, c.cid"
        )
        assert [tuple(row) for row in old.rows(asked)] == [tuple(row) for row in new.rows(asked)]


def test_a_step_that_fails_leaves_the_book_as_it_was(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    build(place, (HERE / "book_version_1.sql").read_text("utf8"))
    good = migrations()
    broken = Migration(2, "0002_broken.sql", ("CREATE TABLE half (a TEXT) STRICT;", "CREATE TABLE half (a);"))
    monkeypatch.setattr("pourwright.records.migrating.migrations", lambda: (good[0], broken))
    with pytest.raises(sqlite3.OperationalError), open_book(place):
        pass
    with closing(sqlite3.connect(place)) as left:
        assert left.execute("PRAGMA user_version").fetchone()[0] == 1
        assert left.execute("SELECT count(*) FROM sqlite_schema WHERE name = 'half'").fetchone()[0] == 0


def test_without_room_for_a_copy_the_book_stays_as_it_was(
    place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    build(place, (HERE / "book_version_1.sql").read_text("utf8"))

    def full(**_: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(tempfile, "mkstemp", full)
    with pytest.raises(UserError, match="no copy can be kept: No space left"), open_book(place):
        pass
    monkeypatch.undo()
    with closing(sqlite3.connect(place)) as left:
        assert left.execute("PRAGMA user_version").fetchone()[0] == 1


def test_a_newer_version_is_refused_in_words(place: Path) -> None:
    filled(place)
    build(place, f"PRAGMA user_version = {LATEST + 5}")
    with (
        pytest.raises(UserError, match=f"version {LATEST + 5}, made by a newer pourwright"),
        open_book(place),
    ):
        pass


@pytest.mark.parametrize(
    "content", [b"date,what\n2026-11-28,poured\n", b"\x00" * 4096, b"SQLite", b"SQLite format 3\x00"]
)
def test_a_foreign_file_is_refused_and_left_alone(content: bytes, place: Path) -> None:
    place.write_bytes(content)
    with pytest.raises(UserError, match="no book of pourwright"), open_book(place):
        pass
    assert place.read_bytes() == content


def test_a_foreign_database_is_refused_and_left_alone(place: Path) -> None:
    build(place, "CREATE TABLE notes (text TEXT)")
    before = place.read_bytes()
    with pytest.raises(UserError, match="no book of pourwright"), open_book(place):
        pass
    assert place.read_bytes() == before
    assert beside(place) == {"book.sqlite"}


@pytest.mark.parametrize("share", [0.05, 0.3, 0.6, 0.95])
def test_a_truncated_book_is_refused_in_words(share: float, place: Path) -> None:
    filled(place)
    whole = place.read_bytes()
    place.write_bytes(whole[: int(len(whole) * share)])
    with pytest.raises(UserError, match="damaged"), open_book(place):
        pass


def test_overwritten_pages_are_told_when_they_are_met(place: Path) -> None:
    filled(place)
    whole = place.read_bytes()
    place.write_bytes(whole[:8192] + b"\xa5" * (len(whole) - 8192))
    with pytest.raises(UserError, match="damaged"), open_book(place) as book:
        keep_entry(book, poured(first_pour(book), 1.0))


def test_there_may_be_no_book_yet(place: Path) -> None:
    with pytest.raises(NotThereError, match="no book here yet"), open_book(place, make=False):
        pass
    with pytest.raises(UserError, match="no such folder"), open_book(place.parent / "nowhere" / place.name):
        pass
    with pytest.raises(UserError, match="this is a folder"), open_book(place.parent):
        pass
    assert beside(place) == set()


def test_a_full_disk_is_told_and_nothing_is_torn(place: Path) -> None:
    known = filled(place)
    with open_book(place) as book:
        pour = first_pour(book)
        # the database's own limit gives the very answer of a disk that is full
        pages = book.row("PRAGMA page_count")[0]
        book._connection.execute(f"PRAGMA max_page_count = {pages + 1}")
        with pytest.raises(UserError, match="the disk is full"):
            keep_entry(book, poured(pour, 1.0, text="x" * 20_000))
        assert keep_entry(book, poured(pour, 1.0, text="short"))
        assert book.row("PRAGMA integrity_check")[0] == "ok"
        assert entries_of(book, pour.id)[0].id == known


@pytest.mark.skipif(os.geteuid() != 0, reason="only root can be somebody else for a moment")
@pytest.mark.parametrize("mode", [0o555, 0o777])
def test_a_book_that_may_only_be_read_is_read_and_not_written(mode: int) -> None:
    with tempfile.TemporaryDirectory() as folder, as_nobody(folder, mode) as place:
        with open_book(place) as book:
            assert [entry.value for entry in entries_of(book, 1)] == [2.5]
            with pytest.raises(UserError, match="read-only"):
                keep_entry(book, poured(first_pour(book), 1.0))
        assert "book.sqlite" in beside(place)


@pytest.mark.skipif(os.geteuid() != 0, reason="only root can be somebody else for a moment")
def test_a_book_in_a_folder_that_may_not_be_entered_is_told() -> None:
    told = pytest.raises(UserError, match="Permission denied")
    with tempfile.TemporaryDirectory() as folder, as_nobody(folder, 0o700) as place, told, open_book(place):
        pass


@pytest.mark.skipif(os.geteuid() != 0, reason="only root can be somebody else for a moment")
def test_an_older_book_that_may_only_be_read_is_told() -> None:
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "book.sqlite"
        build(place, (HERE / "book_version_1.sql").read_text("utf8"))
        with as_nobody(folder, 0o555), pytest.raises(UserError, match="of version 1"), open_book(place):
            pass


@contextmanager
def as_nobody(folder: str, mode: int) -> Iterator[Path]:
    """A book of root's, seen by somebody else."""
    place = Path(folder) / "book.sqlite"
    if not place.exists():
        filled(place)
    place.chmod(0o444)
    Path(folder).chmod(mode)
    os.setegid(NOBODY)
    os.seteuid(NOBODY)
    try:
        yield place
    finally:
        os.seteuid(0)
        os.setegid(0)


def test_a_lock_that_nobody_lets_go_is_told(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    filled(place)
    monkeypatch.setattr(opening, "PATIENCE", 0.05)
    told = pytest.raises(ConflictError, match="another program")
    with open_book(place) as one, open_book(place) as other, one.writing(), told:
        first_pour(other)
