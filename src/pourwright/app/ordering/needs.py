"""What the pieces of an order list need, and on which days."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from math import ceil
from typing import NamedTuple

from pourwright.app.ordering.look import OrderLook
from pourwright.app.ordering.product import Made
from pourwright.app.pricing.taken import Thing as Used, summed
from pourwright.costing.starts import starts_for
from pourwright.line.buying.stock import Need

BY_KILOGRAM = ("resin", "rubber", "glass")
WASHED = ("glass", "bottle")
"""Needed before the first pour: washed, crushed, dried."""
OF_MOLD = ("rubber", "core")
"""Needed once for a mold that is still to be made; boards are cut lists' matter."""


class Thing(NamedTuple):
    """What is needed.

    Parameters
    ----------
    of, id, grade, colour : str
        As an offer names it.
    """

    of: str
    id: str = ""
    grade: str = ""
    colour: str = ""

    @property
    def unit(self) -> str:
        """What it is counted in."""
        return "kg" if self.of in BY_KILOGRAM else "pieces"


Wants = dict[Thing, list[Need]]


def needs_of(look: OrderLook) -> tuple[Wants, int]:
    """Add up what all pieces need.

    Parameters
    ----------
    look : OrderLook
        With its dates.

    Returns
    -------
    tuple of (dict, int)
        Needs by thing; castings that it is enough for.
    """
    wants: Wants = {}
    castings = 0
    for at, made in enumerate(look.made):
        poured, ready = _days(look, at)
        if not poured:
            continue
        starts = starts_for(len(poured), 1.0 - look.routes[at].scrap, look.kept)
        castings += starts
        # those that may fail are made up for at the end
        poured += [poured[-1]] * (starts - len(poured))
        for thing, day, amount in _all(look, at, made, poured, ready):
            if amount > 0:
                wants.setdefault(thing, []).append(Need(day, amount))
    return {thing: wants[thing] for thing in sorted(wants)}, castings


def _days(look: OrderLook, at: int) -> tuple[list[date], list[date]]:
    """Days of first pours and of the end of finishing of a product's pieces."""
    poured, ready = [], []
    for order, dated in zip(look.line.orders, look.dates.dated, strict=True):
        if order.product == at:
            poured += [look.line.halves.day(int(slot)) for slot in dated.begun[0]]
            ready += [look.line.halves.day(int(slot)) for slot in dated.ready[0]]
    return sorted(poured), sorted(ready)


Wanted = Iterator[tuple[Thing, date, float]]


def _all(look: OrderLook, at: int, made: Made, poured: list[date], ready: list[date]) -> Wanted:
    listed, first = made.look.quotes.listed, look.start.date()
    earlier = timedelta(days=1 + ceil(look.routes[at].dries / 24)) if look.routes[at].before else timedelta(0)
    for used in made.look.taken.things:
        amount = float(summed(used.made_of) if used.amount is None else used.amount)
        if used.stage == "casting":
            early = earlier if used.of in WASHED else timedelta(0)
            yield from ((thing_of(used), max(day - early, first), amount) for day in poured)
        elif used.of in OF_MOLD:
            yield thing_of(used), first, made.row.new_molds * amount
    for name, days in (("release", poured), ("consumables", poured), ("packing", ready)):
        if any(row.of == name for row in listed.price) and name not in listed.without:
            yield from ((Thing(name), day, 1.0) for day in days)
    for item in listed.item:
        days = {"casting": poured, "piece": ready, "mold": [first] * made.row.new_molds}[item.each]
        yield from ((Thing("item", item.name), day, float(item.count)) for day in days)


def thing_of(used: Used) -> Thing:
    """What an offer calls something that is used up."""
    which = used.which
    return Thing(used.of, which.get("id") or "", which.get("grade") or "", which.get("colour") or "")


def used_as(look: OrderLook, thing: Thing) -> Used | None:
    """The same as the plans have it, with its name and density."""
    every = (used for made in look.made for used in made.look.taken.things)
    return next((used for used in every if thing_of(used) == thing), None)
