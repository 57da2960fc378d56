"""Hours by step: what the calendar keeps somebody busy with, what the mold takes, what finishing takes."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import datetime

from pourwright.app.pricing.look import CostLook, Entry, planned_trace, summed, usual_trace
from pourwright.app.pricing.quotes import exact
from pourwright.costing.defaults import COSTING, GRITS
from pourwright.costing.lines import Stage
from pourwright.foundation.quantities import Quantity
from pourwright.jobs.cost_line import Trace
from pourwright.jobs.mold_ways import WayStep
from pourwright.jobs.plan import Event

HOUR = 3600.0
OTHER, HOURS = "other", "hours-"


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the work.

    Parameters
    ----------
    key : str
        As under [work].
    stage : str
        What it is done for.
    words : str
        As the cost has it.
    titles : str
        Pattern of its titles in the plan's calendar; empty where it is not in there.
    """

    key: str
    stage: Stage
    words: str
    titles: str = ""


_COATS = r"Seal the master|(Lay|Look at) the test patch|Release on"
STEPS = (
    Step("make_mold", "mold", "box and blocks, seams, turning over, cutting open"),
    Step("coat_master", "mold", "seal and release the master, test patch", _COATS),
    Step("pour_rubber", "mold", "pour the rubber", r"Pour the rubber"),
    Step("take_master_out", "mold", "take the master out", r"Take the master out"),
    Step("crush", "casting", "soak and crush bottles", r"Soak the bottles|Crush "),
    Step("wash", "casting", "wash the glass", r"Wash the glass"),
    Step("lay", "casting", "lay the glass in", r"Lay the glass"),
    Step("check", "casting", "go through the list before A meets B", r"Go/no-go"),
    Step("pour", "casting", "weigh, mix and pour", r"Pour \d+ of"),
    Step("look", "casting", "look for leaks, touch the tops", r"Look at pour|Is pour \d+ gelled"),
    Step("sand_between", "casting", "wash and sand tops between pours", r"Wash and sand pour"),
    Step("demold", "casting", "demold", r"Demold"),
    Step(OTHER, "casting", "other work in the calendar", r""),
    Step("close_mold", "casting", "clean and close the mold again"),
)  # fmt: skip
"""In their order; a title belongs to the first whose pattern it begins with."""
IN_CALENDAR = ("pour the rubber", "take the master out")
"""Steps of making a mold that the plan's calendar has too."""
AFTERWARDS = {"fixings": "put feet and fixings on", "photos": "take photos", "packing": "pack it"}


def hours(look: CostLook) -> Iterator[Entry]:
    """Every step with its hours, in the order of the work."""
    for step in STEPS:
        if step.key in look.quotes.listed.without:
            continue
        made_of = _own(look, step.key) or tuple(_planned(look, step))
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


def _planned(look: CostLook, step: Step) -> Iterator[Trace]:
    at, way = look.planned.way
    if step.key == "make_mold":
        yield from _of_mold((f"ways.ways[{at}].steps", way.steps), IN_CALENDAR)
    elif step.key == "close_mold":
        yield from _of_mold((f"ways.ways[{at}].each_cast", way.each_cast))
    else:
        yield from _of_calendar(look.planned.plan.calendar, step)


def _of_mold(steps: tuple[str, list[WayStep]], without: Iterable[str] = ()) -> Iterator[Trace]:
    path, listed = steps
    for at, step in enumerate(listed):
        if step.name not in without and step.work_h > 0:
            yield Trace(
                where="mold",
                path=f"{path}[{at}].work_h",
                words=step.name,
                value=round(step.work_h, 4),
                unit="h",
            )


def _of_calendar(events: list[Event], step: Step) -> Iterator[Trace]:
    for at, event in enumerate(events):
        if event.kind != "wait" and step_of(event.title) == step.key:
            begin, end = (datetime.fromisoformat(each) for each in (event.start, event.end))
            length = round((end - begin).total_seconds() / HOUR, 4)
            yield planned_trace(f"calendar[{at}]", event.title, length, "h")


def step_of(title: str) -> str:
    """Which step a line of the calendar belongs to.

    Examples
    --------
    >>> step_of("Pour 2 of 4"), step_of("Pour the rubber, at the latest"), step_of("Sweep the shop")
    ('pour', 'pour_rubber', 'other')
    """
    return next((step.key for step in STEPS if step.titles and re.match(step.titles, title)), OTHER)


def _finishing(look: CostLook) -> Iterator[Entry]:
    """Sanding grit by grit, then what the surface ends with; by the area of the piece."""
    finish, area = look.quotes.listed.finish, look.planned.plan.piece.area_m2
    grits = GRITS[finish.surface] if finish.grits is None else finish.grits
    for grit in grits:
        yield _by_area(look, "sanding", f"sanding-{grit}", f"sand with grit {grit}", finish.sanding, area)
    if finish.surface == "polished":
        yield _by_area(look, "polishing", "polishing", "polish", finish.polishing, area)
    elif finish.surface == "satin":
        yield _by_area(look, "satin", "satin", "rub it to a satin face, oil or wax it", finish.satin, area)


def _by_area(look: CostLook, name: str, key: str, words: str, own: Quantity | None, area: float) -> Entry:
    usual = COSTING[name]
    pace = (
        usual_trace(name, usual, usual.value / HOUR, "h/m2")
        if own is None
        else look.written(("finish", name), "your own time for a square metre", own.si / HOUR, "h/m2")
    )
    face = planned_trace("piece.area_m2", "surface of the piece", area, "m2")
    change = _change(look)
    entry = work_entry(look, key, "piece", words, (face, pace, change))
    return replace(entry, amount=round(exact(area) * exact(pace.value) + exact(change.value), 4))


def _change(look: CostLook) -> Trace:
    """What each grit and finish takes however small the piece."""
    own, usual = look.quotes.listed.finish.change, COSTING["change"]
    if own is None:
        return usual_trace("change", usual, round(usual.value / HOUR, 6), "h")
    return look.written(("finish", "change"), "your own time for a change", own.si / HOUR, "h")


def _afterwards(look: CostLook) -> Iterator[Entry]:
    listed = look.quotes.listed
    for key, words in AFTERWARDS.items():
        nothing = key == "fixings" and not any(item.each == "piece" for item in listed.item)
        if key in listed.without or nothing:
            continue
        usual = COSTING[key]
        made_of = _own(look, key) or (usual_trace(key, usual, usual.value / HOUR, "h"),)
        yield work_entry(look, key, "piece", words, made_of)
