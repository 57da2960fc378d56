"""Learn from the shop's book, keep what was learnt in it, and take it back."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from pourwright.app.booking.intake import take_in_journal
from pourwright.app.booking.places import book_place
from pourwright.app.learning.from_book import ASIDE, BACK, key_of, records_in_book
from pourwright.app.learning.learnt import learn_all
from pourwright.app.learnt.words import shown, told
from pourwright.app.shelf.places import job_places
from pourwright.calibration.learning.quantities import QUANTITIES
from pourwright.calibration.learning.record import Learned, Record
from pourwright.foundation.errors import NotThereError
from pourwright.materials import Materials, load_materials
from pourwright.records import (
    Book,
    Entry,
    Learned as Kept,
    keep_entry,
    keep_learned,
    learned_ever,
    learned_now,
    open_book,
    undo_learned,
)
from pourwright.records.moments import now

SAME = 1e-9
"""Values that differ by a smaller share are the same."""


def learn_in_shop(
    shop: Path,
    *,
    set_aside: str | None = None,
    take_back: str | None = None,
    undo: int | None = None,
    units: str = "metric",
) -> dict[str, Any]:
    """Learn from all that the book of a shop holds.

    Parameters
    ----------
    shop : Path
        Its folder.
    set_aside, take_back : str, optional
        Id of a record that is not to be learnt from, or is again.
    undo : int, optional
        Number of what was learnt that is taken back; it stays so until there are other records.
    units : str
        ``metric`` or ``us``.

    Returns
    -------
    dict
        ``learnt``: value, band, family and words of each number; ``records`` with what each says.

    Raises
    ------
    NotThereError
        Where there is no book, or no such record or number.
    """
    place = book_place(shop)
    materials = load_materials(place.parent if (place.parent / "materials").is_dir() else None)
    with open_book(place, make=False) as book:
        for one in job_places(place.parent):
            take_in_journal(book, one.folder)
        records = _records(book, materials)
        for record_id, begins in ((set_aside, ASIDE), (take_back, BACK)):
            if record_id is not None:
                _note(book, _named(records, record_id), begins)
                records = _records(book, materials)
        learned = learn_all(records, materials)
        _keep(book, learned)
        if undo is not None:
            _undo(book, undo)
        return _report(book, learned, records, units)


def _records(book: Book, materials: Materials) -> list[Record]:
    """All records; what the molds hold is learnt first, for the voids are told by it."""
    found = records_in_book(book, materials)
    cavities = learn_all([each for each in found if each.quantity == "cavity"], materials)
    if not cavities:
        return found
    _keep(book, cavities)
    return records_in_book(book, materials)


def _named(records: Sequence[Record], record_id: str) -> Record:
    for record in records:
        if record.id == record_id:
            return record
    raise NotThereError(f"no record '{record_id}'", where="record", todo="take its id from the list")


def _note(book: Book, record: Record, begins: str) -> None:
    pour = int(record.id.partition(":")[0])
    text = f"{begins} {key_of(record)}"
    keep_entry(book, Entry(pour_id=pour, kind="note", at=now(), text=text, source="learning"))


def _keep(book: Book, learned: Sequence[Learned]) -> None:
    """Keep what is new; what was taken back stays so while its records are the same."""
    latest = {(row.quantity, row.subject): row for row in learned_ever(book)}
    for one in learned:
        row = latest.get((one.quantity, one.subject))
        if row is None or not _same(row, one):
            keep_learned(book, _row(one))


def _row(one: Learned) -> Kept:
    family = one.family
    from_family = Learned.deviation_of(family.low, family.high)
    return Kept(
        quantity=one.quantity, subject=one.subject, prior_mean=family.value, prior_sd=from_family,
        mean=one.mean, sd=one.deviation, records=one.records,
    )  # fmt: skip


def _same(row: Kept, one: Learned) -> bool:
    close = abs(row.mean - one.mean) <= SAME * abs(one.mean)
    return close and row.records == one.records


def _undo(book: Book, number: int) -> None:
    if number not in {row.id for row in learned_now(book)}:
        raise NotThereError(f"nothing was learnt under {number}", where="undo", todo="take it from the list")
    undo_learned(book, number)


def _report(book: Book, learned: Sequence[Learned], records: Sequence[Record], units: str) -> dict[str, Any]:
    rows = {(row.quantity, row.subject): row.id for row in learned_now(book)}
    return {
        "learnt": [_told(one, rows.get((one.quantity, one.subject)), units) for one in learned],
        "records": [_record(record, units) for record in records],
    }


def _record(record: Record, units: str) -> dict[str, Any]:
    counted = QUANTITIES[record.quantity].scale == "count"
    value = (
        f"{record.value:.0f} of {record.trials}" if counted else shown(record.quantity, record.value, units)
    )
    what, aside = record.quantity.replace("_", " "), ", set aside" if record.aside else ""
    return {
        "id": record.id,
        "quantity": record.quantity,
        "subject": record.subject,
        "value": record.value,
        "at": record.at,
        "set_aside": record.aside,
        "words": f"{what}, {record.subject}: {value}, {record.at[:10]}{aside}",
    }


def _told(one: Learned, number: int | None, units: str) -> dict[str, Any]:
    return {
        "number": number,
        "in_force": number is not None,
        "quantity": one.quantity,
        "subject": one.subject,
        "value": one.value,
        "low": one.low,
        "high": one.high,
        "family": one.family.value,
        "records": one.records,
        "kept_family": one.kept_family,
        "error": one.error,
        "family_error": one.family_error,
        "look_wrong": [
            {"id": each.id, "value": each.value, "words": shown(one.quantity, each.value, units)}
            for each in one.suspects
        ],
        "words": told(one, units) if number is not None else f"Taken back: {told(one, units)}",
    }
