"""Stress beside corners: limits, order, and another fit."""

import numpy as np
import pytest
from hypothesis import given, strategies as st

from pourwright.physics.notch import shoulder_in_bending


def test_the_two_fits_of_the_shoulder_meet():
    # both are given for h / r = 2; printed to three digits they differ by less than 3 %
    for step in (0.003, 0.006, 0.012):
        below, above = (shoulder_in_bending(step / ratio, 0.012, step) for ratio in (1.999, 2.001))
        assert above == pytest.approx(below, rel=0.03)


@given(st.floats(0.0007, 0.011), st.floats(1.05, 3.0))
def test_a_larger_radius_is_never_worse(radius, times):
    first, second = (shoulder_in_bending(r, 0.012, 0.012) for r in (radius, radius * times))
    assert second <= first * 1.01


def test_sharper_than_the_fit_reaches_is_told_as_its_end():
    assert shoulder_in_bending(1e-6, 0.012, 0.012) == shoulder_in_bending(0.0006, 0.012, 0.012)


def test_against_the_power_law_of_another_textbook():
    # Norton, Machine Design, appendix (from memory): D / d = 3, K = 0.9072 (r / d)^(-1/3)
    for ratio in np.linspace(0.06, 0.25, 8):
        ours = shoulder_in_bending(0.012 * ratio, 0.012, 0.012)
        assert ours == pytest.approx(0.9072 * ratio ** (-1 / 3), rel=0.06)


@given(st.floats(0.5, 20.0))
def test_only_proportions_count(scale):
    one = shoulder_in_bending(0.002, 0.012, 0.009)
    assert shoulder_in_bending(0.002 * scale, 0.012 * scale, 0.009 * scale) == pytest.approx(one)
