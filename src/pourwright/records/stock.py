"""Stock: lots, and every move that made them more or less; molds are lots too."""

from __future__ import annotations

import sqlite3
import uuid
from dataclasses import dataclass, field
from datetime import datetime

from pourwright.foundation.errors import NotThereError, UserError
from pourwright.records.book import Book
from pourwright.records.moments import now, read, read_maybe, written, written_maybe

LOT_KINDS: dict[str, str] = {
    "resin": "kg",
    "rubber": "kg",
    "glass": "kg",
    "powder": "kg",
    "board": "m2",
    "consumable": "pieces",
    "mold": "casts",
}
"""What can be on stock, with the unit that it is counted in."""
REASONS = ("bought", "made", "used", "counted", "given back")


@dataclass(frozen=True, kw_only=True)
class Lot:
    """What was bought or made at one time.

    Parameters
    ----------
    kind : str
        One of `LOT_KINDS`.
    material : str
        Id of the record, as ``epoxy-slow-deep``; of a mold, the name of its job.
    name : str
        What stands on the tub.
    colour, grade : str
        Of glass; of a kit, ``grade`` says which part, ``A`` or ``B``.
    bought, opened, expires : datetime, optional
        When.
    note : str
        Of a mold, its condition.
    left : float
        What is left, in `unit`; the sum of its moves.
    id : int
        In this book; 0 before it is kept.
    """

    kind: str
    material: str
    name: str
    colour: str = ""
    grade: str = ""
    bought: datetime | None = None
    opened: datetime | None = None
    expires: datetime | None = None
    note: str = ""
    left: float = 0.0
    id: int = 0

    @property
    def unit(self) -> str:
        """What it is counted in."""
        return LOT_KINDS[self.kind]


@dataclass(frozen=True, kw_only=True)
class Move:
    """Why a lot became more or less.

    Parameters
    ----------
    lot_id : int
        The lot.
    change : float
        In the unit of the lot.
    why : str
        One of `REASONS`.
    at : datetime
        When.
    plan_id, pour_id : int, optional
        For which plan and pour.
    id : str
        UUID; the same id is the same move.
    """

    lot_id: int
    change: float
    why: str
    at: datetime = field(default_factory=now)
    plan_id: int | None = None
    pour_id: int | None = None
    id: str = field(default_factory=lambda: str(uuid.uuid4()))


def keep_lot(book: Book, lot: Lot) -> Lot:
    """Keep a new lot, with what it holds as its first move.

    Parameters
    ----------
    book : Book
        Open.
    lot : Lot
        Its ``id`` is not used.

    Returns
    -------
    Lot
        As the book has it.

    Raises
    ------
    UserError
        For a kind that is not known.
    """
    if lot.kind not in LOT_KINDS:
        raise UserError(f"no stock is called '{lot.kind}'", where="kind", allowed=", ".join(LOT_KINDS))
    values = (lot.kind, lot.material, lot.colour, lot.grade, lot.name, lot.unit, lot.note)
    times = (written_maybe(lot.bought), written_maybe(lot.opened), written_maybe(lot.expires))
    with book.writing():
        number = book.change(
            "INSERT INTO lots (kind, material, colour, grade, name, unit, note, bought_utc, opened_utc,"
            " expires_utc) VALUES (?,?,?,?,?,?,?,?,?,?)",
            values + times,
        ).lastrowid
        assert number is not None
        if lot.left:
            why = "made" if lot.kind == "mold" else "bought"
            keep_move(book, Move(lot_id=number, change=lot.left, why=why, at=lot.bought or now()))
    return lot_by_id(book, number)


def change_lot(
    book: Book,
    lot_id: int,
    *,
    opened: datetime | None = None,
    expires: datetime | None = None,
    note: str | None = None,
) -> Lot:
    """Note when a lot was opened, how long it keeps, or its condition; what is None stays.

    Parameters
    ----------
    book : Book
        Open.
    lot_id : int
        The lot.
    opened, expires : datetime, optional
        When.
    note : str, optional
        Words.

    Returns
    -------
    Lot
        As the book has it.
    """
    with book.writing():
        book.change(
            "UPDATE lots SET opened_utc = coalesce(?, opened_utc), expires_utc = coalesce(?, expires_utc),"
            " note = coalesce(?, note) WHERE id = ?",
            (written_maybe(opened), written_maybe(expires), note, lot_id),
        )
    return lot_by_id(book, lot_id)


_LOT = (
    "SELECT lots.*, coalesce((SELECT sum(change) FROM moves WHERE lot_id = lots.id), 0.0) AS left_over"
    " FROM lots"
)


def lot_by_id(book: Book, lot_id: int) -> Lot:
    """Find a lot.

    Parameters
    ----------
    book : Book
        Open.
    lot_id : int
        The number on its label.

    Returns
    -------
    Lot

    Raises
    ------
    NotThereError
        Where there is none.
    """
    found = book.row(f"{_LOT} WHERE id = ?", (lot_id,))
    if found is None:
        raise NotThereError(
            f"no lot {lot_id} is in the book", where="lot", todo="take its number from the list"
        )
    return _lot(found)


def lots_of(book: Book, kind: str | None = None, material: str | None = None) -> tuple[Lot, ...]:
    """List lots; of each thing the first to expire first, what never expires last, then the oldest.

    Parameters
    ----------
    book : Book
        Open.
    kind, material : str, optional
        Of these only.

    Returns
    -------
    tuple of Lot
    """
    asked = (
        f"{_LOT} WHERE (?1 IS NULL OR kind = ?1) AND (?2 IS NULL OR material = ?2)"
        " ORDER BY kind, material, colour, grade, expires_utc IS NULL, expires_utc, bought_utc, id"
    )
    return tuple(_lot(row) for row in book.rows(asked, (kind, material)))


def keep_move(book: Book, move: Move) -> bool:
    """Keep a move.

    Parameters
    ----------
    book : Book
        Open.
    move : Move
        One whose id is there already is the same move again.

    Returns
    -------
    bool
        Whether it is new.

    Raises
    ------
    UserError
        For a reason that is not known.
    """
    if move.why not in REASONS:
        raise UserError(f"'{move.why}' is no reason", where="why", allowed=", ".join(REASONS))
    values = (move.id, move.lot_id, written(move.at), move.change, move.why, move.plan_id, move.pour_id)
    with book.writing():
        if book.row("SELECT 1 FROM moves WHERE id = ?", (move.id,)):
            return False
        book.change("INSERT INTO moves VALUES (?,?,?,?,?,?,?)", values)
    return True


def move_by_id(book: Book, move_id: str) -> Move | None:
    """Find a move.

    Parameters
    ----------
    book : Book
        Open.
    move_id : str
        UUID.

    Returns
    -------
    Move or None
        None where there is none.
    """
    found = book.row("SELECT * FROM moves WHERE id = ?", (move_id,))
    return None if found is None else _move(found)


def count_lot(book: Book, lot_id: int, left: float, at: datetime | None = None) -> Lot:
    """Put right what is left of a lot, as it was counted or weighed.

    Parameters
    ----------
    book : Book
        Open.
    lot_id : int
        The lot.
    left : float
        What is really there, in its unit.
    at : datetime, optional
        When it was counted; else now.

    Returns
    -------
    Lot
        As the book has it then.

    Raises
    ------
    UserError
        For less than nothing.
    """
    if left < 0:
        raise UserError(
            "less than nothing cannot be left", where="lot", allowed="0 or more", todo="count again"
        )
    with book.writing():
        change = left - lot_by_id(book, lot_id).left
        if abs(change) > 1e-9:
            keep_move(book, Move(lot_id=lot_id, change=change, why="counted", at=at or now()))
        return lot_by_id(book, lot_id)


def moves_of(book: Book, lot_id: int | None = None, pour_id: int | None = None) -> tuple[Move, ...]:
    """List moves in the order of time.

    Parameters
    ----------
    book : Book
        Open.
    lot_id, pour_id : int, optional
        Of this lot, for this pour only.

    Returns
    -------
    tuple of Move
    """
    asked = (
        "SELECT * FROM moves WHERE (?1 IS NULL OR lot_id = ?1) AND (?2 IS NULL OR pour_id = ?2)"
        " ORDER BY at_utc, rowid"
    )
    if lot_id is None and pour_id is not None:
        # said so that the index of pours is used
        asked = "SELECT * FROM moves WHERE ?1 IS NULL AND pour_id = ?2 ORDER BY at_utc, rowid"
    return tuple(_move(row) for row in book.rows(asked, (lot_id, pour_id)))


def casts_of(book: Book, job: str, since: datetime | None = None, until: datetime | None = None) -> int:
    """Count the pieces that were cast by a job, each once however many its pours.

    Parameters
    ----------
    book : Book
        Open.
    job : str
        Whose.
    since, until : datetime, optional
        Begun in this time only.

    Returns
    -------
    int
    """
    asked = (
        "SELECT count(*) FROM (SELECT min(begun_utc) AS first FROM pours JOIN plans ON plans.id = plan_id"
        " WHERE job = ?1 AND number > 0 AND begun_utc IS NOT NULL GROUP BY variant, casting)"
        " WHERE (?2 IS NULL OR first >= ?2) AND (?3 IS NULL OR first < ?3)"
    )
    return int(book.number(asked, (job, written_maybe(since), written_maybe(until))))


def _lot(row: sqlite3.Row) -> Lot:
    return Lot(
        id=row["id"],
        kind=row["kind"],
        material=row["material"],
        colour=row["colour"],
        grade=row["grade"],
        name=row["name"],
        bought=read_maybe(row["bought_utc"]),
        opened=read_maybe(row["opened_utc"]),
        expires=read_maybe(row["expires_utc"]),
        note=row["note"],
        left=row["left_over"],
    )


def _move(row: sqlite3.Row) -> Move:
    return Move(
        id=row["id"],
        lot_id=row["lot_id"],
        change=row["change"],
        why=row["why"],
        at=read(row["at_utc"]),
        plan_id=row["plan_id"],
        pour_id=row["pour_id"],
    )
