"""What moves the cost: one hour, one kilogram, five more castings in a hundred that fail, and the like."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal

from pourwright.app.pricing.look import CostLook, Entry
from pourwright.app.pricing.overhead import overhead_price
from pourwright.app.pricing.sums import Sums
from pourwright.app.pricing.terms import Deal, deal_of
from pourwright.costing.lines import Cost, Line
from pourwright.costing.margins import price_for
from pourwright.foundation.notation import UnitSystem
from pourwright.foundation.quantities import UNITS, Dimension
from pourwright.jobs.cost_price import Move

MORE_SCRAP = Decimal("0.05")
DEARER = Decimal("1.1")
CAST = {"resin": "resin", "mineral": "powder"}
"""What a piece is cast of, by the key of its line."""


@dataclass(frozen=True)
class _Change:
    key: str
    words: str
    cost: Cost


def moves_of(sums: Sums) -> list[Move]:
    """Each change alone, the dearest first."""
    sell = sums.look.quotes.listed.sell
    deal = None if sell is None else deal_of(sums, sell)
    moves = [_move(change, sums, deal) for change in _changes(sums)]
    return sorted((move for move in moves if move.cost), key=lambda move: -abs(move.cost))


def _changes(sums: Sums) -> Iterator[_Change]:
    look, run = sums.look, sums.running.run
    yield from _hour(sums)
    yield from _more_cast(sums)
    if run.scrap + MORE_SCRAP < 1:
        more = replace(run, scrap=run.scrap + MORE_SCRAP)
        yield _Change("scrap", "5 more castings in 100 fail", sums.again(_all, more))
    half = replace(run, casts=run.casts / 2)
    yield _Change("life", "the mold gives half as many castings", sums.again(_all, half))
    for thing, words in (CAST | {"rubber": "rubber"}).items():
        yield from _dearer(sums, thing, f"{words} 10 % dearer")
    hour = look.quotes.of("hour", "h")
    if hour is not None:
        dear = [_times(entry, DEARER) if entry.kind == "work" else entry.line for entry in sums.entries]
        yield _Change("hours", "an hour of work 10 % dearer", sums.again(_none, None, *dear))


def _all(entry: Entry) -> bool:
    return bool(entry.key)


def _none(entry: Entry) -> bool:
    return not entry.key


def _times(entry: Entry, factor: Decimal) -> Line:
    line = entry.line
    return replace(line, price=None if line.price is None else line.price * factor)


def _hour(sums: Sums) -> Iterator[_Change]:
    hour, overhead = sums.look.quotes.of("hour", "h"), overhead_price(sums.look)
    if hour is None:
        return
    money = hour.money + (overhead.money if overhead is not None and _charged(sums.look) else 0)
    line = Line("one-hour", "casting", Decimal(1), money)
    yield _Change("hour", "one hour more in each casting", sums.again(_all, None, line))


def _charged(look: CostLook) -> bool:
    return "overhead" not in look.quotes.listed.without


def _more_cast(sums: Sums) -> Iterator[_Change]:
    entry = next(one for one in sums.entries if one.key in CAST)
    unit = "lb" if sums.look.system is UnitSystem.US else "kg"
    if entry.price is not None:
        size = Decimal(repr(float(UNITS[Dimension.MASS][unit].factor)))
        line = Line("one-kg", "casting", size, entry.price.money)
        yield _Change(
            "cast-mass", f"one {unit} more {CAST[entry.key]} in each casting", sums.again(_all, None, line)
        )


def _dearer(sums: Sums, key: str, words: str) -> Iterator[_Change]:
    if any(entry.key == key and entry.price is not None for entry in sums.entries):
        lines = [_times(entry, DEARER) if entry.key == key else entry.line for entry in sums.entries]
        yield _Change(f"{key}-price", words, sums.again(_none, None, *lines))


def _move(change: _Change, sums: Sums, deal: Deal | None) -> Move:
    price = None
    if deal is not None:
        before, after = (
            deal.shown(price_for(cost, deal.margin, deal.terms)) for cost in (deal.cost, change.cost.full)
        )
        price = after - before
    return Move(key=change.key, words=change.words, cost=change.cost.full - sums.cost.full, price=price)
