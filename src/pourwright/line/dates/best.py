"""The best dates: first one order after the other, then an integer program that proves or betters them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.line.dates.asked import Line, Order
from pourwright.line.dates.castings import Castings
from pourwright.line.dates.dispatch import Dated, dispatch
from pourwright.line.scheduling.tasks import Activity, Link, Place, Problem, Use
from pourwright.line.scheduling.timed import Solved, solve

PEOPLE = 0
SECONDS, NODES = 20.0, 500
SPARE = 4
"""Half days that the program may use beyond the end of the first answer."""


@dataclass(frozen=True)
class Dates:
    """Dates as thought: every casting comes out good, work takes as long as planned.

    Parameters
    ----------
    dated : tuple of Dated
        Of each order, for one month.
    turns : tuple of int
        Order of every casting, by the half day it is begun in.
    late : float
        Pieces late, summed over half days.
    proven : bool
        Whether no dates are earlier altogether.
    gap : float
        By how much all dates together might still be earlier, as a share; 0 where proven.
    """

    dated: tuple[Dated, ...]
    turns: tuple[int, ...]
    late: float
    proven: bool
    gap: float


def best_dates(line: Line, *, seconds: float = SECONDS, nodes: int = NODES) -> Dates:
    """Find dates for all orders.

    Parameters
    ----------
    line : Line
        What is asked.
    seconds, nodes : float, int
        Limits of the program; what was found by then stands, with its gap.

    Returns
    -------
    Dates
    """
    first = min((_greedy(line, turns) for turns in _turns(line)), key=lambda each: each[0])
    (late, _), dated, turns = first
    slots = 1 + SPARE + max(int(each.last[0]) for each in dated)
    if slots > len(line.halves):
        return Dates(dated, turns, late, proven=False, gap=1.0)
    problem = _problem(line, slots)
    return _better(line, first, problem, solve(problem, seconds=seconds, nodes=nodes))


def _turns(line: Line) -> Iterator[list[int]]:
    """Orders in turn: the first wanted first, the least slack first, the most work first, piece by piece."""
    by_need = line.by_need

    def work(at: int) -> float:
        return line.routes[line.orders[at].product].work * line.orders[at].count

    orders = [
        by_need,
        sorted(by_need, key=lambda at: line.orders[at].due - work(at)),
        sorted(by_need, key=work),
    ]
    for some in orders:
        yield [at for at in some for _ in range(line.orders[at].count)]
    most = max(order.count for order in line.orders)
    yield [at for number in range(most) for at in by_need if number < line.orders[at].count]


Found = tuple[tuple[float, float], tuple[Dated, ...], tuple[int, ...]]


def _greedy(line: Line, turns: Sequence[int]) -> Found:
    dated = tuple(dispatch(line, turns))
    return _cost(line.orders, dated), dated, tuple(turns)


def _cost(orders: Sequence[Order], dated: Sequence[Dated]) -> tuple[float, float]:
    """Lateness, then the sum of all dates."""
    late = sum(
        float(np.maximum(each.ready + 1 - order.due, 0).sum())
        for order, each in zip(orders, dated, strict=True)
    )
    return late, sum(float(each.ready.sum()) for each in dated)


def _problem(line: Line, slots: int) -> Problem:
    """Prepare, cast and finish the pieces of each product, with due dates of all its orders."""
    capacity = np.ones((1 + len(line.routes), slots))
    capacity[PEOPLE] = line.halves.lengths[:slots] * line.people
    activities: list[Activity] = []
    links: list[Link] = []
    for product, castings in enumerate(line.castings):
        count = sum(order.count for order in line.orders if order.product == product)
        capacity[1 + product] = castings.route.molds
        if not count:
            continue
        chain = list(_chain(castings, product, count, slots))
        chain[-1] = _with_due(chain[-1], _due(line, product, slots))
        links += [Link(len(activities) + at, len(activities) + at + 1) for at in range(len(chain) - 1)]
        activities += chain
    return Problem(capacity, activities, links)


def _chain(castings: Castings, product: int, count: int, slots: int) -> Iterator[Activity]:
    route = castings.route
    if route.before or route.dries:
        yield Activity(f"ready {product}", count, dict(_before(castings, slots)), whole=False)
    yield Activity(f"cast {product}", count, dict(_cast(castings, product, slots)))
    if route.finishing:
        places = {
            slot: Place((Use(PEOPLE, slot, slot + 1, route.finishing),), slot + 1) for slot in range(slots)
        }
        yield Activity(f"finish {product}", count, places, whole=False)


def _before(castings: Castings, slots: int) -> Iterator[tuple[int, Place]]:
    route, halves = castings.route, castings.halves
    for slot in range(slots):
        done = int(np.searchsorted(halves.starts, halves.ends[slot] + route.dries - 1e-9))
        if done < slots:
            yield slot, Place((Use(PEOPLE, slot, slot + 1, route.before),), done)


def _cast(castings: Castings, product: int, slots: int) -> Iterator[tuple[int, Place]]:
    starts = np.flatnonzero(castings.possible[:slots])
    steps, free, _ = castings.begun(starts, np.ones(len(starts)))
    for slot, at, until in zip(starts, steps, free, strict=True):
        if at[-1] < slots:
            people = [
                Use(PEOPLE, int(each), int(each) + 1, float(hours))
                for each, hours in zip(at, castings.hours, strict=True)
            ]
            mold = Use(1 + product, int(slot), int(until))
            yield int(slot), Place((mold, *people), int(at[-1]) + 1)


def _due(line: Line, product: int, slots: int) -> tuple[tuple[int, float], ...]:
    wanted: dict[int, float] = {}
    for order in line.orders:
        if order.product == product and order.due <= slots:
            wanted[order.due] = wanted.get(order.due, 0.0) + order.count
    total, due = 0.0, []
    for slot, count in sorted(wanted.items()):
        total += count
        due.append((slot, total))
    return tuple(due)


def _with_due(activity: Activity, due: tuple[tuple[int, float], ...]) -> Activity:
    return Activity(activity.name, activity.count, activity.places, activity.whole, due)


def _better(line: Line, first: Found, problem: Problem, solved: Solved) -> Dates:
    """Take the program's dates where they are better than the first ones."""
    (late, total), dated, turns = first
    if solved.begun:
        read = _read(line, problem, solved)
        cost = _cost(line.orders, read[0])
        if cost < (late, total):
            (late, total), (dated, turns) = cost, read
    gap = 0.0 if solved.proven else 1.0 if not solved.begun else 1.0 - max(solved.bound, 0.0) / solved.cost
    return Dates(dated, turns, late, solved.proven, gap)


def _read(line: Line, problem: Problem, solved: Solved) -> tuple[tuple[Dated, ...], tuple[int, ...]]:
    """Give the pieces of each product to its orders, the first wanted first."""
    pieces: list[list[tuple[int, int, int]]] = [[] for _ in line.orders]
    for product in range(len(line.routes)):
        made = iter(_pieces(problem, solved, product))
        for at in line.by_need:
            order = line.orders[at]
            if order.product == product:
                pieces[at] = [next(made) for _ in range(order.count)]
    begun = sorted((piece[0], at) for at, each in enumerate(pieces) for piece in each)
    dated = tuple(Dated(*np.array(each, dtype=np.int64).T[:, None, :]) for each in pieces)
    return dated, tuple(at for _, at in begun)


def _pieces(problem: Problem, solved: Solved, product: int) -> list[tuple[int, int, int]]:
    """First pour, taking out and end of finishing of every piece of a product."""
    at = {activity.name: number for number, activity in enumerate(problem.activities)}
    cast = at.get(f"cast {product}")
    if cast is None:
        return []
    places = problem.activities[cast].places
    begun = [each.slot for each in solved.begun if each.activity == cast for _ in range(round(each.count))]
    out = sorted(places[slot].done - 1 for slot in begun)
    finish = at.get(f"finish {product}")
    ready = out if finish is None else list(_ends(solved, finish, len(out)))
    return list(zip(sorted(begun), out, ready, strict=True))


def _ends(solved: Solved, finish: int, count: int) -> Iterator[int]:
    """Half day in which the first, the second, .. piece is finished."""
    total, told = 0.0, 0
    for each in solved.begun:
        if each.activity == finish:
            total += each.count
            while told < count and total >= told + 1 - 1e-6:
                yield each.slot
                told += 1
    yield from [solved.begun[-1].slot] * (count - told)
