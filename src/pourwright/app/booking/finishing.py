"""A finished piece: its lasting number, and everything that its card tells."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import Any

from pourwright.app.booking.casting import Casting, read_casting
from pourwright.app.booking.clock import read_when
from pourwright.app.booking.photos import take_photo
from pourwright.app.booking.places import book_place, job_folder, plan_on_disk
from pourwright.app.booking.settling import document
from pourwright.app.booking.went_in import mass_in_mold, went_in
from pourwright.app.shelf.places import job_place
from pourwright.foundation.errors import NotThereError, UserError
from pourwright.foundation.notation import parse_quantity
from pourwright.foundation.quantities import Dimension
from pourwright.records import (
    Book,
    Piece,
    castings_in,
    change_piece,
    keep_photo,
    keep_piece,
    lot_by_id,
    lots_of,
    moves_of,
    open_book,
    piece_by_number,
    plan_by_id,
    pours_of_job,
)
from pourwright.records.moments import written, written_maybe


def finish_piece(
    job: Path,
    *,
    variant: str | None = None,
    casting: int | None = None,
    mass: str | None = None,
    at: str | None = None,
    photo: Path | None = None,
    photo_hash: str | None = None,
    note: str = "",
) -> dict[str, Any]:
    """Give a piece that is out of its mold and finished its number.

    Parameters
    ----------
    job : Path
        Its folder or file.
    variant : str, optional
        Needed where the job has plans of several.
    casting : int, optional
        Which piece; else the last.
    mass : str, optional
        As weighed, with its unit.
    at : str, optional
        When it was finished, on the shop's clock; else now.
    photo : Path, optional
        A photo of it.
    photo_hash : str, optional
        Or one that lies beside the job's journal already.
    note : str
        Words.

    Returns
    -------
    dict
        Its card, as `piece_card`.

    Raises
    ------
    NotThereError
        Where nothing was cast yet.
    UserError
        For what cannot be read.
    ConflictError
        Where it has its number already.
    """
    folder = job_folder(job)
    plan = plan_on_disk(folder, variant)
    weighed = _weighed(mass)
    with open_book(book_place(folder)) as book, book.writing():
        if photo_hash is not None:
            take_photo(book, folder, photo_hash)
        cast = _casting(book, plan.job, plan.variant, casting)
        begun_under = cast.logged[0][0]
        piece = Piece(
            title=plan.plan.job.title,
            plan_id=begun_under.id,
            casting=cast.number,
            finished=read_when(at, plan.plan.job.time_zone),
            mass_kg=weighed,
            mold_id=_mold(book, plan.job, _begun(cast)),
            photo_hash=photo_hash if photo is None else keep_photo(book, _content(photo)),
            note=note,
        )
        return piece_card(book, keep_piece(book, piece).number)


def change_card(
    shop: Path,
    number: int,
    *,
    mass: str | None = None,
    photo_hash: str | None = None,
    note: str | None = None,
) -> None:
    """Change what is told of a finished piece; what is None stays.

    Parameters
    ----------
    shop : Path
        Its folder.
    number : int
        Of the piece.
    mass : str, optional
        As weighed, with its unit.
    photo_hash : str, optional
        Of a photo that lies beside the journal of its job.
    note : str, optional
        Words.

    Raises
    ------
    UserError
        For what cannot be read, and a piece that is not there.
    """
    weighed = _weighed(mass)
    with open_book(book_place(shop), make=False) as book, book.writing():
        plan = plan_by_id(book, piece_by_number(book, number).plan_id)
        if photo_hash is not None:
            take_photo(book, job_place(shop, plan.job).folder, photo_hash)
        change_piece(book, number, mass_kg=weighed, photo_hash=photo_hash, note=note)


def _weighed(mass: str | None) -> float | None:
    weighed = None if mass is None else parse_quantity(mass, Dimension.MASS, where="--mass").si
    if weighed is not None and weighed <= 0:
        raise UserError(f"'{mass}' is no mass of a piece", where="--mass", todo="weigh it again")
    return weighed


def _casting(book: Book, job: str, variant: str, number: int | None) -> Casting:
    castings = castings_in(book, job, variant)
    wanted = number or max(castings, default=0)
    if wanted in castings:
        return read_casting(book, job, variant, wanted)
    allowed = ", ".join(map(str, castings)) or "none yet"
    raise NotThereError(
        "this piece was not cast", where="--casting", allowed=allowed, todo="log its pours first"
    )


def _begun(cast: Casting) -> datetime | None:
    return min((pour.begun for _, pour, _ in cast.logged if pour.begun), default=None)


def _mold(book: Book, job: str, begun: datetime | None) -> int | None:
    """The mold that was there when it was cast."""
    molds = [lot for lot in lots_of(book, "mold", job) if not (lot.bought and begun and lot.bought > begun)]
    return molds[-1].id if molds else None


def _content(photo: Path) -> bytes:
    try:
        return photo.read_bytes()
    except OSError as error:
        what = f"the photo cannot be read: {error.strerror or error}"
        raise UserError(what, where=str(photo), todo="name a file that is there") from error


def piece_card(book: Book, number: int) -> dict[str, Any]:
    """Say everything that the card of a finished piece tells.

    Parameters
    ----------
    book : Book
        Open.
    number : int
        Of the piece.

    Returns
    -------
    dict
        ``number``, ``title``, what it was cast by, dates (UTC), masses, the ``lots`` it was cast from,
        ``photos``.

    Raises
    ------
    NotThereError
        Where there is no such piece.
    """
    piece = piece_by_number(book, number)
    plan = plan_by_id(book, piece.plan_id)
    job = document(book, plan.id).job
    cast = _casting(book, plan.job, plan.variant, piece.casting)
    entries = [entry for _, _, found in cast.logged for entry in found]
    out = next((entry.at for entry in entries if entry.kind == "demolded"), None)
    photos = [piece.photo_hash, *(entry.photo_hash for entry in entries)]
    return {
        "number": piece.number,
        "title": piece.title,
        "job": plan.job,
        "variant": plan.variant,
        "casting": piece.casting,
        "plan": plan.hash,
        "version": plan.version,
        "units": job.units,
        "time_zone": job.time_zone,
        "begun": written_maybe(_begun(cast)),
        "demolded": written_maybe(out),
        "finished": written(piece.finished),
        "mass_kg": piece.mass_kg,
        "poured_kg": _poured(book, cast),
        "mold": piece.mold_id,
        "lots": _lots(book, plan.job, plan.variant, piece.casting),
        "photos": list(dict.fromkeys(one for one in photos if one)),
        "note": piece.note,
    }


def _poured(book: Book, cast: Casting) -> float:
    """What went into the mold in all its pours [kg]."""
    pours = [(document(book, plan.id), went_in(entries).masses) for plan, _, entries in cast.logged]
    known = [mass_in_mold(plan, masses) for plan, masses in pours]
    return sum(one.mass for one in known if one is not None)


def _lots(book: Book, job: str, variant: str, casting: int) -> list[dict[str, Any]]:
    used: dict[int, float] = {}
    for _, pour in pours_of_job(book, job, variant, casting):
        for move in moves_of(book, pour_id=pour.id):
            used[move.lot_id] = used.get(move.lot_id, 0.0) - move.change
    lots = [(lot_by_id(book, lot_id), amount) for lot_id, amount in sorted(used.items()) if amount > 1e-6]
    return [
        {
            "lot": lot.id,
            "kind": lot.kind,
            "name": lot.name,
            "bought": written_maybe(lot.bought),
            "amount": amount,
            "unit": lot.unit,
        }
        for lot, amount in lots
    ]
