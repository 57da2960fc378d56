"""What is used up: resin, glass, rubber, boards, and what goes with a piece."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from pourwright.app.pricing.freight import freight
from pourwright.app.pricing.look import CostLook, Entry, planned_trace, summed
from pourwright.app.pricing.quotes import exact
from pourwright.costing.lines import ONE, Stage
from pourwright.jobs.cost_line import PriceUsed, Trace
from pourwright.jobs.plan import GlassLot
from pourwright.jobs.prices_rows import Item

BY_PIECE: dict[str, tuple[Stage, str]] = {
    "master": ("mold", "the master"),
    "release": ("casting", "release"),
    "consumables": ("casting", "gloves, cups, brushes and the like"),
    "packing": ("piece", "box and padding"),
}
"""What is priced for one mold, one casting or one piece."""
CRUSH = "Crush "


def things(look: CostLook) -> Iterator[Entry]:
    """Everything that is no hour, in the order of the work."""
    yield _resin(look)
    yield from _glass(look)
    yield from _by_piece(look, "release", "consumables")
    yield from _energy(look)
    yield from _items(look, "casting")
    yield _rubber(look)
    yield from _boards(look)
    yield from _by_piece(look, "master")
    yield from _items(look, "mold")
    yield from _items(look, "piece")
    yield from _by_piece(look, "packing")
    yield from freight(look)


def row_gap(thing: str, more: str = "") -> str:
    """What to write for a price that nobody knows."""
    return f'no price: write [[price]] of = "{thing}"{more}'


def _resin(look: CostLook) -> Entry:
    plan = look.planned.plan
    made_of = tuple(
        planned_trace(f"pours[{at}].resin_kg", f"pour {pour.number}", pour.resin_kg, "kg")
        for at, pour in enumerate(plan.pours)
    )
    id_ = plan.piece.casting_material
    record = look.materials.resin.get(id_)
    density = None if record is None else record.density.value
    price = look.quotes.of("resin", "kg", density=density, id=id_)
    name = plan.piece.casting_material_name or id_
    return Entry(
        "resin", "casting", name, "kg", (*made_of, *_by_volume(price, density, f"resin.{id_}.density")),
        summed(made_of), price, row_gap("resin"),
    )  # fmt: skip


def _by_volume(price: PriceUsed | None, density: float | None, path: str) -> tuple[Trace, ...]:
    """The density, where a price by volume was turned into one by mass."""
    if price is None or density is None or not price.by_volume:
        return ()
    return (Trace(where="material", path=path, words="density of the mix", value=density, unit="kg/m3"),)


def _glass(look: CostLook) -> Iterator[Entry]:
    lots = list(enumerate(look.planned.plan.fill.glass))
    crushed = {colour for _, lot in lots for colour in [lot.colour] if _is_crushed(look, colour)}
    for at, lot in lots:
        if lot.colour not in crushed:
            yield _bought(look, at, lot)
    for colour in sorted(crushed):
        yield _bottles(look, colour, [(at, lot) for at, lot in lots if lot.colour == colour])


def _is_crushed(look: CostLook, colour: str) -> bool:
    """Whether the plan has this colour crushed from bottles in the shop."""
    return any(event.title.startswith(f"{CRUSH}{colour} bottles") for event in look.planned.plan.calendar)


def _bought(look: CostLook, at: int, lot: GlassLot) -> Entry:
    trace = planned_trace(f"fill.glass[{at}].mass_kg", f"{lot.colour}, {lot.grade}", lot.mass_kg, "kg")
    density = look.materials.glass[look.job.fill.glass].density.value
    price = look.quotes.of("glass", "kg", density=density, grade=lot.grade, colour=lot.colour)
    return Entry(
        f"glass-{at + 1}", "casting", f"crushed glass, {lot.colour}, {lot.grade}", "kg",
        (trace, *_by_volume(price, density, f"glass.{look.job.fill.glass}.density")),
        exact(lot.mass_kg), price, row_gap("glass"),
    )  # fmt: skip


def _bottles(look: CostLook, colour: str, lots: list[tuple[int, GlassLot]]) -> Entry:
    """Bottles of one colour: they give all its grades, so the grade that takes most decides."""
    at, most = max(lots, key=lambda one: one[1].bottles or 0)
    count = float(most.bottles or 0)
    trace = planned_trace(f"fill.glass[{at}].bottles", f"{colour}, for {most.grade}", count, "piece")
    price = look.quotes.of("bottle", "piece", colour=colour)
    return Entry(
        f"bottles-{at + 1}",
        "casting",
        f"bottles, {colour}",
        "piece",
        (trace,),
        exact(count),
        price,
        row_gap("bottle"),
    )


def _rubber(look: CostLook) -> Entry:
    rubber = look.planned.plan.mold.rubber
    trace = planned_trace("mold.rubber.mixed_kg", "parts A and B, allowance in it", rubber.mixed_kg, "kg")
    record = look.materials.rubber.get(rubber.id)
    density = None if record is None else record.density.value
    price = look.quotes.of("rubber", "kg", density=density, id=rubber.id)
    made_of = (trace, *_by_volume(price, density, f"rubber.{rubber.id}.density"))
    return Entry(
        "rubber", "mold", rubber.name, "kg", made_of, exact(rubber.mixed_kg), price, row_gap("rubber")
    )


def _boards(look: CostLook) -> Iterator[Entry]:
    """Box and space blocks, as the shopping list has them: what is left of a sheet stays the shop's."""
    id_ = look.job.mold.board
    record = look.materials.board[id_]
    sheet = record.sheet_length.value * record.sheet_width.value
    for at, need in enumerate(look.planned.plan.shopping):
        if need.unit != "m2":
            continue
        trace = planned_trace(f"shopping[{at}].quantity", need.note or need.item, need.quantity, "m2")
        price = look.quotes.of("board", "m2", sheet=sheet, id=id_)
        made_of: tuple[Trace, ...] = (trace,)
        if price is not None and price.by_sheet:
            path = f"board.{id_}.sheet_length, sheet_width"
            made_of += (Trace(where="material", path=path, words="one sheet", value=sheet, unit="m2"),)
        yield Entry(
            f"board-{at + 1}", "mold", need.item, "m2", made_of, exact(need.quantity), price, row_gap("board")
        )


def _by_piece(look: CostLook, *names: str) -> Iterator[Entry]:
    for name in names:
        if name in look.quotes.listed.without:
            continue
        stage, words = BY_PIECE[name]
        yield Entry(name, stage, words, "piece", (), ONE, look.quotes.of(name, "piece"), row_gap(name))


def _energy(look: CostLook) -> Iterator[Entry]:
    listed = look.quotes.listed
    if "energy" in listed.without:
        return
    used = listed.energy.casting
    kwh = None if used is None else used.si / 3.6e6
    made_of = () if kwh is None else (look.written(("energy", "casting"), "for one casting", kwh, "kWh"),)
    gap = "no amount: write [energy] casting" if used is None else row_gap("energy")
    amount = None if kwh is None else exact(round(kwh, 9))
    yield Entry("energy", "casting", "energy", "kWh", made_of, amount, look.quotes.of("energy", "kWh"), gap)


def _items(look: CostLook, stage: Stage) -> Iterator[Entry]:
    listed = look.quotes.listed
    for at, item in enumerate(listed.item):
        if item.each == stage:
            yield _item(look, at, item)
    none = not any(item.each == "piece" for item in listed.item)
    if stage == "piece" and none and "items" not in listed.without:
        gap = 'none told: write [[item]], or without = ["items"]'
        yield Entry("items", "piece", "feet and fixings", "piece", (), None, None, gap)


def _item(look: CostLook, at: int, item: Item) -> Entry:
    count = look.written(("item", at, "count"), item.name, float(item.count), "piece")
    used = look.quotes.used(item.price, item.price.per_si, ("item", at, "price"), item.date, item.note or "")
    return Entry(f"item-{at + 1}", item.each, item.name, "piece", (count,), Decimal(item.count), used)
