"""The work of pouring rubber, by hand sums."""

from dataclasses import replace

import pytest
from hypothesis import given, strategies as st

from pourwright.materials import load_materials
from pourwright.materials.batches import split_batches
from pourwright.mold.rubber_time import time_at
from pourwright.mold.rubber_work import (
    left_over_uses,
    most_in_pot,
    pouring_steps,
    rubber_work,
    volume_parts,
)

RUBBER = load_materials().rubber["silicone-platinum-a25"]
TIN = load_materials().rubber["silicone-tin-a25"]


def test_six_batches_alone_and_in_two():
    # 45 kg in 6: each 5 min to stir and 7.5 min to pour
    batches = split_batches(45.0, (1, 1), 8.0, 0.001)
    work = rubber_work(RUBBER, batches, taken=44.0, area=0.4, shop=296.15, method="hung")
    assert work.longest_batch == pytest.approx(12.5 * 60)
    assert (work.alone, work.in_two) == (pytest.approx(75 * 60), pytest.approx(37.5 * 60))
    assert work.late == "alone"  # 45 min: too short for one, enough for two
    assert work.spare == pytest.approx(1.0)
    # 0.4 m2 * 0.75 mm * 1150 kg/m3
    assert work.first_coat == pytest.approx(0.345)
    assert rubber_work(RUBBER, batches, taken=44.0, area=0.4, shop=306.15, method="hung").late == "both"
    screwed = rubber_work(RUBBER, batches, taken=44.0, area=0.4, shop=306.15, method="screwed")
    assert screwed.late == "no"


def test_a_vacuum_pot_takes_a_third_and_six_minutes_a_batch():
    batches = split_batches(4.0, (1, 1), most_in_pot(0.006, 1150.0), 0.001)
    assert [batch.mass for batch in batches] == [2.0, 2.0]
    work = rubber_work(RUBBER, batches, taken=3.9, area=0.1, shop=296.15, method="hung", pot=0.006)
    assert work.pot_batch == pytest.approx(2.3)
    assert work.alone == pytest.approx(2 * (5 + 6 + 2) * 60)


@given(seconds=st.floats(60, 1e5), warmer=st.floats(-20, 20))
def test_ten_kelvin_halve_it(seconds: float, warmer: float) -> None:
    assert time_at(seconds, 296.15 + warmer + 10) == pytest.approx(time_at(seconds, 296.15 + warmer) / 2)


def test_without_densities_nothing_is_said_by_volume():
    assert volume_parts(replace(RUBBER, density_b=None)) is None
    # 10 g of 0.98 beside 100 g of 1.18: 10 * 1.18 / 0.98
    assert volume_parts(TIN) == pytest.approx((100.0, 12.0408), rel=1e-4)


def test_the_order_of_pouring_is_that_of_the_method():
    hung, screwed = list(pouring_steps("hung")), list(pouring_steps("screwed"))
    assert any("Lower the master" in step for step in hung)
    assert not any("Lower the master" in step for step in screwed)
    assert all("First coat".lower() in steps[1].lower() for steps in (hung, screwed))
    assert any("tin-cure" in text for text in left_over_uses("tin"))
