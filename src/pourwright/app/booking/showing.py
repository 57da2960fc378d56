"""The book at a glance, and its journals taken in."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from pourwright.app.booking.counting import zone_of
from pourwright.app.booking.intake import take_in_journal
from pourwright.app.booking.places import book_place
from pourwright.app.booking.settling import casts_of_mold
from pourwright.app.shelf.places import job_places
from pourwright.records import (
    Book,
    count_rows,
    jobs_in,
    lots_of,
    open_book,
    pieces_of,
    recent_entries,
)
from pourwright.records.moments import written

RECENT = 20
"""Of entries and pieces, so many are shown."""


def show_book(shop: Path) -> dict[str, Any]:
    """Say what the book of a shop holds; what its journals hold besides is taken in first.

    Parameters
    ----------
    shop : Path
        Its folder.

    Returns
    -------
    dict
        ``rows`` of each table, ``jobs`` with their castings, ``recent`` entries, ``pieces``, ``molds``;
        ``taken`` from journals, and what is ``told`` about them.

    Raises
    ------
    NotThereError
        Where there is no book yet.
    """
    place = book_place(shop)
    with open_book(place, make=False) as book:
        found = (
            [] if book.read_only else [take_in_journal(book, one.folder) for one in job_places(place.parent)]
        )
        with book.reading():
            told = overview(book)
    taken = sum(one.entries for one in found)
    return {"book": str(place), "taken": taken, "told": [line for one in found for line in one.told], **told}


def overview(book: Book) -> dict[str, Any]:
    """Say what a book holds.

    Parameters
    ----------
    book : Book
        Open.

    Returns
    -------
    dict
        As `show_book`, without the journals.
    """
    zone, units = zone_of(book)
    pieces = pieces_of(book, most=RECENT)
    return {
        "version": book.version,
        "time_zone": zone,
        "units": units,
        "rows": count_rows(book),
        "jobs": jobs_in(book),
        "recent": recent_entries(book, RECENT),
        "pieces": [
            {"number": one.number, "title": one.title, "mass_kg": one.mass_kg}
            | {"finished": written(one.finished)}
            for one in pieces
        ],
        "molds": [
            {"lot": lot.id, "name": lot.name, "casts": casts_of_mold(book, lot), "condition": lot.note}
            for lot in lots_of(book, "mold")
        ],
    }
