"""What is left of a sheet that is sawn goes to the book's stock, once, and comes back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import count
from pathlib import Path
from typing import Any
from uuid import UUID, uuid5

from pourwright.app.booking.places import book_place
from pourwright.app.booking.settling import LEAST
from pourwright.app.ticking.kept import Ticked
from pourwright.app.ticking.listed import Listed, Wood
from pourwright.app.ticking.sizes import offcut_name, sizes_in
from pourwright.foundation.errors import ConflictError, NotThereError
from pourwright.jobs.cut_nested import LeftPiece, NestedSheet
from pourwright.records import Book, Lot, Move, keep_lot, keep_move, lot_by_id, lots_of, move_by_id, open_book
from pourwright.records.moments import now

NARROWEST = 0.1
"""What is narrower is no offcut worth keeping [m], common practice."""
ROOM = 1e-4
"""By which a lot may be smaller than what comes out of it [m2]."""


@dataclass(frozen=True)
class Offcut:
    """A piece that is left of a sheet.

    Parameters
    ----------
    wood : Wood
        The sheet.
    number : int
        Among all that is left of it, from 1 on.
    sawing : str
        Id of the sawing that leaves it.
    """

    wood: Wood
    number: int
    sawing: str

    @property
    def sheet(self) -> NestedSheet:
        """What it is left of."""
        assert isinstance(self.wood.of, NestedSheet)
        return self.wood.of

    @property
    def piece(self) -> LeftPiece:
        """Where it lies and how large it is."""
        return self.sheet.left[self.number - 1]

    @property
    def area(self) -> float:
        """How much it is [m2]."""
        return self.piece.length_m * self.piece.width_m

    def move(self, what: str, turn: int) -> str:
        """Id of a move in the book: the same press, from whichever device, is the same move."""
        return str(uuid5(UUID(self.sawing), f"{self.wood.print} {self.number} {what} {turn}"))


def offcuts_of(wood: Wood, ticked: Ticked) -> Iterator[Offcut]:
    """List what is worth keeping of a sheet, the largest first.

    Parameters
    ----------
    wood : Wood
        A sheet; a bar leaves nothing that the book counts.
    ticked : Ticked
        Of the list.

    Yields
    ------
    Offcut
    """
    if isinstance(wood.of, NestedSheet):
        for number, piece in enumerate(wood.of.left, start=1):
            if min(piece.length_m, piece.width_m) >= NARROWEST:
                yield Offcut(wood, number, ticked.id)


def told_offcut(book: Book | None, listed: Listed, offcut: Offcut) -> dict[str, Any]:
    """Tell an offcut and where it is.

    Parameters
    ----------
    book : Book or None
        Open; None where there is none.
    listed : Listed
        The list.
    offcut : Offcut
        Which.

    Returns
    -------
    dict
        ``piece``, ``size``, the ``lot`` it is in the book (or None), the ``lots`` it may be taken from.
    """
    piece = offcut.piece
    told = {"piece": offcut.number, "size": listed.words.size((piece.length_m, piece.width_m))}
    if book is None:
        return told | {"lot": None, "lots": []}
    turn, lot = _standing(book, offcut)
    return told | {"lot": lot, "lots": [] if lot else list(_sources(book, listed, offcut, turn))}


def put_on_stock(folder: Path, listed: Listed, offcut: Offcut, source: int | None) -> None:
    """Put an offcut on stock; one that is there already stays there once.

    Parameters
    ----------
    folder : Path
        Of the job.
    listed : Listed
        The list.
    offcut : Offcut
        Which.
    source : int or None
        Number of the lot that its sheet was; the area moves from there. None: the sheet is not in the book.

    Raises
    ------
    NotThereError
        Where there is no book, or no such lot.
    ConflictError
        Where the lot does not hold so much.
    """
    place = book_place(folder)
    if not place.exists():
        raise NotThereError("this shop has no book yet", todo="begin it: put a first lot on stock")
    with open_book(place, make=False) as book, book.writing():
        turn, lot = _standing(book, offcut)
        if lot is not None:
            return
        if source is not None:
            _take(book, offcut, source, turn)
        number = _lot_of(book, listed, offcut, turn)
        keep_move(book, Move(id=offcut.move("in", turn), lot_id=number, change=offcut.area, why="made"))


def take_off_stock(folder: Path, offcut: Offcut) -> None:
    """Take an offcut off the stock again; one that is not there is left alone.

    Parameters
    ----------
    folder : Path
        Of the job.
    offcut : Offcut
        Which.

    Raises
    ------
    ConflictError
        Where something was taken of it meanwhile.
    """
    place = book_place(folder)
    if not place.exists():
        return
    with open_book(place, make=False) as book, book.writing():
        turn, number = _standing(book, offcut)
        if number is None:
            return
        if abs(lot_by_id(book, number).left - offcut.area) > ROOM:
            what = f"lot {number} is not what it was when it was put there"
            raise ConflictError(what, where=f"lot {number}", todo="count it under Stock instead")
        keep_move(book, Move(id=offcut.move("out", turn), lot_id=number, change=-offcut.area, why="counted"))
        taken = move_by_id(book, offcut.move("from", turn))
        if taken is not None:
            back = offcut.move("back", turn)
            keep_move(book, Move(id=back, lot_id=taken.lot_id, change=-taken.change, why="given back"))


def _standing(book: Book, offcut: Offcut) -> tuple[int, int | None]:
    """How often it was put there and taken back, and its lot where it is there now."""
    for turn in count():
        there = move_by_id(book, offcut.move("in", turn))
        if there is None:
            return turn, None
        if move_by_id(book, offcut.move("out", turn)) is None:
            return turn, there.lot_id
    raise AssertionError


def _take(book: Book, offcut: Offcut, source: int, turn: int) -> None:
    lot = lot_by_id(book, source)
    if lot.kind != "board" or lot.left < offcut.area - ROOM:
        raise ConflictError(
            f"lot {source} does not hold so much board", where="source", todo="choose another, or none"
        )
    part = min(offcut.area, lot.left)
    keep_move(book, Move(id=offcut.move("from", turn), lot_id=source, change=-part, why="used"))


def _lot_of(book: Book, listed: Listed, offcut: Offcut, turn: int) -> int:
    """The lot of an offcut that was there before, else a new one that is empty."""
    before = move_by_id(book, offcut.move("in", 0)) if turn else None
    if before is not None:
        return before.lot_id
    sheet, piece = offcut.sheet, offcut.piece
    size = piece.length_m, piece.width_m, sheet.thickness_m
    name, note = offcut_name(size, listed.words), f"left of {sheet.name}, {listed.sheet.job.title}"
    lot = Lot(kind="board", material=sheet.board_id, name=name, note=note, bought=now())
    return keep_lot(book, lot).id


def _sources(book: Book, listed: Listed, offcut: Offcut, turn: int) -> Iterator[dict[str, Any]]:
    """Lots that the sheet may have been; the one that it most likely was comes first."""
    sheet, before = offcut.sheet, set(_lots_before(book, offcut))
    own = move_by_id(book, offcut.move("in", 0)) if turn else None
    lots = [
        (lot, lot.id in before or (not before and _was(lot, sheet)))
        for lot in lots_of(book, "board", sheet.board_id)
        if lot.left >= offcut.area - ROOM and lot.left > LEAST and (own is None or lot.id != own.lot_id)
    ]
    for lot, likely in sorted(lots, key=lambda pair: not pair[1]):
        left = listed.words.area(lot.left)
        yield {"lot": lot.id, "words": f"lot {lot.id}: {lot.name}, {left} left", "likely": likely}


def _lots_before(book: Book, offcut: Offcut) -> Iterator[int]:
    """Lots that other pieces of the same sheet were taken from."""
    for number in range(1, len(offcut.sheet.left) + 1):
        other = replace(offcut, number=number)
        turn, lot = _standing(book, other)
        taken = None if lot is None else move_by_id(book, other.move("from", turn))
        if taken is not None:
            yield taken.lot_id


def _was(lot: Lot, sheet: NestedSheet) -> bool:
    """Whether a lot may be the sheet: large enough, and of its sizes where its name has any."""
    sizes = sizes_in(lot.name)
    if sizes is not None:
        wanted = (sheet.length_m, sheet.width_m, sheet.thickness_m)
        return all(abs(one - other) < 1e-3 for one, other in zip(sizes, wanted, strict=True))
    return not sheet.offcut and lot.left >= sheet.length_m * sheet.width_m - ROOM
