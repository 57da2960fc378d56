"""What a plan of pours says is used up and worked."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from itertools import groupby

from pourwright.app.pricing.planned import Planned
from pourwright.app.pricing.steps import HOUR, STEPS, step_of
from pourwright.app.pricing.taken import Taken, Thing, density_of, mold_hours, sheet_of
from pourwright.costing.lines import Stage
from pourwright.jobs.cost_line import Trace
from pourwright.jobs.job import Job
from pourwright.jobs.plan import GlassLot, PlanDocument
from pourwright.materials import Materials

IN_CALENDAR = ("pour the rubber", "take the master out")
"""Steps of making a mold that the plan's calendar has too."""
CRUSH = "Crush "


def taken_of_plan(plan: PlanDocument, planned: Planned, job: Job, materials: Materials) -> Taken:
    """Read a plan, and how its mold is made."""
    return Taken(
        things=tuple(_things(plan, job, materials)),
        work={key: tuple(traces) for key, traces in _work(plan, planned)},
        face=_number("piece.area_m2", "surface of the piece", plan.piece.area_m2, "m2"),
        weight=_number("piece.mass_kg", "the piece, dry", plan.piece.mass_kg, "kg"),
    )


def _number(path: str, words: str, value: float, unit: str) -> Trace:
    return Trace(where="plan", path=path, words=words, value=value, unit=unit)


def _things(plan: PlanDocument, job: Job, materials: Materials) -> Iterator[Thing]:
    yield _resin(plan, materials)
    yield from _glass(plan, job, materials)
    yield from _inside(plan)
    yield _rubber(plan, materials)
    yield from _boards(plan, job, materials)


def _resin(plan: PlanDocument, materials: Materials) -> Thing:
    id_ = plan.piece.casting_material
    made_of = tuple(
        _number(f"pours[{at}].resin_kg", f"pour {pour.number}", pour.resin_kg, "kg")
        for at, pour in enumerate(plan.pours)
    )
    return Thing(
        "resin", "casting", plan.piece.casting_material_name or id_, "kg", "resin", made_of,
        which={"id": id_}, density=density_of(materials, "resin", id_),
    )  # fmt: skip


def _glass(plan: PlanDocument, job: Job, materials: Materials) -> Iterator[Thing]:
    lots = list(enumerate(plan.fill.glass))
    crushed = {lot.colour for _, lot in lots if _is_crushed(plan, lot.colour)}
    density = density_of(materials, "glass", job.fill.glass)
    for at, lot in lots:
        if lot.colour not in crushed:
            made_of = (_number(f"fill.glass[{at}].mass_kg", f"{lot.colour}, {lot.grade}", lot.mass_kg, "kg"),)
            which = {"grade": lot.grade, "colour": lot.colour}
            words = f"crushed glass, {lot.colour}, {lot.grade}"
            yield Thing(
                f"glass-{at + 1}", "casting", words, "kg", "glass", made_of, which=which, density=density
            )
    for colour in sorted(crushed):
        yield _bottles(colour, [(at, lot) for at, lot in lots if lot.colour == colour])


def _is_crushed(plan: PlanDocument, colour: str) -> bool:
    """Whether the plan has this colour crushed from bottles in the shop."""
    return any(event.title.startswith(f"{CRUSH}{colour} bottles") for event in plan.calendar)


def _bottles(colour: str, lots: list[tuple[int, GlassLot]]) -> Thing:
    """Bottles of one colour: they give all its grades, so the grade that takes most decides."""
    at, most = max(lots, key=lambda one: one[1].bottles or 0)
    words = f"{colour}, for {most.grade}"
    made_of = (_number(f"fill.glass[{at}].bottles", words, float(most.bottles or 0), "piece"),)
    which = {"colour": colour}
    return Thing(
        f"bottles-{at + 1}", "casting", f"bottles, {colour}", "piece", "bottle", made_of, which=which
    )


def _inside(plan: PlanDocument) -> Iterator[Thing]:
    """What is set into a casting, and a core that stays in it; a core that comes out serves again."""
    placed = sorted(enumerate(plan.inserts), key=lambda one: one[1].name)
    for name, some in groupby(placed, key=lambda one: one[1].name):
        made_of = tuple(_number(f"inserts[{at}].name", name, 1.0, "piece") for at, _ in some)
        yield Thing(f"insert-{name}", "casting", name, "piece", "insert", made_of, which={"id": name})
    if plan.hollow is not None:
        words = f"core, {plan.hollow.material_name}"
        made_of = (_number("hollow.core_m3", words, 1.0, "piece"),)
        stage: Stage = "casting" if plan.hollow.stays else "mold"
        yield Thing("core", stage, words, "piece", "core", made_of, which={"id": plan.hollow.material})


def _rubber(plan: PlanDocument, materials: Materials) -> Thing:
    rubber = plan.mold.rubber
    made_of = (_number("mold.rubber.mixed_kg", "parts A and B, allowance in it", rubber.mixed_kg, "kg"),)
    return Thing(
        "rubber", "mold", rubber.name, "kg", "rubber", made_of,
        which={"id": rubber.id}, density=density_of(materials, "rubber", rubber.id),
    )  # fmt: skip


def _boards(plan: PlanDocument, job: Job, materials: Materials) -> Iterator[Thing]:
    """Box and space blocks, as the shopping list has them: what is left of a sheet stays the shop's."""
    id_ = job.mold.board
    for at, need in enumerate(plan.shopping):
        if need.unit == "m2":
            made_of = (_number(f"shopping[{at}].quantity", need.note or need.item, need.quantity, "m2"),)
            yield Thing(
                f"board-{at + 1}", "mold", need.item, "m2", "board", made_of,
                which={"id": id_}, sheet=sheet_of(materials, id_),
            )  # fmt: skip


def _work(plan: PlanDocument, planned: Planned) -> Iterator[tuple[str, list[Trace]]]:
    at, way = planned.way
    for step in STEPS:
        if step.key == "make_mold":
            yield step.key, list(mold_hours((f"ways.ways[{at}].steps", way.steps), IN_CALENDAR))
        elif step.key == "close_mold":
            yield step.key, list(mold_hours((f"ways.ways[{at}].each_cast", way.each_cast)))
        else:
            yield step.key, list(_of_calendar(plan, step.key))


def _of_calendar(plan: PlanDocument, key: str) -> Iterator[Trace]:
    for at, event in enumerate(plan.calendar):
        if event.kind != "wait" and step_of(event.title) == key:
            begin, end = (datetime.fromisoformat(each) for each in (event.start, event.end))
            length = round((end - begin).total_seconds() / HOUR, 4)
            yield _number(f"calendar[{at}]", event.title, length, "h")
