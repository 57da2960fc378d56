"""What the database refuses, in words."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from pourwright.foundation.errors import ConflictError, UserError

_WORDS = {
    sqlite3.SQLITE_FULL: ("the disk is full; nothing of this was written", "make room, then do it again"),
    sqlite3.SQLITE_READONLY: (
        "the book is read-only here; nothing was written",
        "allow writing to the file and its folder, or copy the book to where you may write",
    ),
    sqlite3.SQLITE_CANTOPEN: ("the book cannot be opened", "look whether the folder may be written to"),
    sqlite3.SQLITE_PERM: ("the book may not be opened", "look who owns the file"),
    sqlite3.SQLITE_IOERR: (
        "the disk did not read or write it; nothing of this was written",
        "look at the disk, then do it again",
    ),
    sqlite3.SQLITE_CORRUPT: (
        "the book is damaged: its file is cut short or overwritten",
        "keep it, and put a copy in its place: your own, or a book.before-N.sqlite beside it",
    ),
    sqlite3.SQLITE_TOOBIG: ("this is too large for the book", "make it smaller"),
}
_TAKEN = "another program has kept the book to itself for a minute; nothing of this was written"
_FOREIGN = "this file is no book of pourwright"


class BookError(UserError):
    """The book itself does not let it be done: its file, its disk, its version; not what was asked."""


class BookTakenError(BookError, ConflictError):
    """Somebody else keeps the book to himself."""


def foreign(path: Path) -> BookError:
    """Make the refusal of a file that is something else.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    UserError
    """
    todo = (
        "move it away, or name the shop's folder; a book in CSV or JSON goes in by 'pourwright book import'"
    )
    return BookError(_FOREIGN, where=str(path), allowed="a book that pourwright has made", todo=todo)


@contextmanager
def in_words(path: Path) -> Iterator[None]:
    """Turn what the database raises into one sentence for the maker.

    Parameters
    ----------
    path : Path
        Of the book.

    Raises
    ------
    BookError
        For a full disk, a file that is read-only, damaged or foreign, and a lock that nobody lets go.
    """
    try:
        yield
    except sqlite3.Error as error:
        raise _refusal(path, error) from error


def code_of(error: sqlite3.Error) -> int:
    """Tell the kind of an error of the database.

    Parameters
    ----------
    error : sqlite3.Error
        As raised.

    Returns
    -------
    int
        Its primary result code; -1 for a mistake of the caller.
    """
    code = getattr(error, "sqlite_errorcode", None)
    return -1 if code is None else int(code) & 0xFF


def _refusal(path: Path, error: sqlite3.Error) -> Exception:
    code, where = code_of(error), str(path)
    if code == sqlite3.SQLITE_NOTADB:
        return foreign(path)
    if code in {sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED}:
        return BookTakenError(_TAKEN, where=where, todo="end that program, then do it again")
    if code == sqlite3.SQLITE_CONSTRAINT:
        return ConflictError(
            f"this does not fit what the book holds: {error}", where=where, todo="look at the entry again"
        )
    if code in _WORDS:
        what, todo = _WORDS[code]
        return BookError(what, where=where, todo=todo)
    return error
