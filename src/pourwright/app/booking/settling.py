"""Let the stock follow the log: what a pour has taken leaves the lots, the first to expire first."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from functools import lru_cache

from pourwright.app.booking.casting import WHOLE, Casting, read_casting
from pourwright.app.booking.mold_making import MADE, WEIGHED, made_of
from pourwright.app.booking.needs import Thing, used_by
from pourwright.jobs import read_plan
from pourwright.jobs.plan import PlanDocument
from pourwright.records import (
    Book,
    Entry,
    Lot,
    Move,
    Plan,
    Pour,
    casts_of,
    document_of,
    free,
    keep_lot,
    keep_move,
    lot_by_id,
    lots_of,
    moves_of,
    reserve,
    was_reserved,
)
from pourwright.records.moments import now

LEAST = 1e-6
"""Less than this is nothing [kg]."""


def settle(book: Book, job: str, variant: str, casting: int) -> None:
    """Let the stock follow the log of one casting; doing it again changes nothing.

    Parameters
    ----------
    book : Book
        Open.
    job, variant : str
        Whose.
    casting : int
        Which piece.
    """
    with book.writing():
        one = read_casting(book, job, variant, casting)
        for plan, pour, entries in one.logged:
            if pour.number == WHOLE:
                _settle_making(book, plan, pour, entries)
            else:
                _settle_pour(book, plan, pour, entries)
        _settle_plans(book, one)


def document(book: Book, plan_id: int) -> PlanDocument:
    """Read a plan that the book keeps.

    Parameters
    ----------
    book : Book
        Open.
    plan_id : int
        The plan.

    Returns
    -------
    PlanDocument
    """
    return _read(document_of(book, plan_id))


@lru_cache(maxsize=64)
def _read(text: str) -> PlanDocument:
    return read_plan(json.loads(text), "the plan in the book")


def _settle_plans(book: Book, casting: Casting) -> None:
    """The latest plan of a piece that is under way reserves; an earlier one does not, nor when it is over."""
    # a mold that was made or tried with water is no piece yet
    plans = {plan.id: plan for plan, pour, _ in casting.logged if pour.number != WHOLE}
    latest = max(plans.values(), key=lambda plan: (plan.made, plan.id), default=None)
    for plan_id in plans:
        if casting.is_over or latest is None or plan_id != latest.id:
            free(book, plan_id, casting.number)
        elif not was_reserved(book, plan_id, casting.number):
            reserve(book, plan_id, casting.number)


def _settle_pour(book: Book, plan: Plan, pour: Pour, entries: Iterable[Entry]) -> None:
    taken = used_by(document(book, plan.id), pour.number, entries)
    at = pour.begun
    if at is None:
        return
    if taken:
        _settle_mold(book, plan, at)
    _balance(book, plan, pour, taken, at)


def _settle_making(book: Book, plan: Plan, pour: Pour, entries: Sequence[Entry]) -> None:
    """What the mold has taken, and the mold itself."""
    about = [entry for entry in entries if entry.kind in (*WEIGHED, MADE)]
    _balance(
        book,
        plan,
        pour,
        made_of(document(book, plan.id), entries),
        about[-1].at if about else now(),
    )
    for entry in about:
        if entry.kind == MADE:
            _settle_new_mold(book, plan, entry.at)


def _settle_new_mold(book: Book, plan: Plan, at: datetime) -> None:
    """A mold that was made, unless it, or a later one, is on stock already."""
    if not any(lot.bought is None or lot.bought >= at for lot in lots_of(book, "mold", plan.job)):
        keep_lot(book, Lot(kind="mold", material=plan.job, name=f"mold of {plan.title}", bought=at))


def _balance(book: Book, plan: Plan, pour: Pour, taken: Mapping[Thing, float], at: datetime) -> None:
    """Take from the lots what is missing of what a pour has taken; give back what is too much."""
    before = moves_of(book, pour_id=pour.id)
    lots = {move.lot_id: lot_by_id(book, move.lot_id) for move in before}
    for thing in dict.fromkeys([*taken, *(thing_of(lot) for lot in lots.values())]):
        booked = [move for move in before if thing_of(lots[move.lot_id]) == thing]
        more = taken.get(thing, 0.0) + sum(move.change for move in booked)
        if more > LEAST:
            _take(book, plan, pour, thing, more, at)
        elif more < -LEAST:
            _give_back(book, plan, pour, booked, -more, at)


def thing_of(lot: Lot) -> Thing:
    """Say what a lot is a lot of.

    Parameters
    ----------
    lot : Lot
        The lot.

    Returns
    -------
    Thing
    """
    # crushed glass is known by colour and grade alone
    material = "" if lot.kind == "glass" else lot.material
    return Thing(lot.kind, material, lot.colour, lot.grade)


def usable(lots: Iterable[Lot], at: datetime) -> list[Lot]:
    """Choose the lots of a thing that it is taken from.

    Parameters
    ----------
    lots : iterable of Lot
        Of this thing, the first to expire first, as the book lists them.
    at : datetime
        When.

    Returns
    -------
    list of Lot
        Those that were there then and hold something; what had gone off by then comes last.
    """
    there = [one for one in lots if one.left > LEAST and (one.bought or at) <= at]
    return sorted(there, key=lambda lot: lot.expires is not None and lot.expires < at)


def _take(book: Book, plan: Plan, pour: Pour, thing: Thing, amount: float, at: datetime) -> None:
    lots = [lot for lot in lots_of(book, thing.kind) if thing_of(lot) == thing]
    for lot in usable(lots, at):
        part = min(amount, lot.left)
        keep_move(
            book, Move(lot_id=lot.id, change=-part, why="used", at=at, plan_id=plan.id, pour_id=pour.id)
        )
        amount -= part
        if amount <= LEAST:
            return


def _give_back(
    book: Book, plan: Plan, pour: Pour, booked: Iterable[Move], amount: float, at: datetime
) -> None:
    sums: dict[int, float] = {}
    for move in booked:
        sums[move.lot_id] = sums.get(move.lot_id, 0.0) - move.change
    for lot_id, took in reversed(sums.items()):
        part = min(amount, took)
        if part > LEAST:
            back = Move(lot_id=lot_id, change=part, why="given back", at=at, plan_id=plan.id, pour_id=pour.id)
            keep_move(book, back)
            amount -= part


def _settle_mold(book: Book, plan: Plan, at: datetime) -> None:
    """A job that is cast has a mold."""
    if not any(lot.material == plan.job for lot in lots_of(book, "mold")):
        keep_lot(book, Lot(kind="mold", material=plan.job, name=f"mold of {plan.title}", bought=at))


def casts_of_mold(book: Book, mold: Lot) -> int:
    """Count the pieces that came from a mold: those of its job, until the job's next mold was made.

    Parameters
    ----------
    book : Book
        Open.
    mold : Lot
        The mold.

    Returns
    -------
    int
    """
    of_job = sorted(lots_of(book, "mold", mold.material), key=lambda lot: (lot.bought or now(), lot.id))
    place = [lot.id for lot in of_job].index(mold.id)
    later = of_job[place + 1].bought if place + 1 < len(of_job) else None
    # the first has all that came before anybody noted a mold
    return casts_of(book, mold.material, mold.bought if place else None, later)
