"""Pours that are left, on pours on paper: no worse than brute force from what stands already."""

from dataclasses import replace
from itertools import combinations

import pytest

from pourwright.planner.going_on import continued
from pourwright.planner.model import NoPlanError, Wish, rank
from tests.planner.model_bench import HOUR, PaperBench
from tests.planner.test_sanding import all_day, mornings

BENCH = PaperBench(
    per_depth=0.3, warmth=0.5, fade=20 * HOUR, gel=9 * HOUR, window=9 * HOUR, cure=60 * HOUR, limit=1.3,
    top=4.0,
)  # fmt: skip
WISH = Wish((1.0, 2.0, 3.0, 4.0), 9 * HOUR, all_day)


def stands(level: float, start: float = 9 * HOUR):
    """One pour that ran out to this level."""
    return BENCH.pour(None, level, start)


def from_what_stands(before, levels):
    """Every way on through these levels, over all starts."""
    if not levels:
        yield before
        return
    for start in all_day(before.bonds_from, before.bonds_until):
        trial = BENCH.pour(before, levels[0], start)
        if trial.excess <= 0.0:
            yield from from_what_stands(trial, levels[1:])


@pytest.mark.parametrize("level", [0.6, 1.35])
def test_brute_force_finds_no_better_way_on(level):
    found = continued(BENCH, WISH, stands(level), 10 * HOUR, budget=400).trial
    assert (found.levels[0], found.starts[0]) == (level, 9 * HOUR)
    assert found.level == 4.0
    above = [each for each in WISH.levels[:-1] if each > level]
    ways = [
        plan
        for count in range(4)
        for inner in combinations(above, count)
        for plan in from_what_stands(stands(level), (*inner, WISH.top))
    ]
    best = min(ways, key=lambda plan: (len(plan.levels), rank(plan)))
    assert (len(found.levels), rank(found)) == (len(best.levels), rank(best))


def test_nothing_goes_in_before_now_nor_outside_the_bond_window():
    before = stands(1.0)
    now = before.bonds_from + 3.5 * HOUR
    found = continued(BENCH, WISH, before, now).trial
    assert now <= found.starts[1] <= before.bonds_until


def test_a_bond_that_was_missed_is_sanded_and_said():
    before = stands(1.0)
    late = replace(WISH, most_sanded=1, sand_after=2 * HOUR)
    found = continued(BENCH, late, before, before.bonds_until + HOUR).trial
    assert found.tops_sanded[0] == 0
    assert found.starts[1] >= before.bonds_until + 2 * HOUR


def test_nobody_in_the_window_is_sanded_too():
    early = replace(WISH, starts=mornings, sand_after=2 * HOUR, most_sanded=2)
    before = stands(2.0)
    found = continued(BENCH, early, before, 9 * HOUR).trial
    assert found.tops_sanded[:1] == (0,)
    assert found.starts[1] in set(mornings(before.bonds_until, before.bonds_until + 90 * HOUR))


def test_a_full_mold_leaves_nothing_to_plan():
    with pytest.raises(NoPlanError):
        continued(BENCH, WISH, stands(4.0), 10 * HOUR)
