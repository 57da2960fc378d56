"""Lines of what is used up: what the documents say, and what the price list adds."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from pourwright.app.pricing.freight import freight
from pourwright.app.pricing.look import CostLook, Entry
from pourwright.app.pricing.quotes import exact
from pourwright.app.pricing.taken import Thing, summed
from pourwright.costing.lines import ONE, Stage
from pourwright.jobs.cost_line import PriceUsed, Trace
from pourwright.jobs.prices_rows import Item

BY_PIECE: dict[str, tuple[Stage, str]] = {
    "master": ("mold", "the master"),
    "release": ("casting", "release"),
    "consumables": ("casting", "gloves, cups, brushes and the like"),
    "packing": ("piece", "box and padding"),
}
"""What is priced for one mold, one casting or one piece."""


def things(look: CostLook) -> Iterator[Entry]:
    """Everything that is no hour, in the order of the work."""
    yield from (_entry(look, thing) for thing in look.taken.things)
    yield from _by_piece(look, "release", "consumables")
    yield from _energy(look)
    yield from _items(look, "casting")
    yield from _by_piece(look, "master")
    yield from _items(look, "mold")
    yield from _items(look, "piece")
    yield from _by_piece(look, "packing")
    yield from freight(look)


def row_gap(thing: str) -> str:
    """What to write for a price that nobody knows."""
    return f'no price: write [[price]] of = "{thing}"'


def _entry(look: CostLook, thing: Thing) -> Entry:
    density, sheet = (None if each is None else each[1] for each in (thing.density, thing.sheet))
    price = look.quotes.of(thing.of, thing.unit, density=density, sheet=sheet, **thing.which)
    made_of = (*thing.made_of, *_turned(thing, price))
    amount = summed(thing.made_of) if thing.amount is None else thing.amount
    return Entry(thing.key, thing.stage, thing.words, thing.unit, made_of, amount, price, row_gap(thing.of))


def _turned(thing: Thing, price: PriceUsed | None) -> Iterator[Trace]:
    """What a price by volume or by the sheet was turned with."""
    if price is not None and price.by_volume and thing.density is not None:
        path, value = thing.density
        yield Trace(where="material", path=path, words="density", value=value, unit="kg/m3")
    if price is not None and price.by_sheet and thing.sheet is not None:
        path, value = thing.sheet
        yield Trace(where="material", path=path, words="one sheet", value=value, unit="m2")


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
