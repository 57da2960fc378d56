"""What the shop's log knows of a pour, as readings of its leak."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import datetime
from pathlib import Path

from pourwright.app.booking.batches import is_measured
from pourwright.app.booking.casting import GOES_IN, Casting, castings_of
from pourwright.app.booking.heights import is_out_of_sight
from pourwright.app.booking.intake import take_in_journal
from pourwright.app.booking.places import book_place
from pourwright.app.booking.went_in import went_in
from pourwright.app.leaking.readings import Readings, Seen
from pourwright.jobs.plan import PlanDocument
from pourwright.records import Entry, open_book

EXPECTED_DOUBT = 0.01
"""Standard deviation of a level that looked as expected, to within a finger's breadth [m]."""


def readings_in_log(folder: Path, plan: PlanDocument, number: int | None) -> Readings:
    """Readings of the casting that is under way, none where nothing was logged; ``number`` of the pour."""
    place = book_place(folder)
    if not place.exists():
        return Readings(pour=number)
    with open_book(place, make=False) as book:
        if not book.read_only:
            take_in_journal(book, folder)
        castings = castings_of(book, folder.resolve().name, plan.job.variant)
    return of_casting(castings[-1], number) if castings else Readings(pour=number)


def of_casting(casting: Casting, number: int | None = None) -> Readings:
    """Readings of one pour, else of the last, and when the pours before it went in."""
    poured = [pour.number for _, pour, entries in casting.logged if pour.number and entries]
    chosen = number or max(poured, default=0)
    if not chosen:
        return Readings(pour=number)
    went_in = [(each, _begun(casting, each)) for each in poured if each < chosen]
    earlier = tuple((each, at) for each, at in went_in if at is not None)
    own = of_entries(casting.entries(chosen))
    return replace(own, pour=chosen, begun=_begun(casting, chosen), earlier=earlier)


def _begun(casting: Casting, number: int) -> datetime | None:
    pour = casting.pour(number)
    times = [entry.at for entry in casting.entries(number) if entry.kind in GOES_IN]
    first = min(times, default=None)
    return first if pour is None or pour.begun is None else pour.begun


def of_entries(entries: Sequence[Entry]) -> Readings:
    """Readings of one pour's entries; a level from before a top-up says nothing of after it."""
    topped = max((entry.at for entry in entries if entry.kind == "topped_up"), default=None)
    levels = [each for each in entries if each.kind == "level" or is_out_of_sight(each)]
    masses = went_in(entries).masses
    found = [each.value for each in entries if each.kind == "caught" and each.value is not None]
    return Readings(
        poured=masses.poured,
        mixed=masses.mixed,
        planned=masses.planned,
        seen=tuple(_seen([each for each in levels if topped is None or each.at > topped])),
        caught=sum(found) if found else None,
        gelled=next((entry.at for entry in entries if entry.kind == "gel"), None),
    )


def _seen(levels: Sequence[Entry]) -> Iterator[Seen]:
    """Levels; one that was but agreed to counts where none was read, and only so far as an eye can tell."""
    read = [each for each in levels if each.kind == "level" and is_measured(each)]
    for each in levels:
        if each.kind == "no_level" or each in read:
            yield Seen(each.at, each.value, each.sd)
        elif not read:
            yield Seen(each.at, each.value, EXPECTED_DOUBT)


def joined(told: Readings, logged: Readings) -> Readings:
    """What is told now beside what was logged: masses in its place, levels besides."""
    masses = bool(told.poured or told.mixed)
    return Readings(
        poured=told.poured if masses else logged.poured,
        mixed=told.mixed if masses else logged.mixed,
        planned=() if masses else logged.planned,
        seen=tuple(sorted((*logged.seen, *told.seen), key=lambda seen: seen.at)),
        caught=logged.caught if told.caught is None else told.caught,
        pour=logged.pour if told.pour is None else told.pour,
        begun=told.begun or logged.begun,
        gelled=told.gelled or logged.gelled,
        earlier=logged.earlier,
        drips=told.drips,
        hole=told.hole,
    )
