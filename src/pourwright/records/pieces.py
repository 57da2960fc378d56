"""Finished pieces: each has a number that no other ever gets."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from datetime import datetime

from pourwright.foundation.errors import ConflictError, NotThereError
from pourwright.records.book import Book
from pourwright.records.moments import now, read, written


@dataclass(frozen=True, kw_only=True)
class Piece:
    """A finished piece.

    Parameters
    ----------
    title : str
        What it is called.
    plan_id, casting : int
        How it was cast.
    finished : datetime
        When.
    mass_kg : float, optional
        As weighed.
    mold_id : int, optional
        The lot of its mold.
    photo_hash : str, optional
        Of a photo in the book.
    note : str
        Words.
    number : int
        Lasting; 0 before it is kept.
    """

    title: str
    plan_id: int
    casting: int = 1
    finished: datetime
    mass_kg: float | None = None
    mold_id: int | None = None
    photo_hash: str | None = None
    note: str = ""
    number: int = 0


def keep_piece(book: Book, piece: Piece) -> Piece:
    """Give a finished piece its number.

    Parameters
    ----------
    book : Book
        Open.
    piece : Piece
        Its ``number`` is not used.

    Returns
    -------
    Piece
        As the book has it.

    Raises
    ------
    ConflictError
        Where this casting has its number already.
    """
    values = (
        piece.title,
        piece.plan_id,
        piece.casting,
        piece.mold_id,
        written(piece.finished or now()),
        piece.mass_kg,
        piece.photo_hash,
        piece.note,
    )
    with book.writing():
        taken = book.row(
            "SELECT number FROM pieces WHERE plan_id = ? AND casting = ?", (piece.plan_id, piece.casting)
        )
        if taken is not None:
            raise ConflictError(
                f"this piece has its number already: {taken[0]}",
                where="piece",
                todo="change that one instead",
            )
        number = book.change(
            "INSERT INTO pieces (title, plan_id, casting, mold_id, finished_utc, mass_kg, photo_hash, note)"
            " VALUES (?,?,?,?,?,?,?,?)",
            values,
        ).lastrowid
    return piece_by_number(book, number or 0)


def change_piece(
    book: Book,
    number: int,
    *,
    mass_kg: float | None = None,
    photo_hash: str | None = None,
    note: str | None = None,
) -> Piece:
    """Change what is told of a finished piece; what is None stays.

    Parameters
    ----------
    book : Book
        Open.
    number : int
        Of the piece.
    mass_kg : float, optional
        As weighed.
    photo_hash : str, optional
        Of a photo in the book.
    note : str, optional
        Words.

    Returns
    -------
    Piece
    """
    with book.writing():
        book.change(
            "UPDATE pieces SET mass_kg = coalesce(?, mass_kg), photo_hash = coalesce(?, photo_hash),"
            " note = coalesce(?, note) WHERE number = ?",
            (mass_kg, photo_hash, note, number),
        )
    return piece_by_number(book, number)


def piece_by_number(book: Book, number: int) -> Piece:
    """Find a finished piece.

    Parameters
    ----------
    book : Book
        Open.
    number : int
        On its card.

    Returns
    -------
    Piece

    Raises
    ------
    NotThereError
        Where there is none.
    """
    found = book.row("SELECT * FROM pieces WHERE number = ?", (number,))
    if found is None:
        raise NotThereError(f"no piece {number} is in the book", where="piece", todo="look at the list")
    return _piece(found)


def pieces_of(
    book: Book, job: str | None = None, *, below: int | None = None, most: int = 1000
) -> tuple[Piece, ...]:
    """List finished pieces, the latest first.

    Parameters
    ----------
    book : Book
        Open.
    job : str, optional
        Of this job only.
    below : int, optional
        With a smaller number only.
    most : int
        So many at the most.

    Returns
    -------
    tuple of Piece
    """
    asked = (
        "SELECT * FROM pieces WHERE (?1 IS NULL OR plan_id IN (SELECT id FROM plans WHERE job = ?1))"
        " AND (?2 IS NULL OR number < ?2) ORDER BY number DESC LIMIT ?3"
    )
    return tuple(_piece(row) for row in book.rows(asked, (job, below, most)))


def _piece(row: sqlite3.Row) -> Piece:
    return Piece(
        number=row["number"],
        title=row["title"],
        plan_id=row["plan_id"],
        casting=row["casting"],
        mold_id=row["mold_id"],
        finished=read(row["finished_utc"]),
        mass_kg=row["mass_kg"],
        photo_hash=row["photo_hash"],
        note=row["note"],
    )
