"""How far the sawing is: what is ticked, what no longer holds, what is left of sheets that are done."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from pourwright.app.booking.places import book_place
from pourwright.app.ticking.kept import Ticked, ticked_of
from pourwright.app.ticking.listed import Listed, Wood
from pourwright.app.ticking.offcuts import Offcut, offcuts_of, told_offcut
from pourwright.app.ticking.ticks import done_of, dropped_of
from pourwright.foundation.errors import ConflictError, NotThereError
from pourwright.records import Book, open_book

EARLIER = (
    "Some of its parts were sawn by an earlier list, so what is left of it is not known: measure it, and put "
    "it on stock by hand."
)


def state_of(folder: Path, listed: Listed) -> dict[str, Any]:
    """Say how far the sawing is.

    Parameters
    ----------
    folder : Path
        Of the job.
    listed : Listed
        The list.

    Returns
    -------
    dict
        ``list``, ``old`` with ``word`` and ``because``, the marks that are ``sawn`` of how many ``parts``,
        what was ``dropped``, whether there is a ``book``, and ``wood``: each sheet and bar.
    """
    ticked = ticked_of(folder, listed.variant)
    done = done_of(listed, ticked)
    with _book(folder) as book:
        wood = [_wood(book, listed, ticked, done, one) for one in listed.wood]
        there = book is not None
    return {
        "list": listed.digest,
        "old": listed.old,
        "word": listed.word,
        "because": listed.because,
        "sawn": [mark for mark in listed.parts if mark in done],
        "parts": len(listed.parts),
        "dropped": list(dropped_of(listed, ticked)),
        "book": there,
        "wood": wood,
    }


def offcut_that_is_there(folder: Path, listed: Listed, sheet: str, piece: int) -> Offcut:
    """Find an offcut of a sheet that is done, or one that is in the book already.

    Parameters
    ----------
    folder : Path
        Of the job.
    listed : Listed
        The list.
    sheet : str
        As ``sheet-1``.
    piece : int
        Among what is left of it, from 1 on.

    Returns
    -------
    Offcut

    Raises
    ------
    NotThereError
        For one that the list does not have.
    ConflictError
        For one whose sheet is not sawn, or not by this list.
    """
    ticked = ticked_of(folder, listed.variant)
    found = [
        (wood, one)
        for wood in listed.wood
        for one in offcuts_of(wood, ticked)
        if (wood.name, one.number) == (sheet, piece)
    ]
    if not found:
        raise NotThereError("nothing of this name is left", where="sheet", todo="take it from the list")
    wood, offcut = found[0]
    with _book(folder) as book:
        booked = told_offcut(book, listed, offcut)["lot"] is not None
    if not booked and not _by_this_list(wood, ticked, done_of(listed, ticked)):
        raise ConflictError(
            f"{wood.of.name} is not sawn yet by this list", where="sheet", todo="tick all of its parts first"
        )
    return offcut


@contextmanager
def _book(folder: Path) -> Iterator[Book | None]:
    place = book_place(folder)
    if not place.exists():
        yield None
        return
    with open_book(place, make=False) as book:
        yield book


def _wood(book: Book | None, listed: Listed, ticked: Ticked, done: set[str], wood: Wood) -> dict[str, Any]:
    sawn = sum(mark in done for mark in wood.marks)
    whole = sawn == len(wood.marks)
    ours = _by_this_list(wood, ticked, done)
    told = [told_offcut(book, listed, one) for one in offcuts_of(wood, ticked)]
    return {
        "name": wood.name,
        "parts": len(wood.marks),
        "sawn": sawn,
        "left": [one for one in told if ours or one["lot"] is not None],
        "words": EARLIER if whole and not ours and told else "",
    }


def _by_this_list(wood: Wood, ticked: Ticked, done: set[str]) -> bool:
    """Whether all parts were sawn from this very sheet, as it is drawn."""
    return all(mark in done and ticked.ticks[mark].wood == wood.print for mark in wood.marks)
