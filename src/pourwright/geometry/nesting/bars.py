"""Lengths out of bars with the fewest bars of stock, proven where the shop's sizes allow it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.optimize import Bounds, LinearConstraint, OptimizeResult, milp

from pourwright.foundation.errors import UserError
from pourwright.geometry.nesting.asked import HAIR, Saw, refuse_sizes, refuse_wide_blade

MOST_PATTERNS = 5_000
LONGEST_S = 5.0
"""How long the integer program may look for a better plan [s]."""
Floats = npt.NDArray[np.float64]


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
    if not proven and (columns := _columns(wanted, bars, saw)):
        least = max(least, _whole(_fraction(columns, wanted, bars)))
        if chosen is None or not one_size or len(chosen) > least:
            found, proven = _exact(columns, wanted, bars)
            chosen = found or chosen
            least = len(chosen) if proven and chosen is not None else least
        else:
            proven = True
    if chosen is None:
        raise UserError("no way was found to cut all lengths", todo="add a bar, or ask for less at once")
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


def fractional_bars(wanted: Sequence[Length], bars: Sequence[Length], saw: Saw) -> float:
    """Reckon how many bars are needed where a way to cut a bar may be used in fractions.

    No plan of whole bars needs less.

    Parameters
    ----------
    wanted, bars : sequence of Length
        What is wanted and what is there [m].
    saw : Saw
        Kerf and trim [m].

    Returns
    -------
    float
        0 where there are too many ways to cut a bar to look at all of them.

    Raises
    ------
    UserError
        As `cut_bars`, which says where it stops short of this bound.

    References
    ----------
    P. C. Gilmore, R. E. Gomory, A linear programming approach to the cutting-stock problem, Operations
    Research 9 (1961) 849 (citation from memory).

    Examples
    --------
    >>> wanted = [Length("3", 3.0, 25), Length("5", 5.0, 20), Length("9", 9.0, 15)]
    >>> round(fractional_bars(wanted, [Length("bar", 17.0, 100)], Saw()), 4)
    18.3333
    """
    _refuse(wanted, bars, saw)
    columns = _columns(wanted, bars, saw)
    return _fraction(columns, wanted, bars) if columns else 0.0


def _whole(bars: float) -> int:
    return math.ceil(bars - 1e-6)


def _fraction(columns: list[Column], wanted: Sequence[Length], bars: Sequence[Length]) -> float:
    answer = _program(columns, wanted, bars, np.ones(len(columns)), whole=False)
    return float(answer.fun) if answer.status == 0 else 0.0


def _exact(
    columns: list[Column], wanted: Sequence[Length], bars: Sequence[Length]
) -> tuple[list[Column] | None, bool]:
    """Give the best plan that was found in time, and whether no other is better."""
    longest = max(bar.length for bar in bars)
    many = sum(bar.count for bar in bars) * longest
    cost = np.array([1 + bars[at].length / (many + longest) for at, _ in columns])
    answer = _program(columns, wanted, bars, cost, whole=True)
    if answer.status == 2:
        raise UserError("there are not enough bars for all lengths", todo="add bars, or ask for less")
    if answer.x is None:
        return None, False
    chosen = [
        column for column, times in zip(columns, answer.x, strict=True) for _ in range(round(float(times)))
    ]
    return _as_wanted(chosen, wanted), answer.status == 0


def _program(
    columns: list[Column], wanted: Sequence[Length], bars: Sequence[Length], cost: Floats, *, whole: bool
) -> OptimizeResult:
    made = np.array([pattern for _, pattern in columns], dtype=float).T
    from_bar = np.array([[at == row for at, _ in columns] for row in range(len(bars))], dtype=float)
    demand = np.array([float(each.count) for each in wanted])
    limits = [
        LinearConstraint(made, lb=demand),
        LinearConstraint(from_bar, ub=np.array([float(bar.count) for bar in bars])),
    ]
    return milp(
        cost,
        constraints=limits,
        integrality=np.full(len(columns), int(whole)),
        bounds=Bounds(0),
        options={"time_limit": LONGEST_S, "mip_rel_gap": 0.0},
    )


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
