"""Take what the journals hold into the book: nothing twice, nothing dropped in silence."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from pourwright.app.benching.journal import JournalEntry, read_journal
from pourwright.app.booking.casting import GOES_IN, WHOLE
from pourwright.app.booking.photos import take_photo
from pourwright.app.booking.places import PlanOnDisk, plan_of_hash
from pourwright.app.booking.settling import settle
from pourwright.foundation.errors import UserError
from pourwright.records import (
    Book,
    Entry,
    Pour,
    end_pour,
    has_entry,
    keep_entry,
    keep_pour,
    pours_of_job,
)


@dataclass(frozen=True)
class Taken:
    """What came of a journal.

    Parameters
    ----------
    entries : int
        New in the book.
    told : tuple of str
        What could not be taken in, in words.
    """

    entries: int
    told: tuple[str, ...]


def take_in_journal(book: Book, folder: Path) -> Taken:
    """Take a job's journal into the book.

    Parameters
    ----------
    book : Book
        Open.
    folder : Path
        Of the job.

    Returns
    -------
    Taken
        An entry that cannot be taken in stays in the journal, and is told.
    """
    journal = read_journal(folder)
    told = [journal.told()] if journal.torn else []
    count = 0
    plans: dict[str, PlanOnDisk] = {}
    for entry in journal.entries:
        if has_entry(book, entry.id):
            continue
        try:
            plan = plans.get(entry.plan) or plan_of_hash(book, folder, entry.plan)
            plans[entry.plan] = plan
            count += take_in(book, folder, plan, [entry])
        except UserError as error:
            told.append(
                f"{entry.kind} of pour {entry.pour} ({entry.id[:8]}) is not in the book: {error.what}"
            )
    return Taken(count, tuple(told))


def take_in(book: Book, folder: Path, plan: PlanOnDisk, entries: Sequence[JournalEntry]) -> int:
    """Take entries into the book, all or none; the stock follows.

    Parameters
    ----------
    book : Book
        Open.
    folder : Path
        Of the job.
    plan : PlanOnDisk
        Theirs.
    entries : sequence of JournalEntry
        As the journal has them.

    Returns
    -------
    int
        How many were new.

    Raises
    ------
    UserError
        Where the book does not take them.
    """
    with book.writing():
        count = sum(_take_one(book, folder, plan, entry) for entry in entries)
        for casting in {entry.casting for entry in entries}:
            settle(book, plan.job, plan.variant, casting)
    return count


def _take_one(book: Book, folder: Path, plan: PlanOnDisk, entry: JournalEntry) -> bool:
    if entry.photo is not None:
        take_photo(book, folder, entry.photo)
    pour = _pour(book, plan, entry)
    return keep_entry(
        book,
        Entry(
            pour_id=pour.id,
            kind=entry.kind,
            at=entry.at,
            value=entry.value,
            sd=entry.sd,
            text=entry.text,
            photo_hash=entry.photo,
            source=entry.source,
            replaces=entry.replaces,
            id=entry.id,
            written=entry.written,
        ),
    )


def _pour(book: Book, plan: PlanOnDisk, entry: JournalEntry) -> Pour:
    """Find or begin the pour; one that was begun under an earlier plan of this casting stays there."""
    logged = [pour for _, pour in pours_of_job(book, plan.job, plan.variant, entry.casting)]
    begins = entry.at if entry.kind in GOES_IN else None
    for pour in logged if begins or entry.kind == "demolded" else ():
        earlier = pour.number > WHOLE and (entry.pour == WHOLE or pour.number < entry.pour)
        if earlier and pour.ended is None:
            end_pour(book, pour.id, entry.at)
    plan_id = next((pour.plan_id for pour in logged if pour.number == entry.pour), plan.kept(book).id)
    kind = "piece" if entry.pour == WHOLE else "resin"
    return keep_pour(book, plan_id, entry.pour, casting=entry.casting, kind=kind, begun=begins)
