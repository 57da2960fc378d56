"""The bench's side of the book: what comes next for a job, and taking what a phone has entered."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import asdict, dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from pourwright.app.benching.journal import JournalEntry, NotWrittenError, read_journal
from pourwright.app.benching.step import BENCH, PRESSED, Happened, next_step
from pourwright.app.benching.steps import steps_of
from pourwright.app.booking.casting import Casting, castings_of
from pourwright.app.booking.clock import shown_when
from pourwright.app.booking.entering import Said, enter
from pourwright.app.booking.heights import shown_level
from pourwright.app.booking.intake import take_in_journal
from pourwright.app.booking.places import (
    PlanOnDisk,
    book_place,
    plan_of_hash,
    plan_on_disk,
    plans_on_disk,
)
from pourwright.app.booking.words import KIND_WORDS, shown_value
from pourwright.app.shelf.places import job_places
from pourwright.foundation.errors import ConflictError, NotThereError, UserError
from pourwright.foundation.notation import UnitSystem
from pourwright.foundation.quantities import UNITS, Dimension
from pourwright.jobs.plan import PlanDocument
from pourwright.records import Book, BookError, Entry, Pour, entries_of, open_book
from pourwright.records.moments import now, written

MOST = 200
"""Entries that are taken at once."""
_TYPED: dict[UnitSystem, dict[str, tuple[str, ...]]] = {
    UnitSystem.METRIC: {"mass": ("g", "kg"), "level": ("mm", "cm")},
    UnitSystem.US: {"mass": ("oz", "lb", "g", "kg"), "level": ("in", "mm")},
}
_CELSIUS = {"label": "°C", "si": 1.0, "zero": 0.0}
_FAHRENHEIT = {"label": "°F", "si": 5.0 / 9.0, "zero": -32.0 * 5.0 / 9.0}
_DEGREES = {UnitSystem.METRIC: [_CELSIUS], UnitSystem.US: [_FAHRENHEIT, _CELSIUS]}


def bench_of(folder: Path, variant: str | None = None, casting: int | None = None) -> dict[str, Any]:
    """Say what the bench of a job needs: steps, what is done, what comes next, units that may be typed.

    Parameters
    ----------
    folder : Path
        Of the job.
    variant : str, optional
        Else the first that has a plan.
    casting : int, optional
        Which piece; else the last one.

    Returns
    -------
    dict
        As JSON.

    Raises
    ------
    NotThereError
        Where there is no plan, or no such casting.
    """
    plan = _plan(folder, variant)
    steps = steps_of(plan.plan)
    with open_book(book_place(folder)) as book:
        # a phone may hold entries of this plan while another one is made
        plan.kept(book)
        told = take_in_journal(book, folder).told
        piece, last = _casting(book, plan, casting)
        entries = [
            _told(plan.plan, pour, entry, newer)
            for pour, entry, newer in _every(book, piece)
        ]  # fmt: skip
    following = next_step(steps, _happened(piece))
    return {
        "job": plan.job,
        "title": plan.plan.job.title,
        "variant": plan.variant,
        "invented": plan.plan.job.invented,
        "plan": plan.hash,
        "computed_for": plan.plan.computed_for,
        "casting": piece.number,
        "over": piece.is_over,
        "last_casting": last,
        "now": written(now()),
        "time_zone": plan.plan.job.time_zone,
        "clock": 12 if UnitSystem(plan.plan.job.units) is UnitSystem.US else 24,
        "units": _units(plan.plan),
        "kinds": KIND_WORDS,
        "pressed": list(PRESSED),
        "rim_m": plan.plan.section.rim_m,
        "turned_m": _turned(plan.plan),
        "steps": [asdict(step) for step in steps],
        "next": following.id if following else None,
        "entries": entries,
        "told": list(told),
    }


def benches_of(shop: Path) -> list[dict[str, str]]:
    """List the jobs of a shop that can be poured.

    Parameters
    ----------
    shop : Path
        The shop folder.

    Returns
    -------
    list of dict
        ``job``, ``variant`` and ``title`` of each plan; a plan that cannot be read is left out.
    """
    found: list[dict[str, str]] = []
    for place in job_places(shop):
        with suppress(UserError):
            found += [
                {"job": place.name, "variant": one.variant, "title": one.plan.job.title}
                for one in plans_on_disk(place.folder)
            ]
    return found


def _plan(folder: Path, variant: str | None) -> PlanOnDisk:
    if variant is None and (found := plans_on_disk(folder)):
        return found[0]
    return plan_on_disk(folder, variant)


def _casting(book: Book, plan: PlanOnDisk, number: int | None) -> tuple[Casting, int]:
    """The piece that is meant, and the last one that may be asked for."""
    castings = castings_of(book, plan.job, plan.variant)
    begun = castings[-1].number if castings else 1
    last = begun + bool(castings and castings[-1].is_over)
    wanted = begun if number is None else number
    if not 1 <= wanted <= last:
        raise NotThereError(
            f"no piece {wanted} of this job was begun",
            where="casting",
            allowed=f"1 to {last}",
            todo="name one of these",
        )
    return next((one for one in castings if one.number == wanted), Casting(wanted, ())), last


def _happened(piece: Casting) -> list[Happened]:
    found = [
        Happened(pour=pour.number, kind=entry.kind, at=entry.at, text=entry.text)
        for _, pour, entries in piece.logged
        for entry in entries
    ]
    return sorted(found, key=lambda one: one.at)


def _every(book: Book, piece: Casting) -> list[tuple[Pour, Entry, str | None]]:
    """Each entry, corrected ones too, with the one that stands for it now."""
    found: list[tuple[Pour, Entry, str | None]] = []
    for _, pour, _ in piece.logged:
        every = entries_of(book, pour.id, corrected=True)
        newer = {one.replaces: one.id for one in every if one.replaces}
        found += [(pour, one, newer.get(one.id)) for one in every]
    return sorted(found, key=lambda each: (each[1].at, each[1].written))


def _told(plan: PlanDocument, pour: Pour, entry: Entry, newer: str | None) -> dict[str, Any]:
    system = plan.job.units
    level = entry.kind == "level" and entry.value is not None
    return {
        "id": entry.id,
        "pour": pour.number,
        "kind": entry.kind,
        "what": KIND_WORDS[entry.kind],
        "at": written(entry.at),
        "when": shown_when(entry.at, plan.job.time_zone, system),
        "value": entry.value,
        "shown": shown_level(plan, entry.value or 0.0)
        if level
        else shown_value(entry.kind, entry.value, system),
        "text": entry.text,
        "photo": entry.photo_hash,
        "source": entry.source,
        "replaces": entry.replaces,
        "corrected_by": newer,
    }


def _units(plan: PlanDocument) -> dict[str, Any]:
    """Units that may be typed, the usual one first, and the step of the scale."""
    system = UnitSystem(plan.job.units)
    dimensions = {"mass": Dimension.MASS, "level": Dimension.LENGTH}
    listed: dict[str, Any] = {
        ask: [{"label": unit, "si": float(UNITS[dimensions[ask]][unit].factor)} for unit in units]
        for ask, units in _TYPED[system].items()
    }
    return listed | {"temperature": _DEGREES[system], "scale_step_kg": plan.job.scale_step_kg or 0.001}


def _turned(plan: PlanDocument) -> float | None:
    """What a level as poured and the same as the piece stands add up to; nothing where it is not turned."""
    if not (plan.piece.flipped and plan.dip_stick):
        return None
    return plan.dip_stick[-1].height_m + plan.dip_stick[-1].height_standing_m


@dataclass(frozen=True, kw_only=True)
class FromBench:
    """One entry as a phone sends it.

    Parameters
    ----------
    id : str
        UUID, made on the phone.
    plan : str
        Hash of the plan it was entered under.
    casting, pour : int
        Which piece, which pour.
    kind : str
        As in the book.
    at : datetime
        When it happened.
    value : float, optional
        In the unit of its kind.
    text : str
        Words.
    photo : str, optional
        Hash of a photo that was handed in before.
    replaces : str, optional
        The entry that it corrects.
    again : bool
        Said by the maker: it is not the same as what somebody else has entered.
    """

    id: str
    plan: str
    casting: int
    pour: int
    kind: str
    at: datetime
    value: float | None = None
    text: str = ""
    photo: str | None = None
    replaces: str | None = None
    again: bool = False


@dataclass(frozen=True)
class Answer:
    """What became of an entry.

    Parameters
    ----------
    id : str
        The entry.
    kept : bool
        Whether it is on the disk.
    new : bool
        Whether it was not there before.
    error : UserError, optional
        Why it was refused.
    """

    id: str
    kept: bool
    new: bool = False
    error: UserError | None = None


def take_entries(folder: Path, entries: Sequence[FromBench]) -> tuple[Answer, ...]:
    """Take what a phone has entered; what is kept is on the disk when this returns.

    Parameters
    ----------
    folder : Path
        Of the job.
    entries : sequence of FromBench
        In the order in which they happened.

    Returns
    -------
    tuple of Answer
        One for each; one that is there already is kept and not new.

    Raises
    ------
    UserError
        Where the disk or the book takes nothing at all: all of it is to be sent again.
    """
    place = book_place(folder)
    hashes = {one.plan for one in entries}
    try:
        with open_book(place) as book:
            own = {each: _is_own(book, folder, each) for each in hashes}
    except BookError:
        # the journal takes what belongs to a plan beside the job
        own = dict.fromkeys(hashes)
    there = {one.id: one for one in read_journal(folder).entries}
    return tuple(_take(folder, place, one, own[one.plan], there) for one in entries)


def _is_own(book: Book, folder: Path, sha256: str) -> UserError | None:
    """Refuse a plan that is nobody's, or another job's."""
    try:
        found = plan_of_hash(book, folder, sha256)
    except ConflictError as error:
        return error
    if found.job == folder.resolve().name:
        return None
    return ConflictError(f"this was entered for the job {found.job}", where="plan", todo="enter it there")


def _take(
    folder: Path, place: Path, one: FromBench, foreign: UserError | None, there: dict[str, JournalEntry]
) -> Answer:
    if one.id in there:
        return _once(one, there[one.id])
    if foreign is not None:
        return Answer(one.id, kept=False, error=foreign)
    try:
        fresh = enter(folder, place, [_said(one)]).entries
    except NotWrittenError:
        # the next one fares no better; the phone keeps all of it
        raise
    except UserError as error:
        kept = next((each for each in read_journal(folder).entries if each.id == one.id), None)
        return Answer(one.id, kept=kept is not None, new=kept is not None, error=None if kept else error)
    there |= {each.id: each for each in fresh}
    return Answer(one.id, kept=True, new=bool(fresh))


def _once(one: FromBench, other: JournalEntry) -> Answer:
    """The same entry again; or another phone's for the same step, which says something else."""
    if (one.kind, one.value, " ".join(one.text.split())) == (other.kind, other.value, other.text):
        return Answer(one.id, kept=True)
    said = f"{KIND_WORDS[other.kind]} {other.text}".strip()
    error = ConflictError(
        f"another phone has entered something else for this step: {said}",
        where=other.kind,
        todo="put it away if it is the same batch; else say that it is another one, or correct the one there",
    )
    return Answer(one.id, kept=False, error=error)


def _said(one: FromBench) -> Said:
    return Said(
        id=one.id,
        kind=one.kind,
        at=one.at,
        value=one.value,
        text=one.text,
        pour=one.pour,
        casting=one.casting,
        photo_hash=one.photo,
        replaces=one.replaces,
        again=one.again,
        source=BENCH,
        plan=one.plan,
    )
