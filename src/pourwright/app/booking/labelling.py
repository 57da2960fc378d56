"""Labels for what is on stock."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from pourwright.app.booking.clock import shown_day
from pourwright.app.booking.counting import zone_of
from pourwright.app.booking.places import book_place
from pourwright.app.booking.settling import LEAST
from pourwright.app.booking.shelves import KIND_NAMES, grade_words
from pourwright.foundation.errors import NotThereError, TooMuchError
from pourwright.foundation.notation import UnitSystem
from pourwright.records import Book, Lot, lot_by_id, lots_of, open_book
from pourwright.sheets.lot_labels import LotLabel, labels_pdf

MOST = 1000
"""Labels that are printed at once."""


def labels_of(shop: Path, lots: Sequence[int] = ()) -> bytes:
    """Make labels for lots.

    Parameters
    ----------
    shop : Path
        Its folder.
    lots : sequence of int
        Their numbers; else all that hold something, and the molds.

    Returns
    -------
    bytes
        A PDF file, ten labels to a page.

    Raises
    ------
    NotThereError
        For a lot that is not there, and where nothing is on stock.
    TooMuchError
        For more labels than are printed at once.
    """
    with open_book(book_place(shop), make=False) as book:
        zone, units = zone_of(book)
        found = _meant(book, list(dict.fromkeys(lots)))
    if not found:
        raise NotThereError(
            "nothing is on stock", where="lot", todo="put it there first: pourwright book add"
        )
    if len(found) > MOST:
        raise TooMuchError(
            "too many labels", where="lot", allowed=f"{MOST} at once", todo="name some of them"
        )
    labels = [label_of(lot, zone) for lot in found]
    return labels_pdf(labels, "A4" if UnitSystem(units) is UnitSystem.METRIC else "letter")


def _meant(book: Book, numbers: Sequence[int]) -> list[Lot]:
    if numbers:
        return [lot_by_id(book, number) for number in numbers[: MOST + 1]]
    return [lot for lot in lots_of(book) if lot.left > LEAST or lot.kind == "mold"]


def label_of(lot: Lot, zone: str) -> LotLabel:
    """Say what stands on the label of a lot.

    Parameters
    ----------
    lot : Lot
        As the book has it.
    zone : str
        Of the shop's clock.

    Returns
    -------
    LotLabel
        A mold tells when it was made; all else when it was opened and how long it keeps, or has room for it.
    """
    sort = ", ".join(each for each in (lot.colour, grade_words(lot.kind, lot.grade)) if each)
    what = [KIND_NAMES[lot.kind], lot.material, sort]
    dates = [("Made" if lot.kind == "mold" else "Bought", shown_day(lot.bought, zone))]
    if lot.kind != "mold":
        dates += [("Opened", shown_day(lot.opened, zone)), ("Keeps until", shown_day(lot.expires, zone))]
    return LotLabel(
        number=lot.id,
        name=lot.name or KIND_NAMES[lot.kind],
        what=[each for each in what if each],
        dates=dates,
    )
