"""What was entered about each pour; a correction keeps what it corrects."""

from __future__ import annotations

import sqlite3
import uuid
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime

from pourwright.foundation.errors import ConflictError, NotThereError, UserError
from pourwright.records.book import Book, Value
from pourwright.records.moments import now, read, written

KINDS: dict[str, str] = {
    "weigh_a": "kg",
    "weigh_b": "kg",
    "mixed": "kg",
    "poured": "kg",
    "caught": "kg",
    "topped_up": "kg",
    "clung": "kg",
    "level": "m",
    "no_level": "",
    "temperature": "degC",
    "gel": "",
    "bubbles": "",
    "note": "",
    "photo": "",
    "step": "",
    "demolded": "",
    "size": "m",
    "water": "kg",
    "water_level": "m",
    "crushed": "kg",
    "sieved": "kg",
    "rubber_a": "kg",
    "rubber_b": "kg",
    "mold_made": "",
}
"""What can be entered, with the unit of its value; none for what has no number."""


@dataclass(frozen=True, kw_only=True)
class Entry:
    """One thing that was entered.

    Parameters
    ----------
    pour_id : int
        The pour.
    kind : str
        One of `KINDS`.
    at : datetime
        When it happened.
    value : float, optional
        In the unit of its kind: kg, m up from the mold's floor as poured, degC.
    sd : float, optional
        Standard deviation of the value, in the same unit.
    text : str
        Words.
    photo_hash : str, optional
        Of a photo in the book.
    source : str
        Where it comes from, as ``terminal`` or ``bench``.
    replaces : str, optional
        The entry that it corrects.
    id : str
        UUID; the same id is the same entry.
    written : datetime
        When it was entered.
    """

    pour_id: int
    kind: str
    at: datetime
    value: float | None = None
    sd: float | None = None
    text: str = ""
    photo_hash: str | None = None
    source: str = "hand"
    replaces: str | None = None
    id: str = field(default_factory=lambda: str(uuid.uuid4()))
    written: datetime = field(default_factory=now)


def keep_entry(book: Book, entry: Entry) -> bool:
    """Keep an entry; on the disk when this returns outside any `Book.writing`.

    Parameters
    ----------
    book : Book
        Open.
    entry : Entry
        One whose id is there already is the same entry again.

    Returns
    -------
    bool
        Whether it is new.

    Raises
    ------
    UserError
        For a kind that is not known, and a correction of what is not there, of another pour or kind.
    ConflictError
        For a correction of what was corrected already.
    """
    return keep_entries(book, [entry]) == 1


def keep_entries(book: Book, entries: Sequence[Entry]) -> int:
    """Keep several entries, all or none.

    Parameters
    ----------
    book : Book
        Open.
    entries : sequence of Entry
        As `keep_entry`; what one corrects stands before it.

    Returns
    -------
    int
        How many were new.

    Raises
    ------
    UserError
        As `keep_entry`.
    """
    with book.writing():
        return sum(_keep(book, entry) for entry in entries)


def _keep(book: Book, entry: Entry) -> bool:
    if has_entry(book, entry.id):
        return False
    if entry.kind not in KINDS:
        raise UserError(f"no entry is called '{entry.kind}'", where="kind", allowed=", ".join(KINDS))
    if entry.replaces is not None:
        refuse_wrong_correction(book, entry)
    values: tuple[Value, ...] = (
        entry.id,
        entry.pour_id,
        entry.kind,
        written(entry.at),
        written(entry.written),
        entry.value,
        entry.sd,
        entry.text,
        entry.photo_hash,
        entry.source,
        entry.replaces,
    )
    book.change(
        "INSERT INTO entries (id, pour_id, kind, at_utc, written_utc, value, sd, text, photo_hash, source,"
        " replaces) VALUES (?,?,?,?,?,?,?,?,?,?,?)",
        values,
    )
    return True


def refuse_wrong_correction(book: Book, entry: Entry) -> None:
    """Refuse a correction of what is not there, of another pour or kind, or of what was corrected already.

    Parameters
    ----------
    book : Book
        Open.
    entry : Entry
        The correction.

    Raises
    ------
    UserError
        As `keep_entry`.
    """
    corrected = entry.replaces
    old = book.row("SELECT pour_id, kind FROM entries WHERE id = ?", (corrected,))
    if old is None:
        raise NotThereError(
            f"no entry {corrected} is in the book", where="replaces", todo="look at the log for its id"
        )
    levels = {"level", "no_level"}
    # a note takes back whatever was entered by mistake
    other = entry.kind not in {old["kind"], "note"} and not {old["kind"], entry.kind} <= levels
    if old["pour_id"] != entry.pour_id or other:
        raise UserError(
            f"a '{entry.kind}' cannot correct a '{old['kind']}'"
            if old["pour_id"] == entry.pour_id
            else "it corrects an entry of another pour",
            where="replaces",
            todo="correct it by the same kind of entry, or take it back by a note, of the same pour",
        )
    if newer := book.row("SELECT id FROM entries WHERE replaces = ?", (corrected,)):
        raise ConflictError(
            f"this entry was corrected already, by {newer['id']}",
            where="replaces",
            todo="look at the log, and correct that one",
        )


_ENTRY = (
    "SELECT id, pour_id, kind, at_utc, written_utc, value, sd, text, photo_hash, source, replaces"
    " FROM entries AS each"
)
_STANDS = "NOT EXISTS (SELECT 1 FROM entries AS newer WHERE newer.replaces = each.id)"


def entries_of(book: Book, pour_id: int, *, corrected: bool = False) -> tuple[Entry, ...]:
    """List what was entered about a pour, in the order in which it happened.

    Parameters
    ----------
    book : Book
        Open.
    pour_id : int
        The pour.
    corrected : bool
        Whether what was corrected later is listed too.

    Returns
    -------
    tuple of Entry
    """
    asked = f"{_ENTRY} WHERE pour_id = ?1 AND (?2 OR {_STANDS}) ORDER BY at_utc, written_utc, rowid"
    return tuple(_entry(row) for row in book.rows(asked, (pour_id, corrected)))


def has_entry(book: Book, entry_id: str) -> bool:
    """Tell whether an entry is in the book.

    Parameters
    ----------
    book : Book
        Open.
    entry_id : str
        Its whole id.

    Returns
    -------
    bool
    """
    return book.row("SELECT 1 FROM entries WHERE id = ?", (entry_id,)) is not None


def entry_by_id(book: Book, entry_id: str) -> Entry:
    """Find an entry by its id, or by what it begins with where that is enough.

    Parameters
    ----------
    book : Book
        Open.
    entry_id : str
        Six letters or more.

    Returns
    -------
    Entry

    Raises
    ------
    NotThereError
        Where none, or more than one, has such an id.
    """
    begun = entry_id.strip().lower()
    plain = len(begun) >= 6 and set(begun) <= set("0123456789abcdef-")
    found = book.rows(f"{_ENTRY} WHERE id >= ? AND id < ? LIMIT 2", (begun, begun + "g"))
    if not plain or len(found) != 1:
        what = "more than one entry begins so" if plain and found else f"no entry '{entry_id}' is in the book"
        raise NotThereError(what, where="entry", todo="take its id from the log, six letters or more")
    return _entry(found[0])


def _entry(row: sqlite3.Row) -> Entry:
    return Entry(
        id=row["id"],
        pour_id=row["pour_id"],
        kind=row["kind"],
        at=read(row["at_utc"]),
        written=read(row["written_utc"]),
        value=row["value"],
        sd=row["sd"],
        text=row["text"],
        photo_hash=row["photo_hash"],
        source=row["source"],
        replaces=row["replaces"],
    )
