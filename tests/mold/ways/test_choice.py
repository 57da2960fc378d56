"""Work and days, life, money, and the one that is taken."""

import dataclasses

import pytest
from hypothesis import given, strategies as st

from pourwright.materials.batches import Batch
from pourwright.mold.ways.choose import NEAR, recommended
from pourwright.mold.ways.life import life_of
from pourwright.mold.ways.money import Cost, Prices, cost_of, molds_per_cast, weight_of
from pourwright.mold.ways.way import Way
from pourwright.mold.ways.work import Step, days, elapsed

HOUR = 3600.0
WAY = Way(
    way="block", held="hung", volume=0.01, mass=11.0, pours=((Batch(1, 12.0, 6.0, 6.0, 0.0),),),
    panel_area=2.98,
    steps=(Step("box", 3 * HOUR, 2 * HOUR, 4 * HOUR, 6 * HOUR), Step("out", HOUR, HOUR, HOUR)),
    each=(Step("close", HOUR / 2, 0.0, HOUR),), lines=0, line=0.0, lift=0.0, life=(20.0, 40.0, 50.0),
)  # fmt: skip


def test_work_goes_on_the_next_morning_and_waits_through_the_night():
    day = 8 * HOUR
    assert elapsed([Step("long", 10 * HOUR, 0, 0)], day) == 26 * HOUR
    assert elapsed([Step("pour", HOUR, 0, 0, wait=24 * HOUR), Step("open", HOUR, 0, 0)], day) == 26 * HOUR
    assert elapsed([Step("pour", HOUR, 0, 0, wait=10 * HOUR), Step("open", HOUR, 0, 0)], day) == 25 * HOUR
    assert [days(hours * HOUR) for hours in (1, 24, 25)] == [1, 1, 2]


@given(st.lists(st.tuples(st.floats(0, 20), st.floats(0, 50)), min_size=1, max_size=6), st.floats(4, 12))
def test_days_are_never_shorter_than_work_and_waiting(steps, workday):
    made = [Step("", work * HOUR, 0, 0, wait * HOUR) for work, wait in steps]
    whole = sum(step.work + step.wait for step in made)
    assert elapsed(made, workday * HOUR) >= whole - 0.1


def test_rubber_lasts_longest_under_gypsum_and_shorter_where_it_is_stretched():
    assert life_of("gypsum", 0.0, 1.5, skin=False) == (100.0, 150.0, 300.0)
    low, likely, high = life_of("resin", 0.75, 1.5, skin=True)
    # a skin has 0.5 to 1 of the life, half of what it bears takes a third of it
    assert (low, likely, high) == pytest.approx((20 * 0.5 / 1.5, 30 * 0.7 / 1.5, 50 / 1.5))


def test_money_by_hand():
    cost = cost_of(WAY, Prices(rubber=20.0, sheet=40.0, hour=25.0), 0.019, 1150.0)
    assert (cost.rubber, cost.wood, cost.shell, cost.work) == pytest.approx((240.0, 46.0, 0.0, 100.0))
    assert cost.total == pytest.approx(386.0)
    assert cost.each == pytest.approx(386.0 / 40 + 12.5)
    few = cost_of(WAY, Prices(rubber=20.0, sheet=40.0, hour=25.0), 0.019, 1150.0, casts=2)
    assert few.each == pytest.approx(386.0 / 2 + 12.5)


def test_a_missing_price_leaves_no_sum():
    cost = cost_of(WAY, Prices(rubber=20.0, sheet=40.0), 0.019, 1150.0)
    assert cost.rubber == pytest.approx(240.0)
    assert (cost.work, cost.total, cost.each) == (None, None, None)


def test_whole_molds_are_shared_among_the_casts():
    assert molds_per_cast(WAY, None) == 1 / 40
    assert [molds_per_cast(WAY, casts) for casts in (1, 40, 41)] == pytest.approx([1, 1 / 40, 2 / 41])


def test_without_prices_rubber_and_work_count():
    # 12 kg and 4 h at 1.2 kg an hour over 40 casts, and half an hour each time
    assert weight_of(WAY) == pytest.approx((12 + 4.8) / 40 + 0.6)


COSTS = st.lists(st.tuples(st.floats(1, 100), st.booleans(), st.booleans()), min_size=1, max_size=7)


@given(COSTS)
def test_the_one_that_is_taken_can_be_made_and_planned_and_none_is_clearly_cheaper(made):
    ways = [dataclasses.replace(WAY, no=() if able else ("no",), planned=known) for _, able, known in made]
    costs = [Cost(0.0, 0.0, 0.0, 0.0, each, each) for each, _, _ in made]
    taken = recommended(ways, costs)
    able = [each for each, can, known in made if can and known]
    if not able:
        assert taken is None
        return
    assert taken is not None
    assert ways[taken].possible
    assert ways[taken].planned
    assert made[taken][0] <= NEAR * min(able)
    # of those as cheap it is the first
    assert not any(each <= NEAR * min(able) and can and known for each, can, known in made[:taken])
