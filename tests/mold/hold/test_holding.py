"""Bars, screws and space blocks against closed forms and sums by hand."""

import dataclasses

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.geometry import box, level_volume
from pourwright.materials.loading import load_materials
from pourwright.mold import MoldChoices, design_mold
from pourwright.mold.bar_choices import BarChoices
from pourwright.mold.hold.bars import Bars, bars_held, bend
from pourwright.mold.hold.blocks import block_lift, held_blocks
from pourwright.mold.hold.floats import mold_floats
from pourwright.mold.hold.screws import Screw, pull_of, push_of, screw_through
from pourwright.mold.rubber import RubberPour
from pourwright.mold.screw_hold import Wood
from pourwright.mold.space_block import SpaceBlock

G = 9.80665
MATERIALS = load_materials()
PINE, MDF = MATERIALS.board["pine"], MATERIALS.board["mdf"]
BARS = Bars(board=PINE, count=2, width=0.045, height=0.07, span=0.5, spread=0.0)
CHOICES = MoldChoices(
    rubber=MATERIALS.rubber["silicone-platinum-a25"], board=MDF, casting_density=1100.0, method="hung"
)


def test_bars_pressed_in_the_middle() -> None:
    stiffness = 2 * 9.0e9 * 0.045 * 0.07**3 / 12
    found = bend(BARS, 400.0)
    assert found.deflection == pytest.approx(400.0 * 0.5**3 / (48 * stiffness), rel=1e-12)
    # M = F L / 4, shared by two bars; stress = 6 M / (b h^2)
    assert found.stress == pytest.approx(6 * (400.0 * 0.5 / 4 / 2) / (0.045 * 0.07**2), rel=1e-12)


def test_bars_pressed_all_along_and_by_their_own_weight() -> None:
    stiffness = 2 * 9.0e9 * 0.045 * 0.07**3 / 12
    wide = dataclasses.replace(BARS, spread=0.9)
    assert bend(wide, 400.0).deflection == pytest.approx(5 * 400.0 * 0.5**3 / (384 * stiffness), rel=1e-12)
    own = 2 * 0.045 * 0.07 * 0.5 * 500.0 * G
    held = bars_held(BARS, 100.0, 0.0)
    assert held.hanging.force == pytest.approx(100.0 + own, rel=1e-12)
    assert held.drowned.deflection == 0.0


def test_too_weak_bars_name_the_least_wood_that_would_do() -> None:
    weak = dataclasses.replace(BARS, width=0.02, height=0.02)
    held = bars_held(weak, 300.0, 200.0)
    assert not held.holds
    assert held.instead is not None
    assert bars_held(held.instead, 300.0, 200.0).holds
    smaller = dataclasses.replace(held.instead, height=held.instead.height - 0.025)
    assert not bars_held(smaller, 300.0, 200.0).holds


def test_a_load_that_no_lath_carries() -> None:
    assert bars_held(BARS, 1e6, 0.0).instead is None


def test_a_master_that_sinks_needs_no_weight_and_its_bars_carry_it() -> None:
    found = _floats(master_density=2400.0)
    assert found.from_level is None
    assert found.bars is not None
    assert found.bars.drowned.force == 0.0
    assert found.bars.hanging.force > 2400.0 * 0.2 * 0.15 * 0.1 * G


def test_bars_run_across_the_shorter_side_and_touch_the_open_face() -> None:
    found = _floats()
    assert found.bars is not None
    assert found.bars_along == "y"
    assert found.bars.bars.span == pytest.approx(0.15 + 2 * CHOICES.wall + 0.018, rel=1e-12)
    assert found.bars.bars.spread == pytest.approx(0.15, rel=1e-12)
    # 200 mm of open face take four laths of 45 mm
    assert found.bars_fit == 4


def test_screws_of_a_hung_master_carry_its_weight() -> None:
    found = _floats().screws
    assert found.screw is not None
    assert found.force == pytest.approx(1.5 * 0.2 * 0.15 * 0.1 * 750.0 * G, rel=1e-12)
    # 90 mm through 70 mm of bar: 20 mm of thread
    assert (found.screw.length, found.screw.depth) == pytest.approx((0.09, 0.02))
    assert found.count_face <= found.count


def _floats(**changes: object):
    size = (0.2, 0.15, 0.1)
    return mold_floats(design_mold(size, level_volume(box(size)), dataclasses.replace(CHOICES, **changes)))


def test_a_screw_stays_in_the_piece() -> None:
    # 18 mm of board before 16 mm of wood: 11 mm of thread are left, 5 mm in front of the point
    found = screw_through(0.018, 0.016)
    assert found is not None
    assert found.length == pytest.approx(0.025)
    assert screw_through(0.018, 0.008) is None
    assert screw_through(0.018, 0.2) == Screw(diameter=0.004, length=0.04, depth=pytest.approx(0.022))


def test_a_screw_in_foam_holds_next_to_nothing() -> None:
    screw = Screw(diameter=0.004, length=0.04, depth=0.022)
    foam, board = Wood(density=35.0), Wood(density=750.0)
    assert pull_of(foam, screw) < 0.01 * pull_of(board, screw)
    assert not foam.holds_screws
    assert not Wood(density=2400.0).holds_screws


def test_a_shallow_screw_bears_less_sideways() -> None:
    deep, shallow = (Screw(diameter=0.004, length=0.04, depth=depth) for depth in (0.028, 0.014))
    assert push_of(shallow) == pytest.approx(push_of(deep) / 2, rel=1e-12)


BLOCK = SpaceBlock((-0.2, -0.05, 0.05), (-0.1, 0.05, 0.25), "left")


def pour(block: SpaceBlock, method: str = "hung") -> RubberPour:
    return RubberPour(level_volume(box([0.1, 0.1, 0.3])), method, 0.02, 0.16, (block,))


def test_the_lift_of_a_block_at_levels() -> None:
    density = CHOICES.rubber.density.value
    for level, wet in ((0.0, 0.0), (0.07, 0.0), (0.12, 0.05), (0.27, 0.2), (0.32, 0.2)):
        lift = block_lift(pour(BLOCK), BLOCK, level, density)
        assert lift == pytest.approx(density * G * 0.1 * 0.1 * wet, rel=1e-9, abs=1e-9)


def test_a_block_on_a_side_is_levered_off_it() -> None:
    (held,) = held_blocks(pour(BLOCK), CHOICES)
    density, volume = CHOICES.rubber.density.value, 0.1 * 0.1 * 0.2
    assert held.worst.level == pytest.approx(0.27, rel=1e-12)
    assert held.worst.force == pytest.approx(volume * (density - 750.0) * G, rel=1e-9)
    # its weight before the rubber is more than the lift less weight later: 1.5 times that, half way out
    assert held.push == pytest.approx(1.5 * volume * 750.0 * G, rel=1e-9)
    assert held.moment == pytest.approx(held.push * 0.05, rel=1e-9)
    # two rows of one screw; the far one at three quarters of its height
    assert (held.screws.along, held.screws.up) == (1, 2)
    assert held.pull == pytest.approx(held.moment / 0.15, rel=1e-9)
    screw = Screw(diameter=0.004, length=held.screws.length, depth=held.screws.length - 0.018)
    alone = held.pull / pull_of(Wood(density=750.0), screw) + held.push / 2 / push_of(screw)
    assert held.used == pytest.approx(alone, rel=1e-9)


def test_a_block_on_the_base_is_drawn_straight_off() -> None:
    block = SpaceBlock((-0.05, -0.05, -0.02), (0.05, 0.05, 0.08), "base")
    (held,) = held_blocks(pour(block), CHOICES)
    assert held.moment == 0.0
    assert held.push == 0.0
    assert held.pull == pytest.approx(1.5 * 0.001 * (CHOICES.rubber.density.value - 750.0) * G, rel=1e-9)


def test_a_block_that_stands_on_the_board_is_carried_by_it() -> None:
    block = SpaceBlock((-0.2, -0.05, -0.02), (-0.1, 0.05, 0.25), "left")
    (held,) = held_blocks(pour(block), CHOICES)
    assert held.push == pytest.approx(1.5 * held.worst.force, rel=1e-9)


def test_a_long_thin_shelf_is_too_much_for_its_screws() -> None:
    # 450 mm off the panel and 20 mm high: the lever is more than twenty times the arm
    block = SpaceBlock((-0.2, -0.3, 0.05), (0.25, 0.3, 0.07), "left")
    (held,) = held_blocks(pour(block), CHOICES)
    assert held.used > 1.0


@settings(max_examples=20, deadline=None)
@given(
    sides=st.tuples(st.floats(0.05, 0.4), st.floats(0.05, 0.4), st.floats(0.05, 0.4)),
    density=st.floats(500.0, 1400.0),
    method=st.sampled_from(["hung", "screwed"]),
)
def test_twice_the_density_never_lowers_the_hold_down(
    sides: tuple[float, float, float], density: float, method: str
) -> None:
    light, heavy = (_held(sides, each, method) for each in (density, 2 * density))
    assert heavy.hold_down.net_force >= light.hold_down.net_force
    assert heavy.hold_down.weight_needed >= light.hold_down.weight_needed
    assert (heavy.hold_down.screws_needed or 0) >= (light.hold_down.screws_needed or 0)
    one, two = mold_floats(light), mold_floats(heavy)
    if one.bars and two.bars:
        assert two.bars.drowned.deflection >= one.bars.drowned.deflection
        assert two.bars.hanging.force == one.bars.hanging.force


def _held(sides: tuple[float, float, float], density: float, method: str):
    rubber = CHOICES.rubber
    heavy = dataclasses.replace(rubber, density=dataclasses.replace(rubber.density, value=density))
    choices = dataclasses.replace(CHOICES, rubber=heavy, method=method, bars=BarChoices(board=PINE))
    return design_mold(sides, level_volume(box(sides)), choices)
