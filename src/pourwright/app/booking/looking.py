"""A look into the shop's book from the page: what the journals hold besides is taken in first."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from pourwright.app.benching.journal import JOURNAL, read_journal
from pourwright.app.booking.intake import take_in_journal
from pourwright.app.booking.places import book_place
from pourwright.app.shelf.places import job_places
from pourwright.records import Book, has_entry, open_book

_taken: dict[Path, tuple[int, int, str]] = {}
"""Journals whose every entry went into the book: their size and time then, and the id of their last entry."""


@dataclass(frozen=True)
class Look:
    """An open book.

    Parameters
    ----------
    book : Book
        Open.
    told : tuple of str
        What journals hold and the book cannot take, in words.
    """

    book: Book
    told: tuple[str, ...]


@contextmanager
def looked_into(shop: Path) -> Iterator[Look | None]:
    """Open the book of a shop, its journals taken in; a look alone never makes a book.

    Parameters
    ----------
    shop : Path
        Its folder.

    Yields
    ------
    Look or None
        None where nothing was entered yet.
    """
    place = book_place(shop)
    journals = [one.folder / JOURNAL for one in job_places(place.parent)]
    there = [one for one in journals if one.is_file()]
    if not place.exists() and not there:
        yield None
        return
    with open_book(place) as book:
        told = [] if book.read_only else [line for one in there for line in _take_in(book, one)]
        yield Look(book, tuple(told))


def _take_in(book: Book, journal: Path) -> tuple[str, ...]:
    """Take in a journal, unless it is as it was when all of it was taken in, and the book still has it."""
    about = journal.stat()
    size, changed, last = _taken.get(journal, (-1, -1, ""))
    if (size, changed) == (about.st_size, about.st_mtime_ns) and has_entry(book, last):
        return ()
    told = take_in_journal(book, journal.parent).told
    entries = read_journal(journal.parent).entries
    if entries and not told:
        _taken[journal] = (about.st_size, about.st_mtime_ns, entries[-1].id)
    return told
