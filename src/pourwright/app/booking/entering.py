"""Enter what happened at a pour: checked, into the job's journal, then into the shop's book."""

from __future__ import annotations

import uuid
from collections.abc import Mapping, Sequence
from contextlib import ExitStack
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

from pourwright.app.benching.journal import JournalEntry, add_to_journal, read_journal
from pourwright.app.booking.casting import Casting, casting_of
from pourwright.app.booking.checks import refuse_twin, refuse_unlikely
from pourwright.app.booking.intake import take_in, take_in_journal
from pourwright.app.booking.photos import keep_photo_file, refuse_no_photo
from pourwright.app.booking.places import PlanOnDisk, plan_of_hash, plan_on_disk
from pourwright.foundation.errors import NotThereError, UserError
from pourwright.records import (
    Book,
    BookError,
    Entry,
    Pour,
    entry_by_id,
    has_entry,
    open_book,
    plan_by_id,
    pour_by_id,
    refuse_wrong_correction,
)
from pourwright.records.moments import now


@dataclass(frozen=True, kw_only=True)
class Said:
    """What somebody enters.

    Parameters
    ----------
    kind : str
        One of `pourwright.records.KINDS`.
    at : datetime
        When it happened.
    value, sd : float, optional
        In the unit of its kind.
    text : str
        Words.
    pour : int, optional
        Of the casting; else the one that is under way.
    casting : int, optional
        Else the one that is under way, or a new one.
    photo : bytes, optional
        A photo.
    photo_hash : str, optional
        Or one that lies beside the journal already.
    replaces : str, optional
        The entry that it corrects, by its whole id.
    again : bool
        Said by the maker: it is not the same as what somebody else has entered.
    source : str
        Where it comes from.
    plan : str, optional
        Hash of the plan that it was entered under; else the one that lies beside the job.
    id : str
        UUID; the same id is the same entry.
    """

    kind: str
    at: datetime = field(default_factory=now)
    value: float | None = None
    sd: float | None = None
    text: str = ""
    pour: int | None = None
    casting: int | None = None
    photo: bytes | None = None
    photo_hash: str | None = None
    replaces: str | None = None
    again: bool = False
    source: str = "terminal"
    plan: str | None = None
    id: str = field(default_factory=lambda: str(uuid.uuid4()))


@dataclass(frozen=True)
class Entered:
    """What was entered.

    Parameters
    ----------
    plan : PlanOnDisk
        The plan it belongs to.
    entries : tuple of JournalEntry
        As they were written; one that was there already is not among them.
    """

    plan: PlanOnDisk
    entries: tuple[JournalEntry, ...]


def enter(folder: Path, book_file: Path, said: Sequence[Said], variant: str | None = None) -> Entered:
    """Enter what happened; on the disk when this returns.

    While the book cannot be opened or written, it is entered in the journal alone, and that is told as an
    error; the book takes it in later.

    Parameters
    ----------
    folder : Path
        Of the job.
    book_file : Path
        The shop's book; made where there is none.
    said : sequence of Said
        In the order in which it happened.
    variant : str, optional
        Needed where the job has plans of several.

    Returns
    -------
    Entered

    Raises
    ------
    UserError
        For what cannot be: a level above the mold, a batch of less than nothing, a time to come, a pour that
        the plan does not have.
    ConflictError
        Where somebody else has entered the same.
    BookError
        Where it is in the journal, but not in the book.
    """
    with ExitStack() as stack:
        try:
            book = stack.enter_context(open_book(book_file))
            take_in_journal(book, folder)
            plan = _plan(book, folder, variant, {one.plan for one in said} - {None})
            fresh = tuple(_checked(book, folder, plan, one) for one in said if not has_entry(book, one.id))
        except BookError as error:
            add_to_journal(folder, without_the_book(folder, plan_on_disk(folder, variant), said))
            raise _later(error) from error
        add_to_journal(folder, fresh)
        try:
            take_in(book, folder, plan, fresh)
        except UserError as error:
            raise _later(error) from error
    return Entered(plan, fresh)


def _later(error: UserError) -> UserError:
    return type(error)(
        f"it is in the job's journal, but not yet in the book: {error.what}",
        where=error.where,
        todo=f"{error.todo}; the book takes it in by itself then",
    )


def without_the_book(folder: Path, plan: PlanOnDisk, said: Sequence[Said]) -> tuple[JournalEntry, ...]:
    """Check entries by plan and journal alone, while the book cannot be asked.

    Parameters
    ----------
    folder : Path
        Of the job.
    plan : PlanOnDisk
        The plan beside the job.
    said : sequence of Said
        What is entered.

    Returns
    -------
    tuple of JournalEntry
        What the journal does not have yet.

    Raises
    ------
    UserError
        For what cannot be.
    """
    there = {one.id: one for one in read_journal(folder).entries}
    return tuple(_by_journal(folder, plan, one, there) for one in said if one.id not in there)


def _by_journal(
    folder: Path, plan: PlanOnDisk, said: Said, there: Mapping[str, JournalEntry]
) -> JournalEntry:
    if said.plan not in {None, plan.hash}:
        raise UserError(
            "this belongs to another plan", where="plan", todo="enter it again under the plan of today"
        )
    old = None if said.replaces is None else there.get(said.replaces)
    if said.replaces is not None and old is None:
        raise NotThereError("this entry is not in the journal", where="correct", todo="do it again later")
    same = [one for one in there.values() if one.plan == plan.hash]
    last = old or max(same, key=lambda one: (one.casting, one.pour), default=None)
    casting, pour = (last.casting, max(last.pour, 1)) if last else (1, 1)
    if old is None:
        casting, pour = said.casting or casting, pour if said.pour is None else said.pour
    if said.photo_hash is not None:
        refuse_no_photo(None, folder, said.photo_hash)
    return _entry(folder, plan, said, casting, pour)


def _plan(book: Book, folder: Path, variant: str | None, hashes: set[str | None]) -> PlanOnDisk:
    (wanted, *more) = hashes or {None}
    if more:
        raise UserError("these entries belong to different plans", where="plan", todo="enter them one by one")
    return plan_on_disk(folder, variant) if wanted is None else plan_of_hash(book, folder, wanted)


def _checked(book: Book, folder: Path, plan: PlanOnDisk, said: Said) -> JournalEntry:
    casting, number = _place(book, plan, said)
    if said.replaces is None and not said.again:
        refuse_twin(plan.plan, said, number, casting.entries(number))
    if said.photo_hash is not None:
        refuse_no_photo(book, folder, said.photo_hash)
    return _entry(folder, plan, said, casting.number, number)


def _entry(folder: Path, plan: PlanOnDisk, said: Said, casting: int, pour: int) -> JournalEntry:
    refuse_unlikely(plan.plan, said.kind, said.value, said.sd, said.at, pour)
    return JournalEntry(
        plan=plan.hash,
        casting=casting,
        pour=pour,
        kind=said.kind,
        at=said.at,
        value=said.value,
        sd=said.sd,
        text=" ".join(said.text.split()),
        photo=said.photo_hash if said.photo is None else keep_photo_file(folder, said.photo),
        source=said.source,
        replaces=said.replaces,
        id=said.id,
    )


def _place(book: Book, plan: PlanOnDisk, said: Said) -> tuple[Casting, int]:
    if said.replaces is not None:
        there = _corrected(book, plan, said, said.replaces)
        return casting_of(book, plan, said.kind, there.casting), there.number
    casting = casting_of(book, plan, said.kind, said.casting)
    return casting, casting.pour_of(said.kind) if said.pour is None else said.pour


def _corrected(book: Book, plan: PlanOnDisk, said: Said, replaces: str) -> Pour:
    """The pour of an entry that is corrected; refused before anything is in the journal."""
    old = entry_by_id(book, replaces)
    refuse_wrong_correction(book, Entry(pour_id=old.pour_id, kind=said.kind, at=said.at, replaces=replaces))
    pour = pour_by_id(book, old.pour_id)
    whose = plan_by_id(book, pour.plan_id)
    if (whose.job, whose.variant) != (plan.job, plan.variant):
        raise UserError(
            f"this entry belongs to {whose.job}, {whose.variant}",
            where="correct",
            todo="name that job instead",
        )
    return pour
