"""The log of a job: what was entered, and entering more from the terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from pourwright.app.booking.batches import Batch
from pourwright.app.booking.casting import WHOLE, Casting, read_casting
from pourwright.app.booking.clock import read_when, shown_when
from pourwright.app.booking.entering import Said, enter
from pourwright.app.booking.heights import Reading, shown_reading, standing_level
from pourwright.app.booking.intake import take_in_journal
from pourwright.app.booking.mold_making import made_of, taken_words
from pourwright.app.booking.places import PlanOnDisk, book_place, job_folder, plan_on_disk
from pourwright.app.booking.settling import document
from pourwright.app.booking.spoken import Levels, correction, taken_back, understand
from pourwright.app.booking.spoken_besides import BESIDES, besides
from pourwright.app.booking.went_in import mass_in_mold, went_in
from pourwright.app.booking.words import KIND_WORDS
from pourwright.foundation.errors import UserError
from pourwright.jobs.plan import PlanDocument
from pourwright.materials import load_materials
from pourwright.pour.leaked.weighed import NOTHING
from pourwright.records import (
    KINDS,
    Book,
    Entry,
    Plan,
    Pour,
    castings_in,
    entries_of,
    entry_by_id,
    lots_of,
    moves_of,
    open_book,
)
from pourwright.records.moments import written, written_maybe

CHANGES = {"correct": "correct ID and what it should have been", "take-back": "take-back ID"}
"""What changes an entry that is there."""


@dataclass(frozen=True)
class LogReport:
    """What an answer about the log holds.

    Parameters
    ----------
    content : dict
        As JSON.
    """

    content: dict[str, Any]

    def to_json(self) -> dict[str, Any]:
        """The same, for programs."""
        return self.content


def log_job(
    job: Path,
    words: Sequence[str] = (),
    *,
    variant: str | None = None,
    pour: int | None = None,
    casting: int | None = None,
    at: str | None = None,
    dip: str | None = None,
    standing: str | None = None,
    again: bool = False,
) -> LogReport:
    """Enter something at the terminal; show the log where nothing is entered.

    Parameters
    ----------
    job : Path
        Its folder or file.
    words : sequence of str
        As ``poured``, ``2.4 kg``; or ``correct``, an id, a value; or ``take-back``, an id; none to show the
        log.
    variant : str, optional
        Needed where the job has plans of several.
    pour, casting : int, optional
        Else what is under way.
    at : str, optional
        On the shop's clock; else now.
    dip, standing : str, optional
        Other readings of a level.
    again : bool
        It is not the same as what somebody else has entered.

    Returns
    -------
    LogReport
        ``entered`` and what the log then holds.

    Raises
    ------
    UserError
        For what cannot be.
    """
    folder = job_folder(job)
    plan = plan_on_disk(folder, variant)
    place = book_place(folder)
    entered: list[str] = []
    if words:
        said = [
            replace(one, pour=pour if one.pour is None else one.pour, casting=casting, again=again)
            for one in _said(place, plan, words, Levels(dip, standing), at)
        ]
        entered = [one.id for one in enter(folder, place, said, variant).entries]
    with open_book(place) as book:
        taken = take_in_journal(book, folder)
        report = log_of(book, plan, casting)
        told = [*taken.told, *(_making_told(book, plan, casting) if words[:1] == ("mold-made",) else ())]
    return LogReport(report | {"entered": entered, "told": told})


def _making_told(book: Book, plan: PlanOnDisk, casting: int | None) -> Iterator[str]:
    """What making the mold has taken from the stock."""
    number = casting or max(castings_in(book, plan.job, plan.variant), default=1)
    for _, pour, entries in read_casting(book, plan.job, plan.variant, number).logged:
        if pour.number == WHOLE:
            wanted, moves = made_of(plan.plan, entries), moves_of(book, pour_id=pour.id)
            yield from taken_words(wanted, moves, lots_of(book), plan.plan.job.units)


def _said(
    place: Path, plan: PlanOnDisk, words: Sequence[str], levels: Levels, at: str | None
) -> tuple[Said, ...]:
    zone, word = plan.plan.job.time_zone, words[0].lower()
    if word in BESIDES:
        readings: dict[Reading, str | None] = {"dip": levels.dip, "standing": levels.standing}
        when = read_when(at, zone)
        found = besides(plan.plan, word, words[1:], readings, lambda: grades_of(place))
        return tuple(replace(one, at=when) for one in found)
    if word not in CHANGES:
        return (replace(understand(plan.plan, words, levels), at=read_when(at, zone)),)
    if len(words) < 2:
        raise UserError("which entry?", where=word, allowed=CHANGES[word], todo="take its id from the log")
    with open_book(place) as book:
        old = entry_by_id(book, words[1])
    if word == "take-back":
        return (taken_back(plan.plan, old),)
    said = correction(plan.plan, old, words[2:], levels)
    return (said if at is None else replace(said, at=read_when(at, zone)),)


def grades_of(place: Path) -> list[str]:
    """Name all grades of glass: the families' and the shop's own.

    Parameters
    ----------
    place : Path
        The shop's book.

    Returns
    -------
    list of str
    """
    shop = place.parent
    materials = load_materials(shop if (shop / "materials").is_dir() else None)
    return [grade.id for glass in materials.glass.values() for grade in glass.grades]


def log_of(book: Book, plan: PlanOnDisk, casting: int | None = None) -> dict[str, Any]:
    """Say what stands in the log.

    Parameters
    ----------
    book : Book
        Open.
    plan : PlanOnDisk
        Of the job and variant.
    casting : int, optional
        Which piece; else the last.

    Returns
    -------
    dict
        ``job``, ``plan``, ``castings`` (their numbers), ``casting`` and its ``pours`` with their ``entries``.
    """
    numbers = list(castings_in(book, plan.job, plan.variant))
    if casting is not None and casting not in numbers:
        allowed = ", ".join(map(str, numbers)) or "none yet"
        raise UserError(f"no casting {casting}", where="--casting", allowed=allowed, todo="name one of these")
    number = casting or max(numbers, default=0)
    chosen = read_casting(book, plan.job, plan.variant, number) if number else None
    return {
        "job": plan.plan.job.model_dump(mode="json"),
        "name": plan.job,
        "plan": {"hash": plan.hash, "version": plan.plan.version, "computed_for": plan.plan.computed_for},
        "castings": numbers,
        "casting": chosen.number if chosen else None,
        "over": chosen.is_over if chosen else False,
        "pours": told_pours(book, chosen) if chosen else [],
    }


def told_pours(book: Book, casting: Casting) -> list[dict[str, Any]]:
    """Say what stands in the log of a piece, pour by pour, each read by the plan it was begun under.

    Parameters
    ----------
    book : Book
        Open.
    casting : Casting
        The piece.

    Returns
    -------
    list of dict
        ``pour``, its ``plan`` and ``version``, ``begun``, ``ended``, ``poured_kg`` and ``entries``.
    """
    return [_pour(book, document(book, kept.id), kept, pour) for kept, pour, _ in casting.logged]


def _pour(book: Book, plan: PlanDocument, kept: Plan, pour: Pour) -> dict[str, Any]:
    every = entries_of(book, pour.id, corrected=True)
    newer: dict[str | None, str] = {one.replaces: one.id for one in every if one.replaces}
    return {
        "pour": pour.number,
        "plan": kept.hash,
        "version": kept.version,
        "begun": written_maybe(pour.begun),
        "ended": written_maybe(pour.ended),
        **_in_mold(plan, [one for one in every if one.id not in newer]),
        "entries": [_entry(plan, one, newer.get(one.id)) for one in every],
    }


def _in_mold(plan: PlanDocument, entries: Sequence[Entry]) -> dict[str, Any]:
    """What went into the mold, and batch by batch how it is known."""
    found = went_in(entries)
    whole = mass_in_mold(plan, found.masses) or NOTHING
    return {
        "poured_kg": whole.mass,
        "poured_sd_kg": whole.doubt,
        "weighed": not (found.masses.mixed or found.masses.planned),
        "batches": [_batch(one) for one in found.batches],
    }


def _batch(batch: Batch) -> dict[str, Any]:
    return {
        "name": batch.name,
        "part_a_kg": batch.value("weigh_a"),
        "part_b_kg": batch.value("weigh_b"),
        "mixed_kg": None if batch.mixed is None else batch.mixed.mass,
        "mixed_sd_kg": None if batch.mixed is None else batch.mixed.doubt,
        "as_planned": batch.mixed is not None and not batch.is_measured,
        "poured_kg": batch.value("poured"),
    }


def _entry(plan: PlanDocument, entry: Entry, corrected_by: str | None) -> dict[str, Any]:
    unit = KINDS[entry.kind]
    said: dict[str, Any] = {
        "id": entry.id,
        "kind": entry.kind,
        "what": KIND_WORDS[entry.kind],
        "at": written(entry.at),
        "when": shown_when(entry.at, plan.job.time_zone, plan.job.units),
        "value": shown_reading(plan, entry.kind, entry.value),
        "text": entry.text,
        "photo": entry.photo_hash,
        "source": entry.source,
        "replaces": entry.replaces,
        "corrected_by": corrected_by,
    }
    if unit:
        said |= {f"value_{unit}": entry.value, f"sd_{unit}": entry.sd}
    if entry.kind in ("level", "water_level") and entry.value is not None:
        said["standing_m"] = standing_level(plan, entry.value)
    return said


def shop_book(folder: Path) -> AbstractContextManager[Book]:
    """Open the book of a shop.

    Parameters
    ----------
    folder : Path
        Of the shop or of a job.

    Returns
    -------
    context manager
        The open book.
    """
    return open_book(book_place(folder))
