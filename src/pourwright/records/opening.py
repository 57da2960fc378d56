"""Open the shop's book: made where there is none, brought up to date, refused in words where it cannot be."""

from __future__ import annotations

import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from pourwright.foundation.errors import NotThereError
from pourwright.records.book import Book
from pourwright.records.migrating import APPLICATION, LATEST, bring_up_to_date, version_of
from pourwright.records.refusals import BookError, code_of, foreign, in_words

BOOK_FILE = "book.sqlite"
PATIENCE = 60.0
"""How long a writer waits for another [s]."""
_HEADER = b"SQLite format 3\x00"
_NOT_WRITABLE = {sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN}


@contextmanager
def open_book(path: Path | str, *, make: bool = True) -> Iterator[Book]:
    """Open a book for as long as the block lasts.

    Parameters
    ----------
    path : Path or str
        The file; one of an earlier version is brought up to date, and a copy of it kept beside.
    make : bool
        Whether a new one is made where there is none.

    Yields
    ------
    Book

    Raises
    ------
    NotThereError
        Where there is none and none is to be made.
    BookError
        For a file that is something else, damaged, or of a newer version.
    """
    place = Path(path)
    try:
        _refuse_unusable(place, make=make)
    except OSError as error:
        what = f"the book cannot be opened: {error.strerror or error}"
        raise BookError(what, where=str(place), todo="look who may read the file and its folder") from error
    with in_words(place):
        connection, read_only = _connected(place)
    with closing(connection):
        yield Book(place, connection, read_only=read_only)


def _refuse_unusable(place: Path, *, make: bool) -> None:
    if place.is_dir():
        raise BookError("this is a folder, not a book", where=str(place), todo=f"name the {BOOK_FILE} in it")
    if not place.exists() and not make:
        raise NotThereError(
            "there is no book here yet", where=str(place), todo="it begins with the first 'pourwright log'"
        )
    if not place.parent.is_dir():
        raise BookError("no such folder", where=str(place.parent), todo="name the shop's folder")
    if place.exists() and place.stat().st_size:
        with place.open("rb") as file:
            if file.read(len(_HEADER)) != _HEADER:
                raise foreign(place)


def _connected(place: Path) -> tuple[sqlite3.Connection, bool]:
    connection = _connect(place)
    try:
        _set_up(connection, place)
    except sqlite3.Error as error:
        connection.close()
        # without a file beside it that only this place could hold, it can still be read as it lies there
        if code_of(error) not in _NOT_WRITABLE or _has_tail(place) or not place.exists():
            raise
        return _to_read(place), True
    except BaseException:
        connection.close()
        raise
    return connection, False


def _connect(place: Path, how: str = "") -> sqlite3.Connection:
    name = place.absolute().as_uri() + how if how else place
    connection = sqlite3.connect(
        name, timeout=PATIENCE, isolation_level=None, check_same_thread=False, uri=bool(how)
    )
    connection.row_factory = sqlite3.Row
    return connection


def _set_up(connection: sqlite3.Connection, place: Path) -> None:
    _refuse_foreign(connection, place)
    _patiently(connection, "PRAGMA journal_mode = WAL")
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("PRAGMA foreign_keys = ON")
    bring_up_to_date(connection, place)


def _to_read(place: Path) -> sqlite3.Connection:
    connection = _connect(place, "?mode=ro&immutable=1")
    try:
        _refuse_foreign(connection, place)
        _refuse_older(connection, place)
    except BaseException:
        connection.close()
        raise
    return connection


def _refuse_foreign(connection: sqlite3.Connection, place: Path) -> None:
    # of one moment: another process may just be making the book
    connection.execute("BEGIN")
    try:
        (mark,) = connection.execute("PRAGMA application_id").fetchone()
        (tables,) = connection.execute("SELECT count(*) FROM sqlite_master").fetchone()
        version = version_of(connection)
    finally:
        connection.execute("ROLLBACK")
    if mark != APPLICATION and (tables or version or mark):
        raise foreign(place)
    if version > LATEST:
        raise BookError(
            f"this book is of version {version}, made by a newer pourwright; this one reads up to {LATEST}",
            where=str(place),
            todo=f"bring pourwright up to date; what the book was before is book.before-{LATEST + 1}.sqlite"
            " beside it",
        )


def _refuse_older(connection: sqlite3.Connection, place: Path) -> None:
    if (found := version_of(connection)) < LATEST:
        raise BookError(
            f"the book is of version {found} and lies where it cannot be brought up to {LATEST}",
            where=str(place),
            todo="copy it to where you may write",
        )


def _has_tail(place: Path) -> bool:
    tail = place.with_name(place.name + "-wal")
    return tail.exists() and tail.stat().st_size > 0


def _patiently(connection: sqlite3.Connection, statement: str) -> None:
    """Run what the database refuses at once while another opens the book, instead of waiting."""
    until = time.monotonic() + PATIENCE
    while True:
        try:
            connection.execute(statement).fetchall()
        except sqlite3.OperationalError as error:
            if code_of(error) not in {sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED} or time.monotonic() > until:
                raise
            time.sleep(0.01)
        else:
            return
