"""What it costs to send a piece, by its dry weight."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from pourwright.app.pricing.look import CostLook, Entry
from pourwright.app.pricing.taken import summed
from pourwright.costing.lines import ONE
from pourwright.foundation.notation import format_mass
from pourwright.foundation.quantities import Dimension
from pourwright.jobs.cost_line import PriceUsed, Trace


def freight(look: CostLook) -> Iterator[Entry]:
    """The cheapest parcel that carries the piece; a gap where there is none."""
    listed = look.quotes.listed
    if "freight" in listed.without:
        return
    made_of = tuple(_weights(look))
    weight = summed(made_of)
    if not listed.freight:
        yield _entry(made_of, None, None, "no price: write [[freight]] up_to, price", "piece")
        return
    choices = [
        (_money(at, look, weight), at)
        for at, row in enumerate(listed.freight)
        if row.up_to is None or weight <= Decimal(repr(row.up_to.si))
    ]
    if not choices:
        heavy = format_mass(float(weight), look.system)
        yield _entry(made_of, None, None, f"no parcel carries {heavy}: write a [[freight]] for it", "piece")
        return
    _, at = min(choices)
    row = listed.freight[at]
    by_mass = row.price.dimension is Dimension.MONEY_PER_MASS
    used = look.quotes.used(row.price, row.price.per_si, ("freight", at, "price"), row.date)
    yield _entry(made_of, weight if by_mass else ONE, used, "", "kg" if by_mass else "piece")


def _weights(look: CostLook) -> Iterator[Trace]:
    yield look.taken.weight
    packing = look.quotes.listed.packing_mass
    if packing is not None:
        yield look.written(("packing_mass",), "box and padding", packing.si, "kg")


def _money(at: int, look: CostLook, weight: Decimal) -> Decimal:
    price = look.quotes.listed.freight[at].price
    return price.per_si * (weight if price.dimension is Dimension.MONEY_PER_MASS else ONE)


def _entry(
    made_of: tuple[Trace, ...], amount: Decimal | None, used: PriceUsed | None, gap: str, unit: str
) -> Entry:
    return Entry("freight", "piece", "freight", unit, made_of, amount, used, gap)
