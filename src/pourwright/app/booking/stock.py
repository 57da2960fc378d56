"""The stock as it is told: what is left, what is kept for plans, what runs short and when."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from pourwright.app.booking.casting import Casting, read_casting
from pourwright.app.booking.needs import Need, Thing, needs_of_mold, needs_of_pour, used_by
from pourwright.app.booking.settling import LEAST, casts_of_mold, document, thing_of
from pourwright.jobs.plan import PlanDocument, Pour as PlannedPour
from pourwright.records import (
    LOT_KINDS,
    Book,
    Lot,
    Reservation,
    casts_of,
    lots_of,
    moves_of,
    plan_by_id,
    reservations_of,
)
from pourwright.records.moments import now, written, written_maybe


@dataclass(frozen=True)
class Shortage:
    """What will not be there.

    Parameters
    ----------
    thing : Thing
        What.
    at : datetime
        When it runs short.
    missing : float
        How much is missing for everything that is reserved, in the unit of its kind.
    job : str
        Whose pour it is short for first.
    """

    thing: Thing
    at: datetime
    missing: float
    job: str


def open_needs(book: Book, reservation: Reservation) -> tuple[Need, ...]:
    """Say what a reserved piece still needs.

    Parameters
    ----------
    book : Book
        Open.
    reservation : Reservation
        Which.

    Returns
    -------
    tuple of Need
        Of pours that are not over; and of the mold, where nothing was cast from it yet.
    """
    plan, kept = document(book, reservation.plan_id), plan_by_id(book, reservation.plan_id)
    casting = read_casting(book, kept.job, kept.variant, reservation.casting)
    found = [need for one in plan.pours for need in _rest(plan, one, casting)]
    if not lots_of(book, "mold", kept.job) and not casts_of(book, kept.job):
        found += needs_of_mold(plan)
    return tuple(found)


def _rest(plan: PlanDocument, pour: PlannedPour, casting: Casting) -> list[Need]:
    """What a pour has not taken yet; nothing once it has gelled or the next has begun."""
    there = casting.pour(pour.number)
    needs = needs_of_pour(plan, pour)
    if there is None or there.begun is None:
        return list(needs)
    entries = casting.entries(pour.number)
    if there.ended is not None or any(entry.kind == "gel" for entry in entries):
        return []
    taken = used_by(plan, pour.number, entries)
    rest = (replace(need, amount=need.amount - taken.get(need.thing, 0.0)) for need in needs)
    return [need for need in rest if need.amount > LEAST]


def shortages(book: Book) -> tuple[tuple[Shortage, ...], dict[Thing, float]]:
    """Say what runs short for what is reserved, and how much is reserved.

    Parameters
    ----------
    book : Book
        Open.

    Returns
    -------
    tuple of (tuple of Shortage, dict)
        The first to run short first; the amount reserved by thing.
    """
    wanted = sorted(
        ((need, one) for one in reservations_of(book) for need in open_needs(book, one)),
        key=lambda pair: (pair[0].at, pair[1].made, pair[0].thing),
    )
    lots: dict[Thing, list[Lot]] = {}
    for lot in lots_of(book):
        lots.setdefault(thing_of(lot), []).append(lot)
    left = {lot.id: lot.left for of_thing in lots.values() for lot in of_thing}
    reserved: dict[Thing, float] = {}
    short: dict[Thing, Shortage] = {}
    for need, one in wanted:
        reserved[need.thing] = reserved.get(need.thing, 0.0) + need.amount
        missing = _allot(lots.get(need.thing, ()), left, need)
        if missing > LEAST:
            first = short.get(need.thing)
            total = missing + (first.missing if first else 0.0)
            at, job = (first.at, first.job) if first else (need.at, plan_by_id(book, one.plan_id).job)
            short[need.thing] = Shortage(need.thing, at, total, job)
    return tuple(sorted(short.values(), key=lambda each: (each.at, each.thing))), reserved


def _allot(lots: Iterable[Lot], left: dict[int, float], need: Need) -> float:
    """Take a need from what is left in thought; what has gone off by then does not count."""
    missing, at = need.amount, max(need.at, now())
    for lot in lots:
        if missing <= LEAST:
            return 0.0
        keeps = lot.expires is None or lot.expires >= at
        if keeps and (lot.bought or at) <= at:
            part = min(missing, max(left[lot.id], 0.0))
            left[lot.id] -= part
            missing -= part
    return missing


def stock_of(book: Book) -> dict[str, Any]:
    """Say what is on stock.

    Parameters
    ----------
    book : Book
        Open.

    Returns
    -------
    dict
        ``lots`` (the first to expire first), ``things`` with what is left, reserved and free of each,
        ``short``, ``molds``.
    """
    with book.reading():
        short, reserved = shortages(book)
        lots = [lot for lot in lots_of(book) if lot.kind != "mold"]
        molds = [_mold(book, lot) for lot in lots_of(book, "mold")]
    left: dict[Thing, float] = {}
    for lot in lots:
        left[thing_of(lot)] = left.get(thing_of(lot), 0.0) + (0.0 if _gone_off(lot) else lot.left)
    return {
        "lots": [told_lot(lot) for lot in lots],
        "things": [_thing(each, left, reserved) for each in sorted({*left, *reserved})],
        "short": [
            {**each.thing._asdict(), "unit": LOT_KINDS[each.thing.kind], "missing": each.missing}
            | {"at": written(each.at), "job": each.job}
            for each in short
        ],
        "molds": molds,
    }


def _gone_off(lot: Lot) -> bool:
    return lot.expires is not None and lot.expires < now()


def _thing(thing: Thing, left: dict[Thing, float], reserved: dict[Thing, float]) -> dict[str, Any]:
    there, kept = left.get(thing, 0.0), reserved.get(thing, 0.0)
    return {
        **thing._asdict(),
        "unit": LOT_KINDS[thing.kind],
        "left": there,
        "reserved": kept,
        "free": there - kept,
    }


def told_lot(lot: Lot) -> dict[str, Any]:
    """Tell a lot.

    Parameters
    ----------
    lot : Lot
        As the book has it.

    Returns
    -------
    dict
        As JSON.
    """
    return {
        "lot": lot.id,
        "kind": lot.kind,
        "material": lot.material,
        "name": lot.name,
        "colour": lot.colour,
        "grade": lot.grade,
        "unit": lot.unit,
        "left": lot.left,
        "bought": written_maybe(lot.bought),
        "opened": written_maybe(lot.opened),
        "expires": written_maybe(lot.expires),
        "gone_off": _gone_off(lot),
        "note": lot.note,
    }


def _mold(book: Book, lot: Lot) -> dict[str, Any]:
    return {
        "lot": lot.id,
        "job": lot.material,
        "name": lot.name,
        "made": written_maybe(lot.bought),
        "casts": casts_of_mold(book, lot),
        "condition": lot.note,
    }


def history_of_lot(book: Book, lot_id: int) -> list[dict[str, Any]]:
    """Say why a lot became more or less.

    Parameters
    ----------
    book : Book
        Open.
    lot_id : int
        The lot.

    Returns
    -------
    list of dict
        In the order of time, each with what was left after it.
    """
    left, told = 0.0, []
    for move in moves_of(book, lot_id):
        left += move.change
        told.append(
            {
                "at": written(move.at),
                "change": move.change,
                "why": move.why,
                "left": left,
                "plan": move.plan_id,
                "pour": move.pour_id,
            }
        )
    return told
