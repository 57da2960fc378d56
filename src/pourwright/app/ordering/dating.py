"""Dates of orders and pieces, promised with a share of months in which they hold."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, datetime

from pourwright.app.document.moments import iso
from pourwright.app.ordering.look import OrderLook
from pourwright.foundation.notation import format_day, format_share
from pourwright.jobs.orders_sheet import Dates, OrderDates, PieceDates, Remedy
from pourwright.line.dates import promise
from pourwright.line.dates.promise import MONTHS, months_of, promises, remedies

NOT_SAFE, TOO_LATE = "Not safe", "Too late"
"""Of a wanted day: that holds if all goes well, and that does not even then."""


def orders_part(look: OrderLook) -> Iterator[OrderDates]:
    """Tell every order: ready as thought, promised, and what would do where it is late."""
    line, dated = look.line, look.dates.dated
    lived = months_of(line, look.dates.turns, seed=look.orders.seed)
    found = promises(line, lived, look.kept)
    would = remedies(line, [at for at, each in enumerate(found) if each.in_time < look.kept], look.kept)
    for at, promised in enumerate(found):
        row = look.orders.order[at]
        late = at in would
        ready = line.halves.day(int(dated[at].last[0]))
        ways = [_remedy(look, each) for each in would.get(at, ())]
        yield OrderDates(
            name=row.name,
            product=row.product,
            count=row.count,
            by=row.by.isoformat(),
            ready=ready.isoformat(),
            promised=_day(look, promised.slot),
            holds=promised.holds,
            in_time=promised.in_time,
            late=late,
            remedies=ways,
            words=_words(look, promised, NOT_SAFE if ready <= row.by else TOO_LATE, ways)
            if late
            else _in_time(look, promised),
        )


def _day(look: OrderLook, slot: int | None) -> str | None:
    return None if slot is None else look.line.halves.day(slot).isoformat()


def shown(day: str) -> str:
    """A day as it is read, with its year.

    Examples
    --------
    >>> shown("2027-02-26")
    'Fri 26 Feb 2027'
    """
    moment = datetime.combine(date.fromisoformat(day), datetime.min.time())
    return f"{format_day(moment)} {moment.year}"


def _promised(look: OrderLook, promised: promise.Promise) -> str:
    day = _day(look, promised.slot)
    if day is None:
        return "No date in sight can be promised."
    return f"{shown(day)} can be promised: it holds in {format_share(promised.holds)} of the months."


def _in_time(look: OrderLook, promised: promise.Promise) -> str:
    return f"In time. {_promised(look, promised)}"


def _words(look: OrderLook, promised: promise.Promise, begin: str, ways: Sequence[Remedy]) -> str:
    """Say what is wrong with the wanted day, and what would do."""
    does = [way.words for way in ways if way.does]
    told = f" Or with {does[0]}." if does else " Neither a mold nor a person more would do."
    only = f"the wanted day holds in {format_share(promised.in_time)} of the months only"
    return f"{begin}: {only}. {_promised(look, promised)}{told}"


def _remedy(look: OrderLook, found: promise.Remedy) -> Remedy:
    parts = [
        f"{number} {what} more"
        for number, what in ((found.molds, "mold"), (found.people, "person"))
        if number
    ]
    day = _day(look, found.slot)
    words = " and ".join(parts)
    by = "no date in sight" if day is None else shown(day)
    return Remedy(
        molds=found.molds,
        people=found.people,
        promised=day,
        in_time=found.in_time,
        does=found.in_time >= look.kept,
        words=f"{words}: {by}",
    )


def dates_part(look: OrderLook) -> Dates:
    """Tell every piece, and how good the dates are."""
    found = look.dates
    return Dates(
        start=iso(look.start),
        people=look.orders.shop.people,
        kept=look.kept,
        months=MONTHS,
        pieces=sorted(_pieces(look), key=lambda piece: (piece.poured, piece.product, piece.order)),
        late_half_days=found.late,
        proven=found.proven,
        gap=found.gap,
        words=[_how_good(look)],
    )


def _pieces(look: OrderLook) -> Iterator[PieceDates]:
    halves = look.line.halves
    for order, dated in zip(look.orders.order, look.dates.dated, strict=True):
        rows = zip(dated.begun[0], dated.out[0], dated.ready[0], strict=True)
        for number, (begun, out, ready) in enumerate(rows, 1):
            yield PieceDates(
                order=order.name,
                product=order.product,
                number=number,
                poured=iso(halves.halves[int(begun)].start),
                out=iso(halves.halves[int(out)].start),
                ready=halves.day(int(ready)).isoformat(),
            )


def _how_good(look: OrderLook) -> str:
    if look.dates.proven:
        return "No dates are better altogether."
    if look.dates.gap >= 1:
        return "These dates are a first answer; others may be better."
    return f"Other dates may be better altogether, by {format_share(look.dates.gap, digits=1)} at most."
