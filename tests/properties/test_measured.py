"""Curves of a logger: thinned for the eye, laid on the planned one."""

import numpy as np
from hypothesis import given, settings, strategies as st

from pourwright.app.measuring.compared import FARTHEST, compare
from pourwright.app.measuring.places import read_place
from pourwright.app.measuring.predicted import Predicted
from pourwright.app.measuring.shown import thinned

CURVES = st.lists(st.floats(-20.0, 200.0), min_size=1, max_size=400)


@settings(max_examples=100, deadline=None)
@given(CURVES, st.integers(4, 60))
def test_thinning_keeps_both_ends_and_both_extremes(values: list[float], most: int) -> None:
    hours, degrees = np.arange(len(values)) * 0.1, np.array(values)
    times, kept = thinned(hours, degrees, most)
    assert times.size <= max(most, 2)
    assert (np.diff(times) > 0).all()
    assert {hours[0], hours[-1]} <= set(times)
    assert (kept.max(), kept.min()) == (degrees.max(), degrees.min())
    assert set(zip(times, kept, strict=True)) <= set(zip(hours, degrees, strict=True))


@settings(max_examples=60, deadline=None)
@given(
    after=st.floats(4.0, 14.0),
    rise=st.floats(10.0, 60.0),
    late=st.floats(-2.0, 2.0),
    off=st.floats(-5.0, 5.0),
)
def test_a_curve_that_is_late_and_off_is_found_to_be_both(
    after: float, rise: float, late: float, off: float
) -> None:
    """t^2 e^-2t peaks once; moved and lifted, its shift and the kelvins that are left come back."""

    def curve(hours: np.ndarray) -> np.ndarray:
        share = np.maximum(hours, 0.0) / after
        return 22.0 + rise * share**2 * np.exp(2.0 * (1.0 - share))

    hours = np.linspace(0.0, 3.0 * after, 600)
    planned = Predicted(read_place("hottest"), hours, curve(hours))
    found = compare(hours, curve(hours - late) + off, planned, None, np.inf)
    assert abs(found.warmer - off) < 0.05 * rise / 10.0
    assert abs(found.later - late) < 0.1
    assert found.shift_h is not None
    assert found.rms_shifted_K is not None
    assert abs(found.shift_h) <= FARTHEST
    # shifts are tried by the tenth of an hour
    assert abs(found.shift_h - late) < 0.11
    steepest = rise / after * 2.1
    assert abs(found.rms_shifted_K - abs(off)) < 0.1 * steepest
