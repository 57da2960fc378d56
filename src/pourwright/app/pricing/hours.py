"""Lines of hours: the steps of the documents, then finishing, photos and packing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from pourwright.app.pricing.look import CostLook, Entry
from pourwright.app.pricing.quotes import exact
from pourwright.app.pricing.steps import HOUR, STEPS
from pourwright.app.pricing.taken import summed, usual_trace
from pourwright.costing.defaults import GRITS
from pourwright.costing.lines import Stage
from pourwright.foundation.quantities import Quantity
from pourwright.jobs.cost_line import Trace

HOURS = "hours-"
AFTERWARDS = {"fixings": "put feet and fixings on", "photos": "take photos", "packing": "pack it"}


def hours(look: CostLook) -> Iterator[Entry]:
    """Every step with its hours, in the order of the work."""
    for step in STEPS:
        if step.key in look.quotes.listed.without:
            continue
        made_of = _own(look, step.key) or look.taken.work.get(step.key, ())
        if made_of:
            yield work_entry(look, step.key, step.stage, step.words, made_of)
    yield from _finishing(look)
    yield from _afterwards(look)


def work_entry(look: CostLook, key: str, stage: Stage, words: str, made_of: tuple[Trace, ...]) -> Entry:
    """Hours at the price of an hour of this step."""
    price = look.quotes.of("hour", "h", step=key.partition("-")[0])
    gap = 'no price: write [[price]] of = "hour"'
    # things have keys of their own: packing is a box too
    return Entry(f"{HOURS}{key}", stage, words, "h", made_of, summed(made_of), price, gap, kind="work")


def _own(look: CostLook, key: str) -> tuple[Trace, ...]:
    """The shop's own time for a step, where the price list has it."""
    time: Quantity | None = getattr(look.quotes.listed.work, key, None)
    if time is None:
        return ()
    return (look.written(("work", key), "your own time", time.si / HOUR, "h"),)


def _finishing(look: CostLook) -> Iterator[Entry]:
    """Sanding grit by grit, then what the surface ends with; by the area of the piece."""
    finish = look.quotes.listed.finish
    surface = finish.surface_of(look.job.variant_name)
    grits = GRITS[surface] if finish.grits is None else finish.grits
    for grit in grits:
        yield _by_area(look, "sanding", f"sanding-{grit}", f"sand with grit {grit}", finish.sanding)
    if surface == "polished":
        yield _by_area(look, "polishing", "polishing", "polish", finish.polishing)
    elif surface == "satin":
        yield _by_area(look, "satin", "satin", "rub it to a satin face, oil or wax it", finish.satin)


def _by_area(look: CostLook, name: str, key: str, words: str, own: Quantity | None) -> Entry:
    pace = (
        usual_trace(name, "h/m2")
        if own is None
        else look.written(("finish", name), "your own time for a square metre", own.si / HOUR, "h/m2")
    )
    face, change = look.taken.face, _change(look)
    entry = work_entry(look, key, "piece", words, (face, pace, change))
    return replace(entry, amount=round(exact(face.value) * exact(pace.value) + exact(change.value), 4))


def _change(look: CostLook) -> Trace:
    """What each grit and finish takes however small the piece."""
    own = look.quotes.listed.finish.change
    if own is None:
        return usual_trace("change", "h")
    return look.written(("finish", "change"), "your own time for a change", own.si / HOUR, "h")


def _afterwards(look: CostLook) -> Iterator[Entry]:
    listed = look.quotes.listed
    for key, words in AFTERWARDS.items():
        nothing = key == "fixings" and not any(item.each == "piece" for item in listed.item)
        if key in listed.without or nothing:
            continue
        made_of = _own(look, key) or (usual_trace(key, "h"),)
        yield work_entry(look, key, "piece", words, made_of)
