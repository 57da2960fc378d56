"""Batches of resin: limits, rounding, parts by volume, the clock."""

import pytest
from hypothesis import given, strategies as st

from pourwright.fill.mixing import (
    MIXING,
    BatchLimits,
    batch_limits,
    clock,
    coarsest_step,
    ratio_matters,
    volume_ratio,
)
from pourwright.materials import load_materials
from pourwright.materials.batches import Tools, split_batches


@pytest.fixture
def resin():
    return load_materials().resin["epoxy-slow-deep"]


def test_the_smallest_limit_counts():
    assert BatchLimits(pail=8.0, scale=14.5, heat=5.0).which == "heat"
    assert BatchLimits(pail=3.0, scale=2.0, heat=5.0).which == "scale"
    assert BatchLimits(pail=1.0, scale=2.0, heat=5.0).most == 1.0


def test_a_pail_is_filled_to_three_quarters_and_weighs_something_itself(resin):
    # common practice: three quarters; half a kilogram of pail on the scale
    limits = batch_limits(resin, Tools(pail=0.010, scale_capacity=5.0), 99.0)
    assert limits.pail == pytest.approx(0.0075 * resin.density.value)
    assert limits.scale == pytest.approx(4.5)
    assert limits.which == "scale"


def test_parts_by_volume_through_the_densities(resin):
    # closed form: (B / rho_B) / (A / rho_A)
    a, b = resin.parts_a.value, resin.parts_b.value
    expected = 100 * (b / resin.density_b.value) / (a / resin.density_a.value)
    assert volume_ratio(resin) == pytest.approx(expected)
    assert volume_ratio(resin) > 100 * b / a  # a hardener lighter than its resin takes more room


@given(
    mass=st.floats(0.05, 20.0),
    b=st.floats(10.0, 100.0),
    batches=st.integers(1, 4),
)
def test_a_scale_fine_enough_never_rounds_off_by_more_than_it_bears(mass, b, batches):
    parts = (100.0, b)
    step = coarsest_step(mass, parts)
    for batch in split_batches(mass * batches, parts, mass * 1.000001, step):
        assert abs(batch.ratio_error) <= MIXING["ratio_bears"].value * (1 + 1e-6)
        assert not ratio_matters(batch.ratio_error * (1 - 1e-6))


def test_one_person_mixes_one_batch_after_the_other():
    # common practice: 5 minutes of stirring, and a minute for every kilogram
    assert clock((6.0, 3.0)) == pytest.approx((11 * 60, 19 * 60))
