"""Time at one temperature: closed forms, and its own law integrated forward."""

import pytest
from hypothesis import given, settings, strategies as st
from scipy.integrate import solve_ivp

from pourwright.physics.cure import kamal_sourour_unit_orders
from pourwright.physics.cure_law import CureLaw, cure_rate, holding_time

SLOW = CureLaw(25940.0, 58e3, 51100.0, 54e3, 0.7, 1.6, 228.15, 325.15, 0.4, 10.0, 5.0)
QUICK = settings(max_examples=30, deadline=None, derandomize=True)


@pytest.mark.parametrize("time", [600.0, 1800.0, 3600.0])
def test_unit_orders_in_closed_form(time):
    # no activation energy: the same rates at any temperature
    law = CureLaw(1e-4, 0.0, 1.2e-3, 0.0, 1.0, 1.0)
    cured = float(kamal_sourour_unit_orders(time, 1e-4, 1.2e-3))
    assert holding_time(300.0, 0.0, cured, law) == pytest.approx(time, rel=1e-6)


@QUICK
@given(st.floats(295.0, 335.0), st.floats(0.01, 0.8), st.floats(0.01, 0.12))
def test_forward_and_back(temperature, start, more):
    time = holding_time(temperature, start, start + more, SLOW)
    path = solve_ivp(
        lambda _, a: [float(cure_rate(temperature, min(float(a[0]), 1.0), SLOW))],
        (0.0, time), [start], method="LSODA", rtol=1e-10, atol=1e-12,
    )  # fmt: skip
    assert path.y[0][-1] == pytest.approx(start + more, abs=1e-6)


@QUICK
@given(st.floats(290.0, 330.0), st.floats(1.0, 10.0))
def test_warmer_takes_less_time(temperature, warmer):
    assert holding_time(temperature + warmer, 0.5, 0.9, SLOW) < holding_time(temperature, 0.5, 0.9, SLOW)


def test_nothing_to_do_takes_no_time():
    assert holding_time(300.0, 0.9, 0.9, SLOW) == 0.0
