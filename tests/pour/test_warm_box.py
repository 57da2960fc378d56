"""A warm box around a small casting: limits it keeps, and what it gains."""

import dataclasses
from math import inf

import numpy as np
import pytest

from pourwright.pour import warm_box as warm_box_module
from pourwright.pour.layout import lay_out
from pourwright.pour.rehearse import Planned, rehearse
from pourwright.pour.snapshots import Recorder
from pourwright.pour.soft import stall_in
from pourwright.pour.warm_box import goal_of, warm_box
from tests.pour.blocks import HOUR, ZERO_CELSIUS, block_site

LIMIT = 338.15


def rehearsed(degrees):
    site = block_site(0.03, 0.12, degrees=degrees)
    layout = lay_out(site, 0.0125, [0.03])
    return site, rehearse(layout, (Planned(0.03, 0.0),), recorder=Recorder(layout))


@pytest.fixture(scope="module")
def cool():
    return rehearsed(17.0)


@pytest.fixture(scope="module")
def box(cool):
    found = warm_box(*cool, LIMIT)
    assert found is not None
    return found


def test_it_raises_the_glass_transition_far_above_what_the_shop_leaves(cool, box):
    site, seen = cool
    assert box.glass_to > seen.ready_glass_transition + 10.0
    assert box.glass_to > stall_in(site).glass_transition + 5.0
    assert box.cured_from < box.cured_to <= 1.0
    assert box.cured_to >= goal_of(site)


def test_it_keeps_every_limit(box):
    assert box.peak < LIMIT
    assert box.hold <= 323.15
    assert box.hold <= LIMIT - 10.0
    steepest = np.abs(np.diff(box.air[1]) / np.diff(box.air[0])).max()
    assert steepest <= 5.0 / HOUR * (1 + 1e-9)


def test_its_hours_come_in_order(cool, box):
    assert box.begin >= cool[1].pours[-1].gel_last
    assert box.begin < box.warm_at < box.cool_at < box.open_at
    assert 0.0 < box.lag < box.hold_time
    assert (box.hold_time / HOUR) % 1.0 == pytest.approx(0.0, abs=1e-6)
    assert box.begin <= box.hard_at < box.cool_at
    assert box.open_at >= box.air[0][-1]


def test_the_piece_is_opened_near_the_shop_and_not_hot(box):
    assert box.air[1][-1] == pytest.approx(17.0 + ZERO_CELSIUS)
    assert box.open_at - box.cool_at >= (box.hold - box.shop) / box.ramp


def test_a_low_limit_makes_a_cooler_box(cool):
    site, seen = cool
    lower = warm_box(site, seen, 318.15)
    assert lower is not None
    # 10 K below 45 degC
    assert lower.hold <= 308.15
    assert lower.peak < 318.15


def test_limits_that_leave_no_warmth_leave_no_box(cool):
    site, seen = cool
    assert warm_box(site, seen, 305.0) is None


def test_without_a_record_there_is_nothing_to_start_from(cool):
    site, seen = cool
    assert warm_box(site, dataclasses.replace(seen, recording=None), LIMIT) is None


def test_the_same_inputs_give_the_same_box(cool, box):
    assert warm_box(*cool, LIMIT) == box


def test_the_colder_the_shop_the_more_it_gains(box):
    warmer = warm_box(*rehearsed(22.0), LIMIT)
    assert warmer is not None
    assert warmer.glass_to - warmer.glass_from < box.glass_to - box.glass_from + 1e-9
    assert box.hard_at < inf


def test_half_the_cells_tell_the_same(cool, box, monkeypatch):
    # Tg and peak to a few tenths of a kelvin, hours to one of the grid's
    monkeypatch.setattr(warm_box_module, "CELLS_ACROSS", 26)
    monkeypatch.setattr(warm_box_module, "FINEST", 0.003)
    finer = warm_box(*cool, LIMIT)
    assert finer is not None
    assert finer.hold == box.hold
    assert finer.hold_time == pytest.approx(box.hold_time, abs=HOUR)
    assert finer.glass_to == pytest.approx(box.glass_to, abs=0.5)
    assert finer.peak == pytest.approx(box.peak, abs=0.5)
    assert finer.open_at == pytest.approx(box.open_at, abs=2 * HOUR)


def test_the_heat_of_the_box_reaches_the_piece_late(box):
    times, hottest, coolest = (np.array(row) for row in zip(*box.casting, strict=True))
    air = np.interp(times, *box.air)
    rising = (times > box.begin + HOUR) & (times < box.warm_at)
    assert np.all(coolest[rising] < air[rising])
    assert np.all(hottest >= coolest)
    # and it leaves late: the piece is warmer than the falling air
    falling = (times > box.cool_at + HOUR) & (times < box.air[0][-1])
    assert np.all(hottest[falling] > air[falling])
