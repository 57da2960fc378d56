"""What fill and mold say is used up and worked for gypsum and concrete, which go in at once."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.pricing.planned import Planned
from pourwright.app.pricing.quotes import exact
from pourwright.app.pricing.taken import Taken, Thing, density_of, mold_hours, sheet_of, summed, usual_trace
from pourwright.jobs.cost_line import Trace
from pourwright.jobs.fill_mineral import Mineral
from pourwright.jobs.job import Job
from pourwright.materials import Materials
from pourwright.mold.ways.defaults import AMOUNTS

COATS = ("shop sealing_coat", "shop patch", "shop release_coat")
"""On the master: one coat of sealer, a test patch, a release."""


def taken_of_fill(mineral: Mineral, planned: Planned, job: Job, materials: Materials) -> Taken:
    """Read fill and mold; hours that no calendar has are common practice."""
    piece = planned.piece
    return Taken(
        things=tuple(_things(mineral, planned, job, materials)),
        work=dict(_work(mineral, planned)),
        face=_number("piece.area_m2", "surface of the piece", piece.area_m2, "m2"),
        weight=_number("piece.mass_kg", "the piece, dry", piece.mass_kg, "kg"),
    )


def _number(path: str, words: str, value: float, unit: str) -> Trace:
    return Trace(where="fill", path=path, words=words, value=value, unit=unit)


def _things(mineral: Mineral, planned: Planned, job: Job, materials: Materials) -> Iterator[Thing]:
    id_ = job.casting.material
    powder = (_number("mineral.powder_kg", "dry powder, allowance in it", mineral.powder_kg, "kg"),)
    yield Thing("mineral", "casting", mineral.name, "kg", "mineral", powder, which={"id": id_})
    if mineral.aggregate_kg:
        words = f"crushed glass, {mineral.aggregate_grade}, stirred in"
        made_of = (_number("mineral.aggregate_kg", words, mineral.aggregate_kg, "kg"),)
        density = density_of(materials, "glass", job.fill.glass)
        which = {"grade": mineral.aggregate_grade}
        yield Thing("glass-1", "casting", words, "kg", "glass", made_of, which=which, density=density)
    yield from _mold(planned, job, materials)


def _mold(planned: Planned, job: Job, materials: Materials) -> Iterator[Thing]:
    at, way = planned.way
    rubber, board = job.mold.rubber, job.mold.board
    mixed = (_in_mold(f"ways.ways[{at}].mixed_kg", "parts A and B, allowance in it", way.mixed_kg, "kg"),)
    record = materials.rubber.get(rubber)
    yield Thing(
        "rubber", "mold", rubber if record is None else record.name, "kg", "rubber", mixed,
        which={"id": rubber}, density=density_of(materials, "rubber", rubber),
    )  # fmt: skip
    waste = AMOUNTS["waste"]
    area = (_in_mold(f"ways.ways[{at}].board_m2", "panels and blocks, before saw cuts", way.board_m2, "m2"),)
    lost = Trace(where="practice", path="waste", words=waste.conditions, value=waste.value, unit="")
    yield Thing(
        "board-1", "mold", "board for box and blocks", "m2", "board", (*area, lost),
        amount=round(summed(area) * (1 + exact(waste.value)), 6),
        which={"id": board}, sheet=sheet_of(materials, board),
    )  # fmt: skip


def _in_mold(path: str, words: str, value: float, unit: str) -> Trace:
    return Trace(where="mold", path=path, words=words, value=value, unit=unit)


def _work(mineral: Mineral, planned: Planned) -> Iterator[tuple[str, tuple[Trace, ...]]]:
    at, way = planned.way
    yield "make_mold", tuple(mold_hours((f"ways.ways[{at}].steps", way.steps)))
    yield "coat_master", tuple(usual_trace(name, "h") for name in COATS)
    yield "check", (usual_trace("shop go_no_go", "h"),)
    yield "pour", (_pouring(mineral),)
    yield "demold", (usual_trace("shop demold", "h"),)
    yield "close_mold", tuple(mold_hours((f"ways.ways[{at}].each_cast", way.each_cast)))


def _pouring(mineral: Mineral) -> Trace:
    """Until the last batch is in, or the usual least."""
    least = usual_trace("shop least_pour", "h")
    if not mineral.batches or mineral.batches[-1].in_after_h <= least.value:
        return least
    last = len(mineral.batches) - 1
    path, words = f"mineral.batches[{last}].in_after_h", f"{last + 1} batches, all in the mold"
    return _number(path, words, round(mineral.batches[-1].in_after_h, 4), "h")
