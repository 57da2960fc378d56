"""Stock from the terminal: a new lot, a stock-take, keeping what a plan needs."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import Any

from pourwright.app.booking.casting import casting_of
from pourwright.app.booking.clock import read_when
from pourwright.app.booking.places import book_place, job_folder, plan_on_disk
from pourwright.app.booking.settling import LEAST, document
from pourwright.app.booking.stock import history_of_lot, stock_of
from pourwright.app.booking.words import shown_amount
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import System, UnitSystem, parse_quantity
from pourwright.foundation.quantities import Dimension
from pourwright.records import (
    LOT_KINDS,
    Book,
    Lot,
    Move,
    change_lot,
    count_lot,
    free,
    keep_lot,
    keep_move,
    lot_by_id,
    open_book,
    plans_of,
    reserve,
)

AMOUNTS = {
    "kg": 'a mass, as "5 kg"',
    "m2": 'length x width of the board, as "2440 mm x 1220 mm"',
    "pieces": 'a number, as "12"',
    "casts": "nothing",
}


def add_lot(
    shop: Path,
    kind: str,
    material: str,
    amount: str = "",
    *,
    name: str | None = None,
    colour: str = "",
    grade: str = "",
    bought: str | None = None,
    opened: str | None = None,
    expires: str | None = None,
    note: str = "",
) -> dict[str, Any]:
    """Put a new lot on stock.

    Parameters
    ----------
    shop : Path
        Its folder.
    kind, material : str
        As of a `pourwright.records.Lot`.
    amount : str
        How much, with its unit.
    name : str, optional
        What stands on the tub.
    colour, grade : str
        Of glass; of a kit, ``grade`` says which part.
    bought, opened, expires : str, optional
        Days, as 2026-12-01.
    note : str
        Words.

    Returns
    -------
    dict
        ``lot`` and the stock as it then is.

    Raises
    ------
    UserError
        For what cannot be read.
    """
    if kind not in LOT_KINDS:
        raise UserError(f"no stock is called '{kind}'", where="kind", allowed=", ".join(LOT_KINDS))
    with open_book(book_place(shop)) as book:
        zone = zone_of(book)[0]
        lot = Lot(
            kind=kind,
            material=material,
            name=name or " ".join(part for part in (material, colour, grade) if part),
            colour=colour,
            grade=grade,
            bought=_day(bought, zone, "--bought"),
            opened=_day(opened, zone, "--opened"),
            expires=_day(expires, zone, "--expires"),
            note=note,
            left=read_amount(kind, amount, "AMOUNT") if kind != "mold" else 0.0,
        )
        kept = keep_lot(book, lot)
        return {"lot": kept.id, **_stock(book)}


def take_lot(
    shop: Path,
    lot: int,
    left: str | None = None,
    *,
    used: str | None = None,
    opened: str | None = None,
    expires: str | None = None,
    note: str | None = None,
) -> dict[str, Any]:
    """Put right what is told of a lot: what is left, when it was opened, how long it keeps, its condition.

    Parameters
    ----------
    shop : Path
        Its folder.
    lot : int
        Its number.
    left : str, optional
        As counted or weighed.
    used : str, optional
        Or what was taken out of it, for something that stands in no log.
    opened, expires : str, optional
        Days, as 2026-12-01.
    note : str, optional
        Words; of a mold, its condition.

    Returns
    -------
    dict
        ``lot``, its ``history``, and the stock as it then is.

    Raises
    ------
    UserError
        For what cannot be read, and a lot that is not there.
    """
    with open_book(book_place(shop)) as book, book.writing():
        kind, zone = lot_by_id(book, lot).kind, zone_of(book)[0]
        if left is not None and used is not None:
            raise UserError("both cannot be", where="--used", todo="say what is left, or what was taken out")
        if left is not None:
            count_lot(book, lot, read_amount(kind, left, "LEFT", least=0.0))
        if used is not None:
            _take_out(book, lot, read_amount(kind, used, "--used"))
        change_lot(
            book,
            lot,
            opened=_day(opened, zone, "--opened"),
            expires=_day(expires, zone, "--expires"),
            note=note,
        )
        return {"lot": lot, "history": history_of_lot(book, lot), **_stock(book)}


def _take_out(book: Book, lot: int, amount: float) -> None:
    there = lot_by_id(book, lot)
    if amount > there.left + LEAST:
        left = shown_amount(there.left, there.unit, zone_of(book)[1])
        raise UserError(
            "more than there is", where="--used", allowed=f"up to {left}", todo="or count what is left of it"
        )
    keep_move(book, Move(lot_id=lot, change=-amount, why="used"))


def reserve_job(
    job: Path, *, variant: str | None = None, casting: int | None = None, no_more: bool = False
) -> dict[str, Any]:
    """Keep what a plan needs for it, or no longer.

    Parameters
    ----------
    job : Path
        Its folder or file.
    variant : str, optional
        Needed where the job has plans of several.
    casting : int, optional
        Which piece; else the one under way, or the next.
    no_more : bool
        Whether it is freed instead.

    Returns
    -------
    dict
        The stock as it then is.

    Raises
    ------
    UserError
        Where there is no plan.
    """
    folder = job_folder(job)
    plan = plan_on_disk(folder, variant)
    with open_book(book_place(folder)) as book, book.writing():
        kept = plan.kept(book)
        number = casting_of(book, plan, "poured", casting).number
        (free if no_more else reserve)(book, kept.id, number)
        return _stock(book)


def tell_stock(shop: Path) -> dict[str, Any]:
    """Say what is on stock.

    Parameters
    ----------
    shop : Path
        Its folder.

    Returns
    -------
    dict
        As `pourwright.app.booking.stock.stock_of`, with ``units`` and ``time_zone`` of the latest plan.
    """
    with open_book(book_place(shop), make=False) as book:
        return _stock(book)


def _stock(book: Book) -> dict[str, Any]:
    zone, units = zone_of(book)
    return {"time_zone": zone, "units": units, **stock_of(book)}


def zone_of(book: Book) -> tuple[str, System]:
    """Say which clock and which units the shop goes by: those of its latest plan.

    Parameters
    ----------
    book : Book
        Open.

    Returns
    -------
    tuple of (str, UnitSystem)
        UTC and metric where there is no plan yet.
    """
    latest = plans_of(book, most=1)
    if not latest:
        return "UTC", UnitSystem.METRIC
    job = document(book, latest[0].id).job
    return job.time_zone, UnitSystem(job.units)


def read_amount(kind: str, text: str, where: str, least: float = 1e-9) -> float:
    """Read an amount of a kind of stock.

    Parameters
    ----------
    kind : str
        Of the lot.
    text : str
        As written.
    where : str
        What messages call it.
    least : float
        The least that is allowed.

    Returns
    -------
    float
        In the unit of the kind.

    Raises
    ------
    UserError
        For what is no such amount.

    Examples
    --------
    >>> round(read_amount("board", "2440 mm x 1220 mm", "AMOUNT"), 4)
    2.9768
    """
    unit = LOT_KINDS[kind]
    allowed = AMOUNTS[unit]
    if unit == "kg":
        amount = parse_quantity(text, Dimension.MASS, where=where).si
    elif unit == "m2" and text.strip() != "0":
        sides = [parse_quantity(side, Dimension.LENGTH, where=where).si for side in text.split(" x ")]
        amount = sides[0] * sides[1] if len(sides) == 2 else -1.0
    else:
        amount = float(text) if text.strip().isdecimal() else -1.0
    if amount < least:
        raise UserError(f"'{text}' is no amount of {kind}", where=where, allowed=allowed, todo="write it so")
    return amount


def _day(text: str | None, zone: str, where: str) -> datetime | None:
    if text is None:
        return None
    try:
        return read_when(f"{text} 12:00", zone) if len(text) == len("2026-12-01") else read_when(text, zone)
    except UserError as error:
        todo = "write it as 2026-12-01"
        raise UserError(f"'{text}' is no day", where=where, allowed="YYYY-MM-DD", todo=todo) from error
