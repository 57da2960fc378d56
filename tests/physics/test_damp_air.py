"""Air that keeps its water while it cools, against a general library of moist air (psychrolib)."""

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.physics.humidity import dampest_air, dew_point, humidity_elsewhere, saturation_pressure
from tests.physics.moist_air import psychrolib

ZERO, SEA_LEVEL = 273.15, 101325.0
SHOP = st.floats(278.15, 308.15)
SHARES = st.floats(0.05, 1.0)
QUICK = settings(max_examples=60, deadline=None, derandomize=True)


@pytest.mark.parametrize("humidity", [0.3, 0.5, 0.65, 0.8])
@pytest.mark.parametrize(("day", "night"), [(23.0, 15.0), (20.0, 18.0), (28.0, 12.0), (18.0, 24.0)])
def test_humidity_after_a_change_of_temperature(day, night, humidity):
    # the library goes by the mass of water in a kilogram of dry air; two fits of vapour pressure: 0.5 %
    water = psychrolib.GetHumRatioFromRelHum(day, humidity, SEA_LEVEL)
    vapour = psychrolib.GetVapPresFromHumRatio(water, SEA_LEVEL)
    theirs = vapour / psychrolib.GetSatVapPres(night)
    ours = humidity_elsewhere(night + ZERO, held_at=day + ZERO, relative_humidity=humidity)
    assert ours == pytest.approx(theirs, rel=5e-3)


@QUICK
@given(SHOP, SHOP, SHARES)
def test_the_dew_point_stays_while_air_cools(held_at, there, share):
    humidity = humidity_elsewhere(there, held_at=held_at, relative_humidity=share)
    if humidity <= 1.0:
        assert dew_point(there, humidity) == pytest.approx(dew_point(held_at, share), abs=1e-9)
    else:
        assert there < dew_point(held_at, share)


@QUICK
@given(SHOP, SHARES)
def test_nothing_changes_where_it_was_measured(temperature, share):
    assert humidity_elsewhere(temperature, held_at=temperature, relative_humidity=share) == pytest.approx(
        share
    )


@QUICK
@given(SHOP, SHOP, st.floats(0.0, 8.0))
def test_the_dampest_air_keeps_both_rules_and_no_drier_air_breaks_one(surface, air, margin):
    most = dampest_air(surface, air, margin, 0.85)
    share = most / saturation_pressure(air)
    assert share <= 0.85 * (1 + 1e-12)
    dew = dew_point(air, min(share, 1.0))
    assert dew <= surface - margin + 1e-6
    # one of the two is met exactly
    assert share == pytest.approx(0.85) or dew == pytest.approx(surface - margin, abs=1e-6)


def test_arrays_go_in_and_come_out():
    air = np.linspace(283.15, 298.15, 4)
    shares = humidity_elsewhere(air, held_at=298.15, relative_humidity=0.6)
    assert np.all(np.diff(shares) < 0.0)
    assert shares[-1] == pytest.approx(0.6)
