"""Lengths out of bars with the fewest bars of stock, proven where the shop's sizes allow it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

from pourwright.foundation.errors import UserError
from pourwright.geometry.nesting.asked import HAIR, Saw, refuse_sizes, refuse_wide_blade

MOST_PATTERNS = 5_000


@dataclass(frozen=True, slots=True)
class Length:
    """A length that is wanted, or a bar that is there [m], so many times."""

    name: str
    length: float
    count: int = 1


@dataclass(frozen=True, slots=True)
class CutBar:
    """One bar of stock, the lengths that come from it in order, and what is left over [m]."""

    bar: Length
    lengths: tuple[Length, ...]
    left: float


@dataclass(frozen=True, slots=True)
class BarPlan:
    """Bars as they are cut, the least number that any plan needs, and whether no plan is better."""

    bars: tuple[CutBar, ...]
    bound: int
    proven: bool


def cut_bars(wanted: Sequence[Length], bars: Sequence[Length], saw: Saw) -> BarPlan:
    """Cut all lengths from the fewest bars, and of these from the least length of stock.

    Every part takes its length and one kerf; a bar gives its length less the trim at both ends, and one
    kerf more, for the last part needs no cut behind it.

    Parameters
    ----------
    wanted, bars : sequence of Length
        What is wanted and what is there [m].
    saw : Saw
        Kerf and trim [m].

    Returns
    -------
    BarPlan

    Raises
    ------
    UserError
        For sizes and counts that cannot be, a length that no bar holds, and too little stock.
    """
    _refuse(wanted, bars, saw)
    if not wanted:
        return BarPlan((), 0, proven=True)
    least = _material_bound(wanted, bars, saw)
    chosen = _first_fit(wanted, bars, saw)
    one_size = len({bar.length for bar in bars}) == 1
    proven = chosen is not None and one_size and len(chosen) == least
    if not proven:
        columns = _columns(wanted, bars, saw)
        if columns and (found := _exact(columns, wanted, bars)) is not None:
            chosen, least, proven = found, len(found), True
    if chosen is None:
        raise UserError("not all lengths found a bar", todo="add bars, or ask for less")
    cut = tuple(_cut(bars[at], pattern, wanted, saw) for at, pattern in chosen)
    return BarPlan(cut, least, proven)


Column = tuple[int, tuple[int, ...]]


def _room(bar: Length, saw: Saw) -> float:
    return bar.length - 2 * saw.trim + saw.kerf


def _refuse(wanted: Sequence[Length], bars: Sequence[Length], saw: Saw) -> None:
    named = [(each.name, each.length) for each in wanted]
    every = [*wanted, *bars]
    refuse_sizes(
        [(each.name, each.length) for each in every], [(each.name, each.count) for each in every], saw
    )
    refuse_wide_blade(named, saw)
    longest = max((_room(bar, saw) - saw.kerf for bar in bars), default=0.0)
    for name, length in named:
        if length > longest + HAIR:
            what = f"{length:g} m is longer than every bar"
            raise UserError(what, where=name, allowed=f"up to {longest:g} m")


def _columns(wanted: Sequence[Length], bars: Sequence[Length], saw: Saw) -> list[Column] | None:
    """List the ways to fill each kind of bar that hold no less than another; None where they are too many."""
    columns: list[Column] = []
    for at, bar in enumerate(bars):
        patterns = _patterns(wanted, _room(bar, saw), saw)
        if patterns is None or len(columns) + len(patterns) > MOST_PATTERNS:
            return None
        columns += [(at, pattern) for pattern in patterns]
    return columns


def _patterns(wanted: Sequence[Length], room: float, saw: Saw) -> list[tuple[int, ...]] | None:
    """List the ways to fill one bar, the shortest length last and as often as it fits."""
    order = sorted(range(len(wanted)), key=lambda at: -wanted[at].length)
    found: list[tuple[int, ...]] = [()]
    for at in order:
        each, last = wanted[at], at == order[-1]
        longer = []
        for pattern in found:
            used = sum(n * (wanted[of].length + saw.kerf) for n, of in zip(pattern, order, strict=False))
            most = min(each.count, max(0, math.floor((room - used + HAIR) / (each.length + saw.kerf))))
            longer += [(*pattern, number) for number in range(most if last else 0, most + 1)]
        found = longer
        if len(found) > MOST_PATTERNS:
            return None
    places = sorted(range(len(wanted)), key=order.__getitem__)
    return [tuple(pattern[place] for place in places) for pattern in found if any(pattern)]


def _exact(columns: list[Column], wanted: Sequence[Length], bars: Sequence[Length]) -> list[Column] | None:
    made = np.array([pattern for _, pattern in columns], dtype=float).T
    from_bar = np.array([[at == row for at, _ in columns] for row in range(len(bars))], dtype=float)
    longest = max(bar.length for bar in bars)
    many = sum(bar.count for bar in bars) * longest
    cost = np.array([1 + bars[at].length / (many + longest) for at, _ in columns])
    demand = np.array([float(each.count) for each in wanted])
    limits = [
        LinearConstraint(made, lb=demand),
        LinearConstraint(from_bar, ub=np.array([float(bar.count) for bar in bars])),
    ]
    answer = milp(
        cost,
        constraints=limits,
        integrality=np.ones(len(columns), dtype=int),
        bounds=Bounds(0),
        options={"time_limit": 5.0, "mip_rel_gap": 0.0},
    )
    if answer.status == 2:
        raise UserError("there are not enough bars for all lengths", todo="add bars, or ask for less")
    if answer.status != 0:
        return None
    chosen = [
        column for column, times in zip(columns, answer.x, strict=True) for _ in range(round(float(times)))
    ]
    return _as_wanted(chosen, wanted)


def _as_wanted(chosen: list[Column], wanted: Sequence[Length]) -> list[Column]:
    """Leave out what is cut more often than it is wanted."""
    rest = [each.count for each in wanted]
    taken: list[Column] = []
    for at, pattern in chosen:
        some = tuple(min(n, left) for n, left in zip(pattern, rest, strict=True))
        rest = [left - n for left, n in zip(rest, some, strict=True)]
        taken.append((at, some))
    return taken


def _first_fit(wanted: Sequence[Length], bars: Sequence[Length], saw: Saw) -> list[Column] | None:
    """Longest length first, into the first bar that holds it; None where one finds no bar."""
    order = sorted(range(len(wanted)), key=lambda at: -wanted[at].length)
    free = sorted(
        (at for at, bar in enumerate(bars) for _ in range(bar.count)), key=lambda at: -bars[at].length
    )
    rooms = [_room(bars[at], saw) for at in free]
    taken = [[0] * len(wanted) for _ in free]
    for at in [each for each in order for _ in range(wanted[each].count)]:
        need = wanted[at].length + saw.kerf
        bar = next((n for n, room in enumerate(rooms) if need <= room + HAIR), None)
        if bar is None:
            return None
        rooms[bar] -= need
        taken[bar][at] += 1
    return [(at, tuple(pattern)) for at, pattern in zip(free, taken, strict=True) if any(pattern)]


def _material_bound(wanted: Sequence[Length], bars: Sequence[Length], saw: Saw) -> int:
    need = sum(each.count * (each.length + saw.kerf) for each in wanted)
    rooms = sorted((_room(bar, saw) for bar in bars for _ in range(bar.count)), reverse=True)
    reach = np.cumsum(rooms)
    return min(len(rooms), int(np.searchsorted(reach, need - HAIR)) + 1)


def _cut(bar: Length, pattern: tuple[int, ...], wanted: Sequence[Length], saw: Saw) -> CutBar:
    lengths = tuple(each for each, n in zip(wanted, pattern, strict=True) for _ in range(n))
    used = sum(each.length + saw.kerf for each in lengths)
    return CutBar(bar, lengths, max(0.0, _room(bar, saw) - used - saw.kerf))
