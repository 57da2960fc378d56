"""A purchase that is here goes to the book's stock, once, and comes back."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from pathlib import Path
from uuid import UUID, uuid5

from pourwright.app.booking.places import book_place
from pourwright.app.booking.settling import LEAST
from pourwright.app.ordering.shelf import KINDS, PARTS
from pourwright.app.shopping.kept import Got
from pourwright.foundation.errors import ConflictError
from pourwright.records import Book, Lot, Move, keep_lot, keep_move, lot_by_id, move_by_id, open_book


def parts_of(got: Got) -> list[tuple[str, float]]:
    """Say as which lots a purchase is booked.

    Parameters
    ----------
    got : Got
        The purchase.

    Returns
    -------
    list of (str, float)
        Grade or part, and how much; nothing for what the book keeps no stock of.
    """
    if got.of not in KINDS:
        return []
    amount = got.kits * got.kit
    if got.of in ("resin", "rubber") and min(got.shares) > 0:
        return [(part, share * amount) for part, share in zip(PARTS, got.shares, strict=True)]
    return [(got.grade, amount)]


def put_on_stock(folder: Path, title: str, got: Got) -> None:
    """Put a purchase on stock; one that is there already stays there once.

    Parameters
    ----------
    folder : Path
        Of the order list.
    title : str
        Of the list, for the note.
    got : Got
        The purchase. Nothing happens where the shop has no book.
    """
    place = book_place(folder)
    if not place.is_file():
        return
    with open_book(place, make=False) as book, book.writing():
        for part, amount in parts_of(got):
            if move_by_id(book, _move(got, "in", part)) is None:
                lot = keep_lot(book, _lot(got, title, part))
                keep_move(book, Move(id=_move(got, "in", part), lot_id=lot.id, change=amount, why="bought"))


def take_off_stock(folder: Path, got: Got) -> None:
    """Take a purchase off the stock again; one that is not there is left alone.

    Parameters
    ----------
    folder : Path
        Of the order list.
    got : Got
        The purchase.

    Raises
    ------
    ConflictError
        Where something was used of it meanwhile; nothing is taken off then.
    """
    place = book_place(folder)
    if not place.is_file():
        return
    with open_book(place, make=False) as book, book.writing():
        for part, amount, lot in list(_there(book, got)):
            if abs(lot_by_id(book, lot).left - amount) > LEAST:
                what = f"lot {lot} is not what it was when it came: something was used or counted"
                raise ConflictError(what, where=f"lot {lot}", todo="count it under Stock instead")
            keep_move(book, Move(id=_move(got, "out", part), lot_id=lot, change=-amount, why="counted"))


def lots_of_tick(folder: Path, every: dict[str, Got]) -> tuple[bool, dict[str, list[int]]]:
    """Say where what is ticked lies.

    Parameters
    ----------
    folder : Path
        Of the order list.
    every : dict
        Purchases by line.

    Returns
    -------
    tuple of (bool, dict)
        Whether there is a book; numbers of lots by line.
    """
    place = book_place(folder)
    if not place.is_file():
        return False, {line: [] for line in every}
    with open_book(place, make=False) as book, book.reading():
        return True, {line: [lot for *_, lot in _there(book, got)] for line, got in every.items()}


def _there(book: Book, got: Got) -> Iterator[tuple[str, float, int]]:
    """Parts that were put there and not taken back: with amount and lot."""
    for part, amount in parts_of(got):
        came = move_by_id(book, _move(got, "in", part))
        if came is not None and move_by_id(book, _move(got, "out", part)) is None:
            yield part, amount, came.lot_id


def _move(got: Got, what: str, part: str) -> str:
    """Id of a move: the same tick, from whichever device, is the same move."""
    return str(uuid5(UUID(got.tick), f"{what} {part}"))


def _lot(got: Got, title: str, part: str) -> Lot:
    came = datetime.fromisoformat(got.came)
    material = got.id or ("glass" if got.of == "glass" else got.words)
    named = " ".join(each for each in (material, got.colour, part) if each)
    return Lot(
        kind=KINDS[got.of],
        material=material,
        name=named,
        colour=got.colour,
        grade=part,
        bought=came,
        expires=None if got.keeps_d is None else came + timedelta(got.keeps_d),
        note=f"from {got.supplier}, for {title}",
    )
