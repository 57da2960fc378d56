"""What is said of a purchase."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from decimal import Decimal

from pourwright.app.ordering.dating import shown
from pourwright.app.ordering.look import OrderLook
from pourwright.app.ordering.needs import Thing, used_as
from pourwright.foundation.notation import format_amount, format_mass, format_share
from pourwright.jobs.buying_sheet import Goods, Kits
from pourwright.line.buying.offers import Purchase

SMALL = 1e-6
NAMES = {"release": "release", "consumables": "gloves, cups, brushes", "packing": "box and padding"}
MONTH = 30
"""Days that a list stands for, at least."""


def goods_words(thing: Thing, look: OrderLook) -> str:
    """Name of a thing."""
    used = used_as(look, thing)
    return NAMES.get(thing.of, thing.id) if used is None else used.words


def amount_words(amount: float, unit: str, look: OrderLook) -> str:
    """An amount with its unit."""
    return format_mass(amount, look.system) if unit == "kg" else f"{amount:g} pieces"


def total_words(look: OrderLook, purchase: Purchase, money: Decimal, currency: str) -> str:
    """Say what it costs and how sure that is."""
    said = format_amount(money, currency, look.system)
    if not purchase.bought:
        return "Nothing is bought: the stock has it all." if purchase.proven else said
    if purchase.proven:
        return f"{said} in all: nothing is cheaper of what is offered."
    least = format_amount(Decimal(repr(purchase.least)), currency, look.system)
    return f"{said} in all; nothing costs less than {least}."


def notes_of(look: OrderLook, castings: int) -> Iterator[str]:
    """How it was reckoned."""
    pieces = sum(order.count for order in look.orders.order)
    yield (
        f"It is enough for {castings} castings: so many give {pieces} good pieces in "
        f"{format_share(look.kept)} of all cases or more; those that replace failed ones are counted on the "
        "last day."
    )
    yield (
        "What the book has is used first, and of it what expires first; what is kept for other jobs is left "
        "alone. Resin and rubber are missing as the scarcer of parts A and B is."
    )
    yield "Whole kits; they come on four days at most, but where something keeps too short for that."


def remarks_of(goods: Sequence[Goods], kits: Sequence[Kits], look: OrderLook) -> Iterator[str]:
    """What is to be minded: gaps, and what goes off before it can be used."""
    for each in goods:
        if each.gap:
            amount = amount_words(each.missing, each.unit, look)
            yield f"{each.words}, {amount}: not in the sum; {each.gap}."
    for one in kits:
        used = next(each for each in goods if each.words == one.words)
        usable = _usable(used, one)
        if one.goes_off is not None and usable is not None and one.kit > usable and one.over > SMALL:
            kit, some, over = (amount_words(amount, one.unit, look) for amount in (one.kit, usable, one.over))
            yield (
                f"{one.words}: a kit of {kit} is larger than can be used before it expires ({one.at}): as "
                f"this list goes on, {some} until {shown(one.goes_off)}. {over} of it is left over: ask for "
                "a smaller kit, or have other work for it."
            )


def _usable(used: Goods, one: Kits) -> float | None:
    """As much as a list like this uses while a kit keeps."""
    if one.goes_off is None:
        return None
    days = [date.fromisoformat(each.day) for each in used.needs]
    span = max((max(days) - min(days)).days, MONTH)
    keeps = (date.fromisoformat(one.goes_off) - date.fromisoformat(one.comes)).days
    return used.needed * max(keeps / span, 1.0 if keeps >= (max(days) - min(days)).days else 0.0)
