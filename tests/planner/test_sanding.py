"""Tops that bond no more, and limits that need no heat run, on pours on paper."""

import dataclasses

import pytest

from pourwright.planner.model import NoPlanError, Wish
from pourwright.planner.search import plan_pours
from tests.planner.model_bench import HOUR, PaperBench

DAY = 24 * HOUR
LEVELS = (1.0, 2.0, 3.0, 4.0)
# gels in the evening, bonds until the next morning: nobody is there in between
BENCH = PaperBench(
    per_depth=0.3, warmth=0.0, fade=HOUR, gel=9 * HOUR, window=9 * HOUR, cure=60 * HOUR, limit=1.3, top=4.0
)


def mornings(first: float, last: float):
    """9 to 12 o'clock on every day; time 0 is midnight."""
    hour = -(-first // HOUR)
    while hour * HOUR <= min(last, first + 30 * DAY):
        if 9 <= hour % 24 <= 12:
            yield hour * HOUR
        hour += 1


WISH = Wish(LEVELS, 9 * HOUR, mornings, sand_after=12 * HOUR)


def test_without_sanding_nobody_is_there_in_time():
    with pytest.raises(NoPlanError) as failed:
        plan_pours(BENCH, WISH)
    assert failed.value.failure.constraint == "bond"


def test_a_sanded_top_is_poured_on_half_a_day_after_it_bonds_no_more():
    choice = plan_pours(BENCH, dataclasses.replace(WISH, most_sanded=3)).trial
    assert choice.levels == (2.0, 4.0)
    assert choice.tops_sanded == (0,)
    first = BENCH.pour(None, 2.0, choice.starts[0])
    assert choice.starts[1] >= first.bonds_until + 12 * HOUR
    assert choice.starts[1] in set(mornings(first.bonds_until, first.bonds_until + 4 * DAY))


def test_no_top_is_sanded_where_somebody_is_there():
    always = dataclasses.replace(WISH, starts=all_day, most_sanded=3)
    assert plan_pours(BENCH, always).trial.tops_sanded == ()


def all_day(first: float, last: float):
    hour = -(-first // HOUR)
    while hour * HOUR <= min(last, first + 30 * DAY):
        yield hour * HOUR
        hour += 1


@dataclasses.dataclass(frozen=True)
class Deepest:
    """No pour deeper than this."""

    most: float
    name: str = "head"

    def excess(self, lower, upper):
        return upper - lower - self.most


def test_a_bound_takes_more_pours_and_is_named_for_fewer():
    bounded = dataclasses.replace(WISH, starts=all_day, bounds=(Deepest(1.5),))
    choice = plan_pours(BENCH, bounded)
    assert choice.trial.levels == LEVELS
    first = choice.failed[0]
    assert (first.count, first.constraint) == (1, "head")
    assert first.amount == pytest.approx(4.0 - 1.5)


def test_a_bound_that_no_pour_keeps_is_named():
    with pytest.raises(NoPlanError) as failed:
        plan_pours(BENCH, dataclasses.replace(WISH, bounds=(Deepest(0.5),)))
    assert failed.value.failure.constraint == "head"
    assert failed.value.failure.amount == pytest.approx(0.5)
