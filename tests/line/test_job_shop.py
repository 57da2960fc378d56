"""The scheduling program against the job shop of Fisher and Thompson (1963), 6 jobs on 6 machines.

Data and optimum (55) from memory, as ft06 in every later collection.
"""

from collections import defaultdict
from itertools import pairwise, permutations

import numpy as np
import pytest

from pourwright.line.scheduling.tasks import Activity, Link, Place, Problem, Use, job_shop
from pourwright.line.scheduling.timed import Solved, solve

FT06 = """
2 1 0 3 1 6 3 7 5 3 4 6
1 8 2 5 4 10 5 10 0 10 3 4
2 5 3 4 5 8 0 9 1 1 4 7
1 5 0 5 2 5 3 3 4 8 5 9
2 9 1 3 4 5 5 4 0 3 3 1
1 3 3 3 5 9 0 10 4 4 2 1
"""


def jobs_of(text: str) -> list[list[tuple[int, int]]]:
    rows = [[int(each) for each in line.split()] for line in text.strip().splitlines()]
    return [list(zip(row[::2], row[1::2], strict=True)) for row in rows]


def refuse_overlaps(jobs: list[list[tuple[int, int]]], solved: Solved) -> int:
    """Check a schedule by its own dates; say when the last operation ends."""
    operations = [(job, machine, time) for job, row in enumerate(jobs) for machine, time in row]
    assert sorted(each.activity for each in solved.begun) == list(range(len(operations)))
    on_machine, of_job = defaultdict(list), defaultdict(list)
    for each in sorted(solved.begun, key=lambda one: one.activity):
        job, machine, time = operations[each.activity]
        on_machine[machine].append((each.slot, each.slot + time))
        of_job[job].append((each.slot, each.slot + time))
    for spans in [*(sorted(each) for each in on_machine.values()), *of_job.values()]:
        assert all(first[1] <= second[0] for first, second in pairwise(spans))
    return max(span[1] for spans in of_job.values() for span in spans)


def test_ft06_ends_at_55_and_no_sooner() -> None:
    jobs = jobs_of(FT06)
    assert solve(job_shop(jobs, 54), early=0.0).impossible
    assert refuse_overlaps(jobs, solve(job_shop(jobs, 55), early=0.0)) == 55


def best_by_hand(jobs: list[list[tuple[int, int]]]) -> int:
    """Try every order of operations, each as early as it can be: some order gives the best schedule."""
    tokens = [job for job, row in enumerate(jobs) for _ in row]
    return min(_ends(jobs, order) for order in set(permutations(tokens)))


def _ends(jobs: list[list[tuple[int, int]]], order: tuple[int, ...]) -> int:
    free, ready, at = defaultdict(int), [0] * len(jobs), [0] * len(jobs)
    for job in order:
        machine, time = jobs[job][at[job]]
        ready[job] = free[machine] = max(free[machine], ready[job]) + time
        at[job] += 1
    return max(ready)


@pytest.mark.parametrize("seed", range(4))
def test_small_job_shops_end_as_early_as_any_order_allows(seed: int) -> None:
    lots = np.random.default_rng(seed)
    jobs = [[(int(m), int(lots.integers(1, 6))) for m in lots.permutation(3)[:2]] for _ in range(3)]
    best = best_by_hand(jobs)
    assert solve(job_shop(jobs, best - 1), early=0.0).impossible
    assert refuse_overlaps(jobs, solve(job_shop(jobs, best), early=0.0)) <= best


def test_late_units_are_counted_for_every_slot() -> None:
    """Three units on one resource take slots 0, 1, 2. Two are due when slot 1 begins: one is a slot late."""
    places = {slot: Place((Use(0, slot, slot + 1),), slot + 1) for slot in range(3)}
    solved = solve(Problem(np.ones((1, 3)), [Activity("a", 3, places, due=((1, 2.0),))]), early=0.0)
    assert solved.cost == pytest.approx(1.0)
    assert solved.proven


def test_a_share_begun_never_passes_the_share_that_is_done() -> None:
    """Two units of the first, one a slot; half of the other's hours may be worked after each."""
    one = {slot: Place((Use(0, slot, slot + 1),), slot + 1) for slot in range(4)}
    other = {slot: Place((Use(1, slot, slot + 1, 3.0),), slot + 1) for slot in range(4)}
    activities = [Activity("cast", 2, one), Activity("finish", 2, other, whole=False)]
    solved = solve(Problem(np.array([[1.0] * 4, [3.0] * 4]), activities, [Link(0, 1)]))
    begun = [(each.slot, each.count) for each in solved.begun if each.activity == 1]
    assert begun == [(1, pytest.approx(1.0)), (2, pytest.approx(1.0))]


def test_what_has_no_place_is_impossible() -> None:
    assert solve(Problem(np.ones((1, 2)), [Activity("a", 1, {})])).impossible
