"""The search against brute force over all levels and starts."""

import dataclasses

import pytest
from hypothesis import example, given, settings, strategies as st

from pourwright.planner.model import NoPlanError, Wish
from pourwright.planner.search import plan_pours
from tests.planner.model_bench import HOUR, PaperBench, all_plans

DAY = 24 * HOUR
LEVELS = (1.0, 2.0, 3.0, 4.0, 5.0)
MOST = 3
# s; a calendar shows no less, and warmer ground may bring seconds that the search does not follow
A_QUARTER = 900.0


def daytime(first: float, last: float):
    """Full hours between 9 and 12 of each day."""
    hour = -(-first // HOUR)
    while hour * HOUR <= min(last, first + 30 * DAY):
        if 9 <= hour % 24 <= 12:
            yield hour * HOUR
        hour += 1


WISH = Wish(LEVELS, 9 * HOUR, daytime)
benches = st.builds(
    PaperBench,
    per_depth=st.floats(0.05, 1.2),
    warmth=st.floats(0.0, 1.0),
    fade=st.floats(5 * HOUR, 40 * HOUR),
    gel=st.floats(10 * HOUR, 60 * HOUR),
    window=st.floats(6 * HOUR, 30 * HOUR),
    cure=st.floats(50 * HOUR, 150 * HOUR),
    limit=st.floats(1.3, 4.0),
    top=st.just(5.0),
)


@settings(max_examples=60, deadline=None)
@given(benches)
def test_no_plan_of_brute_force_is_better(bench):
    found = [(len(plan.levels), plan.ready) for plan in all_plans(bench, WISH, MOST)]
    try:
        trial = plan_pours(bench, WISH, budget=10_000).trial
    except NoPlanError:
        assert not found
        return
    if not found:
        assert len(trial.levels) > MOST
        return
    count, ready = min(found)
    assert len(trial.levels) == count
    assert trial.ready <= ready + A_QUARTER


@settings(max_examples=60, deadline=None)
@given(benches)
def test_every_plan_keeps_its_limits(bench):
    try:
        trial = plan_pours(bench, WISH).trial
    except NoPlanError:
        return
    assert all(peak <= bench.limit for peak in trial.peaks)
    before = None
    for level, start in zip(trial.levels, trial.starts, strict=True):
        if before is not None:
            assert before.bonds_from <= start <= before.bonds_until
        assert start in set(daytime(start, start))
        before = bench.pour(before, level, start)
    assert before == trial


def test_one_pour_where_one_is_enough():
    bench = PaperBench(0.01, 0.0, HOUR, 20 * HOUR, 10 * HOUR, 90 * HOUR, 1.0, 5.0)
    choice = plan_pours(bench, WISH)
    assert choice.trial.levels == (5.0,)
    assert choice.failed == ()


def test_says_what_failed_with_fewer_pours():
    bench = PaperBench(0.2, 0.0, HOUR, 24 * HOUR, 24 * HOUR, 90 * HOUR, 2.0, 5.0)
    choice = plan_pours(bench, WISH)
    assert [failure.count for failure in choice.failed] == list(range(1, len(choice.trial.levels)))
    # one pour of depth 5 peaks at 0.2 * 25 = 5, which is 3 above the limit of 2
    assert choice.failed[0].constraint == "peak"
    assert choice.failed[0].amount == pytest.approx(3.0)


def test_the_thinnest_pour_that_is_too_hot_is_named():
    bench = PaperBench(5.0, 0.0, HOUR, 24 * HOUR, 24 * HOUR, 90 * HOUR, 2.0, 5.0)
    with pytest.raises(NoPlanError) as failed:
        plan_pours(bench, WISH)
    # a pour of depth 1 peaks at 5, 3 above the limit
    assert failed.value.failure.constraint == "peak"
    assert failed.value.failure.amount == pytest.approx(3.0)
    assert failed.value.failure.place == (4.0, 5.0)


def test_window_that_always_falls_into_the_night():
    # gel at 24 h / (1 + peak) after 9 o'clock, bonding for half an hour, nobody there but at 9 o'clock
    bench = PaperBench(0.2, 0.0, HOUR, 15 * HOUR, 0.5 * HOUR, 90 * HOUR, 2.0, 5.0)

    def nine(first, last):
        return (time for time in daytime(first, last) if time % DAY == 9 * HOUR)

    with pytest.raises(NoPlanError) as failed:
        plan_pours(bench, Wish(LEVELS, 9 * HOUR, nine))
    assert failed.value.failure.constraint == "bond"
    assert 0.0 < failed.value.failure.amount < DAY


def test_no_pour_runs_through_a_compulsory_level():
    bench = PaperBench(0.2, 0.0, HOUR, 24 * HOUR, 48 * HOUR, 90 * HOUR, 2.0, 5.0)
    free = plan_pours(bench, WISH).trial
    bound = plan_pours(bench, dataclasses.replace(WISH, compulsory=(1.0,))).trial
    assert 1.0 not in free.levels
    assert 1.0 in bound.levels


# found: the second pour three hours later, on colder ground, is ready 35 s earlier in six days
SECONDS_LATE = PaperBench(0.05, 0.9375, 18000.0, 158672.0, 31714.0, 182043.0, 4.0, 5.0)


@settings(max_examples=30, deadline=None)
@given(benches, st.sampled_from(LEVELS[:-1]))
@example(SECONDS_LATE, 3.0)
def test_no_plan_of_brute_force_is_better_with_a_compulsory_level(bench, barrier):
    wish = dataclasses.replace(WISH, compulsory=(barrier,))
    kept = [plan for plan in all_plans(bench, wish, MOST) if barrier in plan.levels]
    try:
        trial = plan_pours(bench, wish, budget=10_000).trial
    except NoPlanError:
        assert not kept
        return
    assert barrier in trial.levels
    if kept:
        count, ready = min((len(plan.levels), plan.ready) for plan in kept)
        assert len(trial.levels) == count
        assert trial.ready <= ready + A_QUARTER


@settings(max_examples=40, deadline=None)
@given(benches, st.randoms(use_true_random=False))
def test_the_answer_is_the_same_whatever_was_tried_before(bench, random):
    try:
        fresh = plan_pours(bench, WISH, budget=10_000)
    except NoPlanError:
        return
    some = tuple(trial for trial in fresh.seen if random.random() < 0.5)
    before = dataclasses.replace(fresh, seen=some, failed=())
    again = plan_pours(bench, WISH, budget=10_000, before=before)
    assert again.trial == fresh.trial
