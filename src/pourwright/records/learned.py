"""What was learnt from the book, each time as a line of its own; one that was undone stays as a line."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from datetime import datetime

from pourwright.records.book import Book
from pourwright.records.moments import now, read, written


@dataclass(frozen=True, kw_only=True)
class Learned:
    """One quantity as the shop's own records have it.

    Parameters
    ----------
    quantity : str
        What, as ``void_fraction``.
    subject : str
        Of what, as the id of a grade or a resin.
    prior_mean, prior_sd : float
        Before: what the family says.
    mean, sd : float
        After.
    records : int
        From how many records.
    id : int
        In this book; 0 before it is kept.
    made : datetime, optional
        When.
    undone : bool
        Whether the maker took it back.
    """

    quantity: str
    subject: str
    prior_mean: float
    prior_sd: float
    mean: float
    sd: float
    records: int
    id: int = 0
    made: datetime | None = None
    undone: bool = False


def keep_learned(book: Book, learned: Learned) -> Learned:
    """Keep what was learnt; it takes the place of what was learnt before about the same.

    Parameters
    ----------
    book : Book
        Open.
    learned : Learned
        Its ``id`` is not used.

    Returns
    -------
    Learned
        As the book has it.
    """
    values = (
        learned.quantity,
        learned.subject,
        learned.prior_mean,
        learned.prior_sd,
        learned.mean,
        learned.sd,
        learned.records,
        written(learned.made or now()),
    )
    with book.writing():
        number = book.change(
            "INSERT INTO learned (quantity, subject, prior_mean, prior_sd, mean, sd, records, made_utc)"
            " VALUES (?,?,?,?,?,?,?,?)",
            values,
        ).lastrowid
        found = book.row("SELECT * FROM learned WHERE id = ?", (number,))
    assert found is not None
    return _learned(found)


def learned_now(book: Book, quantity: str | None = None, subject: str | None = None) -> tuple[Learned, ...]:
    """List what holds now: of each quantity and subject the latest that was not undone.

    Parameters
    ----------
    book : Book
        Open.
    quantity, subject : str, optional
        Of these only.

    Returns
    -------
    tuple of Learned
    """
    asked = (
        "SELECT * FROM learned WHERE id IN"
        " (SELECT max(id) FROM learned WHERE NOT undone GROUP BY quantity, subject)"
        " AND (?1 IS NULL OR quantity = ?1) AND (?2 IS NULL OR subject = ?2) ORDER BY quantity, subject"
    )
    return tuple(_learned(row) for row in book.rows(asked, (quantity, subject)))


def learned_ever(book: Book) -> tuple[Learned, ...]:
    """List everything that was ever learnt, the oldest first; what was undone among it.

    Parameters
    ----------
    book : Book
        Open.

    Returns
    -------
    tuple of Learned
    """
    return tuple(_learned(row) for row in book.rows("SELECT * FROM learned ORDER BY id", ()))


def undo_learned(book: Book, learned_id: int) -> None:
    """Take back what was learnt; what was learnt before it, or the family, holds again.

    Parameters
    ----------
    book : Book
        Open.
    learned_id : int
        In this book.
    """
    with book.writing():
        book.change("UPDATE learned SET undone = 1 WHERE id = ?", (learned_id,))


def _learned(row: sqlite3.Row) -> Learned:
    return Learned(
        id=row["id"],
        quantity=row["quantity"],
        subject=row["subject"],
        prior_mean=row["prior_mean"],
        prior_sd=row["prior_sd"],
        mean=row["mean"],
        sd=row["sd"],
        records=row["records"],
        made=read(row["made_utc"]),
        undone=bool(row["undone"]),
    )
