"""The box: panels, pressure, seams, lifting, and what is refused."""

import pytest

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem
from pourwright.mold import DEFAULTS, lifting_caution
from pourwright.mold.panels import fill_head, rubber_head

G = 9.80665


def test_sides_lap_ends_and_both_stand_on_the_base(design, block):
    mold = design(block, board_thickness=0.018, freeboard=0.010)
    base, side, end = mold.panels
    assert (base.length, base.width) == pytest.approx((0.376, 0.276))
    assert (side.length, side.width, side.count) == pytest.approx((0.376, 0.429, 2))
    assert (end.length, end.width, end.count) == pytest.approx((0.24, 0.429, 2))
    assert mold.outside == pytest.approx((0.376, 0.276, 0.447))
    assert mold.rim == pytest.approx(0.410)
    # outside, two sides and two ends leave no gap: x and y close
    assert end.length + 2 * side.thickness == pytest.approx(base.width)


def test_a_screwed_master_needs_a_floor_for_casting(design, block):
    mold = design(block, method="screwed", freeboard=0.010)
    assert [panel.name for panel in mold.panels] == ["base", "side", "end", "floor for casting"]
    # the mouth lies where the base board was, so the rim is the mouth
    assert mold.rim == pytest.approx(0.40)


def test_the_densest_liquid_decides(design, block, choices):
    light = design(block, casting_density=1000.0).panels[1]
    heavy = design(block, casting_density=2300.0).panels[1]
    rubber = choices.rubber.density.value
    assert light.pressure_at_bottom == pytest.approx(rubber * G * 0.419, rel=1e-9)
    assert light.thrust == pytest.approx(rubber * G * 0.419**2 / 2 * 0.34, rel=1e-9)
    assert heavy.pressure_at_bottom == pytest.approx(2300 * G * 0.40 + rubber * G * 0.019, rel=1e-9)
    assert heavy.thrust > light.thrust


def test_two_liquids_of_one_density_are_one_head():
    one, two = rubber_head(1150.0, 0.5), fill_head(1150.0, 1150.0, 0.38, 0.12)
    assert two.pressure == pytest.approx(one.pressure, rel=1e-12)
    assert two.thrust_per_length == pytest.approx(one.thrust_per_length, rel=1e-12)


def test_thrust_on_the_base_carries_the_liquid(design, block, choices):
    base = design(block, casting_density=1000.0).panels[0]
    assert base.thrust == pytest.approx(0.34 * 0.24 * 0.419 * choices.rubber.density.value * G, rel=1e-9)


def test_seams(design, block):
    mold = design(block)
    base, corners = mold.seams
    assert base.length == pytest.approx(2 * (0.34 + 0.24))
    assert corners.length == pytest.approx(4 * 0.419)
    assert base.pressure == mold.rubber.head_at_bottom


def test_masses_to_lift(design, block, choices):
    mold = design(block)
    wood = sum(p.count * p.length * p.width * p.thickness for p in mold.panels) * choices.board.density.value
    assert mold.empty_mass == pytest.approx(mold.rubber.mass + wood, rel=1e-12)
    assert mold.filled_mass(40.0) == pytest.approx(mold.empty_mass + 40.0)
    assert lifting_caution("The mold", 20.0, UnitSystem.METRIC) is None
    assert "two" in lifting_caution("The mold", 30.0, UnitSystem.METRIC)
    assert "lb" in lifting_caution("The mold", 90.0, UnitSystem.US)


@pytest.mark.parametrize("changes", [{"wall": 0.0}, {"base": -0.01}, {"cover": 0.01}, {"safety_factor": 0.9}])
def test_dimensions_that_make_no_mold(design, block, changes):
    with pytest.raises(UserError, match=next(iter(changes))):
        design(block, **changes)


def test_unusual_walls_are_said(design, block):
    assert any("wall" in text for text in design(block, wall=0.05).warnings)
    assert not any("wall" in text for text in design(block, wall=0.015).warnings)


def test_defaults_have_reasons_and_lie_in_their_range():
    for name, default in DEFAULTS.items():
        assert default.conditions, name
        if default.low is not None:
            assert default.low <= default.value <= default.high


def test_a_design_says_which_defaults_it_kept(design, block):
    assert "mold.safety_factor" in dict(design(block).reasons)
    assert "mold.safety_factor" not in dict(design(block, safety_factor=2.0).reasons)
