"""From a plan to the way of a piece through the shop."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from datetime import datetime

from pourwright.app.ordering.product import Made
from pourwright.app.pricing.hours import HOURS, hours
from pourwright.app.pricing.look import Entry
from pourwright.app.pricing.running import scrap_of
from pourwright.app.pricing.steps import HOUR, step_of
from pourwright.jobs.plan import Event, PlanDocument
from pourwright.line.dates.route import Route, Step
from pourwright.line.defaults import LINE

BEFORE = ("crush", "wash")
"""Steps that are done before the mold is touched, on any day."""
AT_MOLD = ("lay", "check", "pour", "look", "sand_between", "other")
DRIES = "The glass dries"
_OF_POUR = re.compile(r"Look at pour (\d+)")
SPREAD_OF_BAND = 2.563
"""From the tenth to the ninetieth of a hundred a normal spread has so many deviations."""


def entries_of(made: Made) -> list[Entry]:
    """Hours by step for a casting and for a good piece, as a cost has them."""
    return [each for each in hours(made.look) if each.stage != "mold" and each.amount is not None]


def route_of(made: Made, entries: Sequence[Entry]) -> Route:
    """Say what a piece needs.

    Parameters
    ----------
    made : Made
        The product.
    entries : sequence of Entry
        Its hours.

    Returns
    -------
    Route
    """
    plan, row = made.plan, made.row
    amounts = {each.key.removeprefix(HOURS): float(each.amount or 0) for each in entries}
    finishing = sum(float(each.amount or 0) for each in entries if each.stage == "piece")
    return Route(
        name=row.name,
        steps=tuple(_steps(plan, amounts)),
        before=sum(amounts.get(key, 0.0) for key in BEFORE),
        dries=_dries(plan),
        finishing=finishing if row.finishing is None else row.finishing.si / HOUR,
        rest=(LINE["rest"].value if row.rest is None else row.rest.si) / HOUR,
        molds=row.molds,
        scrap=float(scrap_of(made.look)[0]) if row.scrap is None else row.scrap,
        demold_spread=_spread(plan),
    )


def _steps(plan: PlanDocument, amounts: dict[str, float]) -> Iterator[Step]:
    """Each pour with the work around it, then taking out; gaps and bond windows as planned."""
    work = _work(plan, amounts)
    before = None
    for pour in plan.pours:
        start = datetime.fromisoformat(pour.start)
        name = f"pour {pour.number}"
        if before is None:
            yield Step(name, work[pour.number])
        else:
            gap = (start - datetime.fromisoformat(before.start)).total_seconds() / HOUR
            until = None if pour.sand_first else max(before.bonds_until_h, gap)
            yield Step(name, work[pour.number], gap, until)
        before = pour
    after = plan.demold.kept_after_h or plan.demold.after_h or 0.0
    out = amounts.get("demold", 0.0) + amounts.get("close_mold", 0.0)
    yield Step("taking out", out, after)


def _work(plan: PlanDocument, amounts: dict[str, float]) -> dict[int, float]:
    """Hours at each pour: own times of a step are spread as its planned ones."""
    events = [each for each in plan.calendar if each.kind != "wait" and step_of(each.title) in AT_MOLD]
    planned: dict[str, float] = {}
    for event in events:
        key = step_of(event.title)
        planned[key] = planned.get(key, 0.0) + _length(event)
    found = {pour.number: 0.0 for pour in plan.pours}
    for event in events:
        key = step_of(event.title)
        share = _length(event) / planned[key] if planned[key] else 0.0
        found[_pour_of(plan, event)] += share * amounts.get(key, 0.0)
    return found


def _length(event: Event) -> float:
    begin, end = (datetime.fromisoformat(each) for each in (event.start, event.end))
    return (end - begin).total_seconds() / HOUR


def _pour_of(plan: PlanDocument, event: Event) -> int:
    """The pour that is looked at, else the next one; the last one afterwards."""
    looked = _OF_POUR.match(event.title)
    if looked:
        return int(looked[1])
    begins = datetime.fromisoformat(event.start)
    following = [pour.number for pour in plan.pours if datetime.fromisoformat(pour.start) >= begins]
    return following[0] if following else plan.pours[-1].number


def _dries(plan: PlanDocument) -> float:
    return max((_length(event) for event in plan.calendar if event.title == DRIES), default=0.0)


def _spread(plan: PlanDocument) -> float:
    """Relative deviation of the time until a casting is hard: the plan's own band, else common practice."""
    low, high, after = plan.demold.after_h_p10, plan.demold.after_h_p90, plan.demold.after_h
    if low is None or high is None or not after:
        return LINE["curing"].value
    return (high - low) / SPREAD_OF_BAND / after
