"""Dates by integer program: job shops from the literature, then order lists as a shop has them.

Goal: the job shop of 6 x 6 proven (55), the one of 10 x 10 with its gap (its optimum is 930); order lists
proven in seconds. Baselines: HiGHS with pairs switched by a large number, and OR-Tools with its own
defaults, on two cores; both are told the same latest end. Ours asks whether all can be done by a time: one
less than the optimum is refused, the optimum is found.
"""

import importlib.util
from datetime import datetime, time
from time import perf_counter
from zoneinfo import ZoneInfo

import numpy as np

from benchmarks.job_shops import FT06, FT10, Jobs, jobs_of
from benchmarks.rival_schedules import Ended, by_constraints, in_pairs
from pourwright.line.dates.asked import Line, Order
from pourwright.line.dates.best import best_dates
from pourwright.line.dates.dispatch import dispatch
from pourwright.line.dates.halves import halves_of
from pourwright.line.dates.promise import months_of, promises
from pourwright.line.dates.route import Route, Step
from pourwright.line.scheduling.tasks import job_shop
from pourwright.line.scheduling.timed import solve
from pourwright.planner.hours import WorkingHours

LIMIT = 120.0


def main() -> None:
    """Print all tables."""
    shops()
    lists()
    promised()


def shops() -> None:
    """Job shops: the end that was found, the proven bound, the time."""
    print(f"job shops, limit {LIMIT:.0f} s: end, bound, s")
    for name, text, best, latest in (("6 x 6", FT06, 55, 80), ("10 x 10", FT10, 930, 1300)):
        jobs = jobs_of(text)
        print(f"  {name}, large number: {_told(in_pairs(jobs, latest, LIMIT))}")
        if importlib.util.find_spec("ortools"):
            print(f"  {name}, OR-Tools: {_told(by_constraints(jobs, latest, LIMIT))}")
        if name == "6 x 6":
            for slots in (best - 1, best):
                print(f"  {name}, by slots, within {slots}: {_by_slots(jobs, slots)}")


def _told(ended: Ended) -> str:
    gap = (ended.ends - ended.bound) / ended.ends if np.isfinite(ended.ends) else 1.0
    return f"{ended.ends:.0f}, {ended.bound:.0f} (gap {gap:.1%}), {ended.seconds:.1f}"


def _by_slots(jobs: Jobs, slots: int) -> str:
    begun = perf_counter()
    solved = solve(job_shop(jobs, slots), early=0.0, seconds=LIMIT)
    said = "impossible" if solved.impossible else "found" if solved.begun else "open"
    return f"{said}, {perf_counter() - begun:.2f} s"


def a_list(seed: int, pieces: int) -> Line:
    """Return made-up orders of three products on one to three molds each, one or two people."""
    lots = np.random.default_rng(seed)
    zone = ZoneInfo("Europe/Berlin")
    hours = WorkingHours(zone, time(8), time(18), frozenset(range(5)))
    halves = halves_of(hours, datetime(2027, 1, 4, 8, tzinfo=zone), 400)
    routes = [
        Route(
            f"product {number}",
            (
                Step("pour 1", lots.uniform(0.5, 2.5)),
                Step("pour 2", lots.uniform(0.5, 2.0), 20.0, 30.0),
                Step("out", lots.uniform(1.0, 2.5), lots.uniform(40.0, 110.0)),
            ),
            before=lots.uniform(0.0, 4.0),
            dries=24.0,
            finishing=lots.uniform(2.0, 9.0),
            rest=12.0,
            molds=int(lots.integers(1, 4)),
            scrap=0.1,
            demold_spread=0.1,
        )
        for number in range(3)
    ]
    orders, left = [], pieces
    while left:
        count = min(left, int(lots.integers(1, 6)))
        orders.append(Order(f"{left}", int(lots.integers(3)), count, int(lots.integers(20, 20 + 5 * pieces))))
        left -= count
    return Line(halves, int(lots.integers(1, 3)), routes, orders)


def lists() -> None:
    """Order lists: lateness of the first answer and of the program, proven or the gap, time."""
    print("order lists: pieces, late as they come, late by program, proven, gap, s")
    for pieces in (10, 20, 40):
        for seed in range(4):
            line = a_list(seed, pieces)
            plain = _late(line)
            begun = perf_counter()
            found = best_dates(line)
            took = perf_counter() - begun
            print(f"  {pieces}: {plain:.0f}, {found.late:.0f}, {found.proven}, {found.gap:.1%}, {took:.1f}")


def _late(line: Line) -> float:
    dated = dispatch(line)
    return sum(
        float(np.maximum(each.ready + 1 - order.due, 0).sum())
        for each, order in zip(dated, line.orders, strict=True)
    )


def promised() -> None:
    """How often promised days hold in 1,000 other months, against what was stated."""
    off, count = [], 0
    for seed in range(6):
        line = a_list(seed, 12)
        turns = best_dates(line).turns
        stated = promises(line, months_of(line, turns), 0.9)
        for promise, lived in zip(stated, months_of(line, turns, months=1000, seed=1), strict=True):
            if promise.slot is not None:
                off.append(float(np.mean(lived.last <= promise.slot)) - promise.holds)
                count += 1
    worst, mean = np.max(np.abs(off)), np.mean(off)
    print(f"promised days: {count}; they hold in the stated share to {worst:.1%}, mean {mean:+.1%}")


if __name__ == "__main__":
    main()
