"""What a mold that was made has taken of the stock, and what is told of the boards it was cut from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from pourwright.app.booking.needs import Thing, needs_of_mold
from pourwright.foundation.notation import System, format_area, format_mass
from pourwright.jobs.plan import PlanDocument
from pourwright.records import LOT_KINDS, Entry, Lot, Move

WEIGHED = {"rubber_a": "A", "rubber_b": "B"}
MADE = "mold_made"


def made_of(plan: PlanDocument, entries: Iterable[Entry]) -> dict[Thing, float]:
    """Say what the molds of a plan have taken so far, by the log.

    Parameters
    ----------
    plan : PlanDocument
        The plan.
    entries : iterable of Entry
        Of the piece as a whole, in their order.

    Returns
    -------
    dict
        Amount by thing: rubber as it was weighed before the mold was said to be made, else as planned; boards
        as the panels are planned, once it is made.
    """
    planned = {need.thing: need.amount for need in needs_of_mold(plan)}
    rubber = {part: Thing("rubber", plan.mold.rubber.id, "", part) for part in "AB"}
    taken: dict[Thing, float] = {}
    weighed: dict[Thing, float] = {}
    for entry in entries:
        if entry.kind in WEIGHED:
            thing = rubber[WEIGHED[entry.kind]]
            weighed[thing] = weighed.get(thing, 0.0) + (entry.value or 0.0)
        elif entry.kind == MADE:
            _add(taken, planned | weighed)
            weighed = {}
    _add(taken, weighed)
    return {thing: amount for thing, amount in taken.items() if amount > 0.0}


def _add(taken: dict[Thing, float], more: dict[Thing, float]) -> None:
    for thing, amount in more.items():
        taken[thing] = taken.get(thing, 0.0) + amount


def taken_words(
    wanted: dict[Thing, float], moves: Sequence[Move], lots: Sequence[Lot], system: System
) -> Iterator[str]:
    """Say what was taken, what the stock did not have, and how much board is left over.

    Parameters
    ----------
    wanted : dict
        As from `made_of`.
    moves : sequence of Move
        Made for it.
    lots : sequence of Lot
        The stock as it is now.
    system : UnitSystem
        Of the words.

    Yields
    ------
    str
        A sentence for each thing.
    """
    by_id = {lot.id: lot for lot in lots}
    for thing, amount in wanted.items():
        took = -sum(move.change for move in moves if _is(by_id.get(move.lot_id), thing))
        name = f"{thing.material}{f', part {thing.grade}' if thing.grade else ''}"
        said = f"{name}: {_amount(thing, took, system)} taken from stock"
        if took < amount - 1e-6:
            said += f"; {_amount(thing, amount - took, system)} more went in than the book has"
        if thing.kind == "board":
            rest = sum(lot.left for lot in lots if _is(lot, thing))
            said += f"; {_amount(thing, rest, system)} are left, sheets and offcuts"
        yield f"{said}."


def _is(lot: Lot | None, thing: Thing) -> bool:
    return lot is not None and (lot.kind, lot.material, lot.grade) == (
        thing.kind,
        thing.material,
        thing.grade,
    )


def _amount(thing: Thing, amount: float, system: System) -> str:
    shown = format_mass if LOT_KINDS[thing.kind] == "kg" else format_area
    return shown(max(amount, 0.0), system)
