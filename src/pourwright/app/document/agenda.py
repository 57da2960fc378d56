"""The calendar: what one person does when, in working hours."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from itertools import pairwise

from pourwright.app.defaults import span
from pourwright.app.diary import Diary, Slot
from pourwright.app.document.master_agenda import master_events
from pourwright.app.document.moments import iso
from pourwright.app.heights import in_both
from pourwright.app.setup import Setup, working_hours
from pourwright.app.timing import (
    Before,
    Beginning,
    drying_length,
    next_working_hour,
    work_ahead,
    work_back,
)
from pourwright.app.work_lengths import checking_length, laying_length, pour_length
from pourwright.foundation.notation import format_length, format_mass
from pourwright.jobs import plan
from pourwright.materials.batches import Batch

LATEST = ", at the latest"


def demold_at(setup: Setup, ready: datetime) -> datetime:
    """Find the first time somebody is there long enough to demold.

    Parameters
    ----------
    setup : Setup
        With its working hours.
    ready : datetime
        From when the piece may leave the mold.

    Returns
    -------
    datetime
        On the shop's clock.
    """
    return Diary(working_hours(setup.job)).after(ready, span("demold"))[0]


def calendar(
    setup: Setup, pours: list[plan.Pour], opening: datetime | None, beginning: Beginning
) -> list[plan.Event]:
    """List what is done when, in order.

    Parameters
    ----------
    setup : Setup
        Mold, fill and working hours.
    pours : list of plan.Pour
        With their starts and windows.
    opening : datetime or None
        When somebody is there to demold; None where it never hardens.
    beginning : Beginning
        Without a stated start the work begins at once; else it is counted back from the first pour.

    Returns
    -------
    list of plan.Event
        All but those of kind "wait" keep one person busy.
    """
    diary = Diary(working_hours(setup.job))
    poured = [_booked(setup, diary, pour) for pour in pours]
    events = [*_pouring(setup, pours, poured), *_windows(pours)]
    if beginning.stated is None:
        before = work_ahead(setup, diary, next_working_hour(setup, beginning.now))
    laid = list(_laying(setup, diary, pours, poured))
    check = diary.before(poured[0][0], checking_length(setup.paces))
    first = diary.before(check[0], laying_length(_mass(pours[0]), setup.paces)) if pours[0].glass else None
    if beginning.stated is not None:
        before = work_back(setup, diary, (first or check)[0])
    laid += _sanding(diary, pours, poured, laid)
    events += [_event(check, "Go/no-go list", "Every line ticked before A meets B.", "check"), *laid]
    if first:
        events.append(_lay(setup, pours[0], first))
    events += [*_before(setup, before, LATEST if beginning.stated else ""), *_looking(diary, pours, poured)]
    events += _gelled(diary, pours, poured, laid)
    events += _gelled_at_last(diary, pours[-1], opening)
    if opening is not None:
        words = "Open the box on all sides first; let air in before you pull."
        events.append(_event((opening, opening + span("demold")), "Demold", words, "demold"))
    return sorted(events, key=lambda event: (datetime.fromisoformat(event.start), event.title))


def too_late(events: list[plan.Event], beginning: Beginning) -> bool:
    """Whether a stated start leaves too little time before the first pour.

    Parameters
    ----------
    events : list of plan.Event
        The calendar.
    beginning : Beginning
        With the moment the plan is computed for.

    Returns
    -------
    bool
        True where something should have been begun already.
    """
    return datetime.fromisoformat(events[0].start) < beginning.now


def _booked(setup: Setup, diary: Diary, pour: plan.Pour) -> Slot:
    batches = [Batch(b.number, b.mass_kg, b.part_a_kg, b.part_b_kg, b.ratio_error) for b in pour.batches]
    return diary.book(datetime.fromisoformat(pour.start), pour_length(batches, setup.paces))


def _mass(pour: plan.Pour) -> float:
    return sum(share.mass_kg for share in pour.glass)


def _before(setup: Setup, before: Before, latest: str) -> Iterator[plan.Event]:
    mix = setup.mold.rubber
    pails = "1 batch" if len(mix.batches) == 1 else f"{len(mix.batches)} batches"
    amount = f"{format_mass(mix.mass_mixed, setup.system)} in {pails}"
    down = "; master down" if setup.mold.method == "hung" else ", over the master"
    yield from master_events(setup, before.master, latest)
    yield _event(before.rubber, f"Pour the rubber{latest}", f"{amount}{down}.", "mold")
    yield _event(before.master_out, "Take the master out", "Cured? Test it with water, then dry it.", "mold")
    yield from _crushed(before, latest)
    if before.wash is not None:
        mass = format_mass(setup.fill.glass_mass, setup.system)
        words = f"{mass}; spread it thin on trays to dry, weigh each tray."
        yield _event(before.wash, f"Wash the glass{latest}", words, "prepare")
        dry = before.wash[1].astimezone(UTC) + drying_length(setup)
        until = (before.wash[1], dry.astimezone(before.wash[1].tzinfo))
        yield _event(until, "The glass dries", "Until a tray stays the same weight.", "wait")


def _crushed(before: Before, latest: str) -> Iterator[plan.Event]:
    """Bottles of one colour after the other, on as many days as they take."""
    if before.bottles.soak is not None:
        words = "Sort out what is no bottle; warm water and washing soda over them, until labels slide off."
        yield _event(before.bottles.soak, f"Soak the bottles{latest}", words, "prepare")
    for each in before.bottles.crush:
        words = f"{each.bottles} bottles in all: labels and glue off, rinsed, crushed wet, sieved."
        part = "" if each.parts == 1 else f", part {each.part} of {each.parts}"
        yield _event(each.slot, f"Crush {each.colour} bottles{part}{latest}", words, "prepare")


def _pouring(setup: Setup, pours: list[plan.Pour], poured: list[Slot]) -> Iterator[plan.Event]:
    for pour, slot in zip(pours, poured, strict=True):
        level = in_both(setup.piece.frame, pour.to_m, setup.system)
        dip = format_length(pour.dip_to_m, setup.system)
        words = f"{format_mass(pour.resin_kg, setup.system)} of resin up to {level}, {dip} below the rim."
        yield _event(slot, f"Pour {pour.number} of {len(pours)}", words, "pour")


def _laying(setup: Setup, diary: Diary, pours: list[plan.Pour], poured: list[Slot]) -> Iterator[plan.Event]:
    """Glass for every pour but the first, after the pour below it."""
    for pour, (start, _), (_, end) in zip(pours[1:], poured[1:], poured, strict=False):
        if not pour.glass:
            continue
        slot = diary.before(start, laying_length(_mass(pour), setup.paces))
        if slot[0] >= end:
            yield _lay(setup, pour, slot)
        else:
            # no time of its own: the ticket of the pour begins with the glass
            diary.booked.pop()


def _lay(setup: Setup, pour: plan.Pour, slot: Slot) -> plan.Event:
    mass = format_mass(_mass(pour), setup.system)
    words = (
        f"{mass}, dry, up to {in_both(setup.piece.frame, pour.to_m, setup.system)}; level it, drop nothing."
    )
    return _event(slot, f"Lay the glass for pour {pour.number}", words, "prepare")


def _looking(diary: Diary, pours: list[plan.Pour], poured: list[Slot]) -> Iterator[plan.Event]:
    for pour, (_, end) in zip(pours, poured, strict=True):
        length = min(diary.left(end), span("look"))
        if length > timedelta():
            words = "Level where it was? No drip below? Note both."
            yield _event(diary.book(end, length), f"Look at pour {pour.number}", words, "check")


def _sanding(
    diary: Diary, pours: list[plan.Pour], poured: list[Slot], laid: list[plan.Event]
) -> Iterator[plan.Event]:
    """Wash and sand each top that bonds no more, before glass is laid on it."""
    for pour, (start, _) in zip(pours, poured, strict=True):
        if pour.sand_first:
            slot = diary.before(min([start, *_laid_for(pour, laid)]), span("sanding"))
            words = "Warm water and a cloth, dry it, then sand all of it dull; wipe off the dust."
            yield _event(slot, f"Wash and sand pour {pour.number - 1}", words, "prepare")


def _laid_for(pour: plan.Pour, laid: list[plan.Event]) -> list[datetime]:
    return [datetime.fromisoformat(each.start) for each in laid if each.title.endswith(f" {pour.number}")]


def _gelled(
    diary: Diary, pours: list[plan.Pour], poured: list[Slot], laid: list[plan.Event]
) -> Iterator[plan.Event]:
    """Touch each top before anything goes on it."""
    for pour, (start, _) in zip(pours, poured[1:], strict=False):
        following = pours[pour.number]
        sanded = [
            datetime.fromisoformat(each.start)
            for each in laid
            if each.title.endswith(f"sand pour {pour.number}")
        ]
        slot = diary.before(min([start, *_laid_for(following, laid), *sanded]), span("gel_check"))
        if pour.next_from and slot[0] >= datetime.fromisoformat(pour.next_from):
            yield _gel_check(slot, pour)
        else:
            # gelled only just in time: the ticket of the next pour begins with it
            diary.booked.pop()


def _gelled_at_last(diary: Diary, pour: plan.Pour, opening: datetime | None) -> Iterator[plan.Event]:
    """Touch the last top once somebody is there and all has gelled, unless it is demolded by then."""
    gelled = datetime.fromisoformat(pour.start).astimezone(UTC) + timedelta(hours=pour.gel_after_h)
    slot = diary.after(gelled, span("gel_check"))
    if opening is None or slot[1] <= opening:
        yield _gel_check(slot, pour)


def _gel_check(slot: Slot, pour: plan.Pour) -> plan.Event:
    words = "Touch the top with a gloved finger: it takes a print, nothing comes off."
    return _event(slot, f"Is pour {pour.number} gelled?", words, "check")


def _windows(pours: list[plan.Pour]) -> Iterator[plan.Event]:
    for pour, following in pairwise(pours):
        if pour.next_from and pour.next_until and not following.sand_first:
            yield plan.Event(
                start=pour.next_from,
                end=pour.next_until,
                title=f"Pour {following.number} bonds to pour {pour.number}",
                detail="Pour the next one within this time; later it must be sanded and washed first.",
                kind="wait",
            )


def _event(slot: Slot, title: str, detail: str, kind: str) -> plan.Event:
    return plan.Event.model_validate(
        {"start": iso(slot[0]), "end": iso(slot[1]), "title": title, "detail": detail, "kind": kind}
    )
