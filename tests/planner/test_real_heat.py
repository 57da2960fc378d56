"""The planner on simulated heat: a small neat block against brute force on the same coarse grid."""

from itertools import combinations

import pytest

from pourwright.planner.bench import CoarseBench
from pourwright.planner.model import Trial, Wish
from pourwright.planner.search import plan_pours
from pourwright.pour.layout import lay_out
from tests.pour.blocks import HOUR, block_site

TOP = 0.075
LEVELS = (0.025, 0.050, TOP)
DAY = 24 * HOUR


def office(first: float, last: float):
    """Every hour from 8 to 13 o'clock; time 0 is 8 o'clock."""
    hour = -(-first // HOUR)
    while hour * HOUR <= min(last, first + 14 * DAY):
        if hour % 24 <= 5:
            yield hour * HOUR
        hour += 1


@pytest.fixture(scope="module")
def bench():
    layout = lay_out(block_site(TOP, 0.16, degrees=21.0), 0.025, LEVELS)
    return CoarseBench(layout, 338.15, snap=lambda ready: ready)


def brute(bench: CoarseBench, wish: Wish, most: int) -> list[Trial]:
    """All plans over levels of 25 mm and starts of 1 h; the first pour within one day."""
    return [
        plan
        for count in range(1, most + 1)
        for inner in combinations(wish.levels[:-1], count - 1)
        for start in wish.starts(0.0, 5 * HOUR)
        for plan in _continued(
            bench, wish, (*inner, wish.top), bench.pour(None, (*inner, wish.top)[0], start)
        )
    ]


def _continued(bench, wish, levels, trial):
    if trial.excess > 0.0:
        return
    done = len(trial.levels)
    if done == len(levels):
        yield trial
        return
    for start in wish.starts(trial.bonds_from, trial.bonds_until):
        yield from _continued(bench, wish, levels, bench.pour(trial, levels[done], start))


def test_brute_force_finds_no_better_plan(bench):
    wish = Wish(LEVELS, 0.0, office)
    chosen = plan_pours(bench, wish).trial
    plans = brute(bench, wish, 2)
    assert plans, "the case must have a plan of at most two pours"
    count, ready = min((len(plan.levels), plan.ready) for plan in plans)
    assert count == 2, "the case must need more than one pour"
    assert len(chosen.levels) == count
    assert chosen.ready <= ready + 60.0
