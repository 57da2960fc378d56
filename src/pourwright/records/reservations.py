"""What pieces that are to be cast keep for themselves."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from pourwright.records.book import Book
from pourwright.records.moments import now, read, written


@dataclass(frozen=True, kw_only=True)
class Reservation:
    """A piece that is to be cast: what its plan needs is kept for it.

    Parameters
    ----------
    plan_id, casting : int
        Which.
    made : datetime
        When it was said.
    """

    plan_id: int
    casting: int
    made: datetime


def reserve(book: Book, plan_id: int, casting: int) -> None:
    """Keep what a piece needs for it.

    Parameters
    ----------
    book : Book
        Open.
    plan_id, casting : int
        Which; one that was freed is reserved again.
    """
    with book.writing():
        book.change(
            "INSERT INTO reservations (plan_id, casting, made_utc) VALUES (?,?,?)"
            " ON CONFLICT DO UPDATE SET freed_utc = NULL",
            (plan_id, casting, written(now())),
        )


def free(book: Book, plan_id: int, casting: int) -> None:
    """Keep nothing more for a piece.

    Parameters
    ----------
    book : Book
        Open.
    plan_id, casting : int
        Which.
    """
    with book.writing():
        book.change(
            "UPDATE reservations SET freed_utc = coalesce(freed_utc, ?) WHERE plan_id = ? AND casting = ?",
            (written(now()), plan_id, casting),
        )


def reservations_of(book: Book) -> tuple[Reservation, ...]:
    """List what is reserved now.

    Parameters
    ----------
    book : Book
        Open.

    Returns
    -------
    tuple of Reservation
        The first that was made first.
    """
    rows = book.rows("SELECT * FROM reservations WHERE freed_utc IS NULL ORDER BY made_utc, plan_id, casting")
    return tuple(
        Reservation(plan_id=row["plan_id"], casting=row["casting"], made=read(row["made_utc"]))
        for row in rows
    )


def was_reserved(book: Book, plan_id: int, casting: int) -> bool:
    """Tell whether a piece was ever reserved for, also where it was freed since.

    Parameters
    ----------
    book : Book
        Open.
    plan_id, casting : int
        Which.

    Returns
    -------
    bool
    """
    asked = "SELECT 1 FROM reservations WHERE plan_id = ? AND casting = ?"
    return book.row(asked, (plan_id, casting)) is not None
