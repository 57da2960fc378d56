"""The mixture that leaves least room: against every mixture, and with what lies ready."""

import itertools

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.fill.best_blend import best_blend
from pourwright.foundation.errors import UserError
from pourwright.materials.blends import blend_name, with_blends

GRADES = ["coarse", "medium", "fine"]


def voids_of(glass, blend):
    if len(blend) == 1:
        return glass.grade(blend[0][0]).void_fraction.value
    return with_blends(glass, [blend]).grade(blend_name(blend)).void_fraction.value


def test_no_mixture_in_tenths_lies_closer(glass):
    """Every mixture of three grades in steps of a tenth, tried."""
    best = voids_of(glass, best_blend(glass, GRADES))
    tried = []
    for shares in itertools.product(range(11), repeat=3):
        if sum(shares) == 10:
            blend = tuple((name, n / 10) for name, n in zip(GRADES, shares, strict=True) if n)
            tried.append(voids_of(glass, blend))
    # rounding to a twentieth may cost half a point
    assert best <= min(tried) + 0.005


@settings(max_examples=40, deadline=None)
@given(st.tuples(*[st.floats(0.34, 1.0)] * 3), st.floats(0.05, 1.0))
def test_no_more_of_a_grade_than_lies_ready(glass, most, less):
    ready = dict(zip(GRADES, (*most[:2], max(less, 1.001 - most[0] - most[1])), strict=True))
    blend = best_blend(glass, GRADES, ready)
    assert sum(share for _, share in blend) == pytest.approx(1.0)
    assert all(0.0 < share <= ready[name] + 1e-9 for name, share in blend)


def test_too_little_of_all_is_told(glass):
    with pytest.raises(UserError, match="too little"):
        best_blend(glass, GRADES, {"coarse": 0.3, "medium": 0.3, "fine": 0.3})


def test_one_grade_is_its_own_mixture(glass):
    assert best_blend(glass, ["medium"]) == (("medium", 1.0),)
