"""What a place bears: by hand, and which way it goes when a number or the heat changes."""

from dataclasses import replace

import pytest
from hypothesis import given, strategies as st

from pourwright.foundation.sources import Kind as Known, Sourced
from pourwright.materials import load_materials
from pourwright.pour.bearing import LOADS, Case, Kind, Light, Load, Numbers, load_of, sourced_numbers

MATERIALS = load_materials()
SLOW, GLASS = MATERIALS.resin["epoxy-slow-deep"], MATERIALS.glass["soda-lime-crushed"]
SOURCED = sourced_numbers(SLOW, GLASS)
NUMBERS = Numbers(**{name: number.value for name, number in SOURCED.items()})
SHRINKING = (Kind.CORE, Kind.TOP, Kind.GRAIN, Kind.BORDER)
APART = (Kind.SKIN, Kind.CORNER)
CASE = Case(
    cure_soft=0.3, cure_glass=0.02, cooling_soft=20.0, cooling_glass=15.0,
    apart_soft=10.0, apart_glass=5.0, solid_fraction=0.55, neat=0.05, filled=0.2, depth=0.02,
)  # fmt: skip


def load(kind, **changes):
    numbers = {key: value for key, value in changes.items() if hasattr(NUMBERS, key)}
    case = {key: value for key, value in changes.items() if key not in numbers}
    return float(LOADS[kind](replace(CASE, **case), replace(NUMBERS, **numbers)))


def test_a_core_worked_by_hand():
    numbers = replace(
        NUMBERS, cure_shrinkage=0.03, expansion_soft=200e-6, expansion_glass=60e-6,
        strain_at_break=0.03, strain_at_break_soft=0.06, margin=2.0,
    )  # fmt: skip
    case = Case(cure_soft=0.3, cure_glass=0.0, cooling_soft=30.0, cooling_glass=20.0)
    # 0.9 % of volume is 0.3009 % of length; 30 K soft are 0.6 %; 20 K as glass are 0.12 %
    by_hand = 2.0 * ((0.0030090 + 0.006) / 0.06 + 0.0012 / 0.03)
    assert float(LOADS[Kind.CORE](case, numbers)) == pytest.approx(by_hand, rel=1e-4)


def test_resin_between_touching_grains_worked_by_hand():
    numbers = replace(NUMBERS, expansion_glass=65e-6, grain_expansion=9e-6, held=1.0, halo=0.0065)
    # 30 K of 56e-6 held three ways is 0.504 % of volume, 78 % of what lets go
    assert float(LOADS[Kind.GRAIN](Case(cooling_glass=30.0), numbers)) == pytest.approx(
        0.00504 / 0.0065, rel=1e-9
    )


def test_a_skin_worked_by_hand():
    numbers = replace(NUMBERS, expansion_glass=60e-6, strain_at_break=0.03, margin=2.0)
    # two thirds of 15 K of 60e-6 is 0.06 %, twice over 3 %
    assert float(LOADS[Kind.SKIN](Case(apart_glass=15.0), numbers)) == pytest.approx(0.04, rel=1e-9)


@pytest.mark.parametrize("kind", SHRINKING)
@pytest.mark.parametrize(
    "cause", ["cooling_soft", "cooling_glass", "cure_soft", "cure_glass", "cure_shrinkage"]
)
def test_hotter_and_more_shrinkage_is_worse(kind, cause):
    before = getattr(NUMBERS, cause, None) or getattr(CASE, cause)
    assert load(kind, **{cause: 1.5 * before}) > load(kind)


@pytest.mark.parametrize("kind", list(Kind))
def test_resin_that_stretches_farther_is_better(kind):
    longer = {"strain_at_break": 2 * NUMBERS.strain_at_break, "halo": 2 * NUMBERS.halo}
    assert load(kind, **longer) < load(kind)
    assert load(kind, strain_at_break_soft=2 * NUMBERS.strain_at_break_soft) < load(kind)


@pytest.mark.parametrize("kind", APART)
def test_a_core_farther_above_its_skin_is_worse(kind):
    assert load(kind, apart_soft=30.0) > load(kind)
    assert load(kind, apart_glass=30.0) > load(kind)


def test_a_rounder_and_a_shallower_corner_is_better():
    assert load(Kind.CORNER, corner_radius=0.005) < load(Kind.CORNER)
    assert load(Kind.CORNER, depth=0.005) < load(Kind.CORNER)
    assert load(Kind.CORNER) > load(Kind.SKIN)


def test_grains_that_do_not_touch_hold_less():
    assert load(Kind.GRAIN, held=0.3) < load(Kind.GRAIN)


def test_a_thin_cover_on_a_stiff_bed_is_held_more_than_a_thick_one():
    assert load(Kind.BORDER, neat=0.005) > load(Kind.BORDER, neat=0.2)


@given(
    kind=st.sampled_from(list(Kind)),
    soft=st.floats(0.0, 0.42), hard=st.floats(0.0, 0.2),
    warm=st.floats(0.0, 200.0), cold=st.floats(0.0, 60.0),
)  # fmt: skip
def test_the_band_holds_the_value_and_lights_follow_it(kind, soft, hard, warm, cold):
    found = load_of(
        kind, replace(CASE, cure_soft=soft, cure_glass=hard, cooling_soft=warm, cooling_glass=cold), SOURCED
    )
    assert 0.0 <= found.low <= found.value <= found.high
    assert (found.light is Light.RED) == (found.value >= 1.0)
    assert (found.light is Light.GREEN) == (found.high < 1.0)


def test_numbers_without_a_band_leave_none():
    bare = {
        name: Sourced(number.value, number.unit, None, None, Known.MEMORY, number.source)
        for name, number in SOURCED.items()
    }
    found = load_of(Kind.CORE, CASE, bare)
    assert found.low == found.value == found.high


def test_the_three_lights():
    assert [Load(*three).light for three in ((0.3, 0.1, 0.9), (0.6, 0.3, 1.1), (1.2, 0.6, 2.0))] == list(
        Light
    )
