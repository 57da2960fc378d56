"""Which liquid reaches which seam, and what it loses there: closed forms of plane Poiseuille flow."""

from math import inf, pi

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.geometry import box, cone, revolve
from pourwright.mold.box.joints import JOINTS
from pourwright.mold.seams.box_joints import box_joints, two_pour_joints
from pourwright.mold.seams.defaults import SEAMS
from pourwright.mold.seams.leaks import leaks_of, lost, slurry_stops_at
from pourwright.mold.seams.liquid import (
    mineral_liquid,
    resin_liquid,
    rubber_liquid,
    standing_water,
)
from pourwright.mold.seams.rubber_joints import cut_joint, line_joint, rod_joint, skin_joints
from pourwright.mold.seams.strip import Strip, drive, head_at, mean_head
from pourwright.mold.way_out.cut import Cut
from pourwright.physics.constants import STANDARD_GRAVITY

INSIDE, LEVEL = (0.34, 0.24, 0.419), 0.419


@pytest.fixture
def joints(block):
    """Of a box of 18 mm board around a block of 300 x 200 x 400 mm, cut on its right."""
    cut = Cut(0.0, 0.389, 0.02, 0.02, 0.011, 0.389 * 0.02, 0.2)
    return (
        *box_joints(INSIDE, 0.018, LEVEL, SEAMS["gap_box"].value),
        cut_joint(block, INSIDE[:2], cut, "cut", SEAMS["gap_cut"].value),
    )


@pytest.fixture
def rubber(materials):
    return rubber_liquid(materials.rubber["silicone-platinum-a25"], 20.0, 2700.0)


@pytest.fixture
def resin(materials):
    return resin_liquid(materials.resin["epoxy-slow-deep"], 26.0, 150e3, 180e3)


def test_rubber_reaches_the_box_and_never_the_cut_and_resin_the_other_way_round(
    joints, rubber, resin
) -> None:
    foot, corners, cut = joints
    assert {leak.joint for leak in leaks_of(rubber, joints).leaks} == {foot, corners}
    assert {leak.joint for leak in leaks_of(resin, joints).leaks} == {cut}
    assert lost(resin, foot, 0.01) == lost(rubber, cut, 0.01) == 0.0
    assert lost(standing_water(0.02, 293.15, 3600.0), corners, 0.01) == 0.0


def test_each_seam_leaks_by_the_closed_form(joints, rubber, resin) -> None:
    foot, corners, cut = joints
    g, h = STANDARD_GRAVITY, 1e-4
    # rubber halves its flow every 45 minutes: 2700 / (18 ln 2) per Pa in all, less what is left after 6 hours
    all_of_it = 2700.0 / (18.0 * np.log(2.0)) * (1.0 - 2.0**-8)
    per_head = h**3 * 1150.0 * g / (12.0 * 0.018) * all_of_it * 1150.0
    assert lost(rubber, foot, h) == pytest.approx(per_head * 2 * (0.34 + 0.24) * LEVEL, rel=1e-9)
    assert lost(rubber, corners, h) == pytest.approx(per_head * 4 * LEVEL**2 / 2, rel=1e-9)
    # resin 400 mm deep presses on a cut that ends 11 mm above the floor, through 20 mm of rubber
    thrust = 1090.0 * g * (0.4 - 0.011) ** 2 / 2
    assert lost(resin, cut, h) == pytest.approx(h**3 * thrust / (12 * 0.02) * 150e3 * 1090.0, rel=1e-6)


def test_a_rabbet_or_a_groove_is_a_longer_way_out() -> None:
    paths = {
        name: box_joints(INSIDE, 0.018, LEVEL, 2e-4, joint)[1].least_path for name, joint in JOINTS.items()
    }
    # half the board deep on one side of the end; a third on both
    assert paths == pytest.approx({"butt": 0.018, "flange": 0.018, "rabbet": 0.027, "housing": 0.03})


def test_resin_presses_by_its_own_weight_whatever_glass_lies_in_it(materials) -> None:
    record = materials.resin["epoxy-slow-deep"]
    assert resin_liquid(record, 40.0, 1.0, 1.0).presses == record.density.value


def test_the_worst_seam_comes_first_and_the_widest_gap_loses_the_allowance(joints, rubber) -> None:
    found = leaks_of(rubber, joints, 0.05)
    masses = [leak.expected for leak in found.leaks]
    assert masses == sorted(masses, reverse=True)
    # 2 (l + w) under the whole head against four corners under half of it
    assert [leak.joint.kind for leak in found.leaks] == ["foot", "corners"]
    for leak in found.leaks:
        assert lost(rubber, leak.joint, leak.widest) == pytest.approx(0.05, rel=1e-9)
    together = sum(lost(rubber, leak.joint, found.widest) for leak in found.leaks)
    assert together == pytest.approx(0.05, rel=1e-9)
    assert found.widest < min(leak.widest for leak in found.leaks)


def test_what_may_be_lost_is_a_share_of_what_is_poured_unless_it_is_said(joints, rubber) -> None:
    assert leaks_of(rubber, joints).allowed == pytest.approx(0.01 * 20.0)
    assert leaks_of(rubber, joints, 0.3).allowed == 0.3


def test_no_more_is_lost_than_is_poured(joints, rubber) -> None:
    foot = joints[0]
    assert lost(rubber, foot, 0.02) == rubber.poured
    assert leaks_of(rubber, [foot], 1e9).leaks[0].widest == inf


def test_thin_resin_finds_what_thick_rubber_does_not(joints, rubber, resin) -> None:
    # per metre, head and path alike: fluidities 150,000 against 216 per Pa
    assert lost(resin, joints[2], 1e-4) > 50 * lost(rubber, joints[1], 1e-4)


@settings(max_examples=60, derandomize=True)
@given(st.floats(0.0, 0.4), st.floats(0.01, 0.6), st.floats(0.02, 0.6))
def test_heads_by_layers_are_their_sum_in_fine_steps(low: float, more: float, layer: float) -> None:
    high, level, steps = low + more, 0.45, 4000
    middles = low + more * (np.arange(steps) + 0.5) / steps
    expected = float(np.mean([head_at(z, level, layer) for z in middles]))
    found = mean_head(Strip(1.0, 0.02, low, high), level, layer)
    # a step of the sum that straddles a border of layers may be wrong by its whole layer
    assert found == pytest.approx(expected, abs=level / steps * 20)
    assert found <= mean_head(Strip(1.0, 0.02, low, high), level) + 1e-12


@settings(max_examples=40, derandomize=True)
@given(st.floats(1e-5, 1e-3), st.floats(0.05, 0.5), st.floats(1.01, 3.0))
def test_more_gap_or_more_head_leaks_more(gap: float, level: float, more: float) -> None:
    water = standing_water(1e6, 293.15, 1.0)

    def leak(width: float, deep: float) -> float:
        return lost(water, rod_joint(0.01, 0.019, deep, 1e-4), width)

    assert leak(gap * more, level) > leak(gap, level)
    assert leak(gap, level * more) > leak(gap, level)


def test_pours_that_gel_one_by_one_lose_their_share() -> None:
    wall = (Strip(0.4, 0.02, 0.0, 0.4),)
    assert drive(wall, 0.4, 0.1) == pytest.approx(drive(wall, 0.4) / 4)


def test_a_cut_is_as_thick_as_its_rubber_at_each_height() -> None:
    cup = revolve([[0.05, 0.0], [0.05, 0.1], [0.1, 0.1], [0.1, 0.3]], 256)
    cut = Cut(0.0, 0.289, 0.02, 0.07, 0.011, 0.01, 0.2)
    joint = cut_joint(cup, (0.24, 0.24), cut, "cut", 5e-5)
    assert joint.length == pytest.approx(0.289, rel=1e-9)
    # the narrow foot has 70 mm of rubber before it, the wide top 20 mm
    foot = (0.3 - 0.011) ** 2 / 2 - 0.2**2 / 2
    assert joint.drive() == pytest.approx(foot / 0.07 + 0.2**2 / 2 / 0.02, rel=1e-2)
    assert joint.least_path == pytest.approx(0.02, abs=2e-4)


def test_halves_meet_all_round_the_piece() -> None:
    piece = box([0.2, 0.1, 0.3])
    joint = line_joint(piece, (0.24, 0.14), 0.03, 0, 1e-4)
    # the plane x = 0: two sides with 20 mm beside them; the floor has 30 mm below, but 20 mm at its ends
    assert joint.length == pytest.approx(0.3 + 0.3 + 0.1, rel=1e-9)
    floor = 0.08 / 0.03 + 2 * np.log(0.03 / 0.02)
    assert joint.drive() == pytest.approx(2 * 0.3**2 / 2 / 0.02 + 0.3 * floor, rel=1e-4)
    assert {"resin", "mineral", "water"} == set(joint.reached_by)


def test_rubber_in_two_pours_stands_half_as_deep() -> None:
    corners, bed = two_pour_joints((0.3, 0.2, 0.4), 1, 0.018, 2e-4)
    assert corners.level == pytest.approx(0.1)
    assert corners.drive() == pytest.approx(8 * 0.1**2 / 2 / 0.018)
    assert bed.least_path > 5 * corners.least_path


def test_a_skin_leaks_only_where_it_is_cut() -> None:
    tip = cone(0.1, 0.05, 0.3)
    assert skin_joints(tip, 0.01, 0.05, 5e-5, cut=False) == ()
    skin, shell = skin_joints(tip, 0.01, 0.05, 5e-5, cut=True)
    # one side of a frustum
    assert skin.length == pytest.approx(np.hypot(0.05, 0.3), rel=1e-2)
    assert shell.supposed
    assert not skin.supposed
    assert skin.drive() == pytest.approx(6.0 * shell.drive(), rel=1e-9)


def test_a_rod_leaks_round_its_girth() -> None:
    joint = rod_joint(0.01, 0.019, 0.4, 1e-4)
    assert joint.drive() == pytest.approx(pi * 0.01 * 0.4 / 0.019, rel=1e-12)
    assert joint.supposed


def test_of_gypsum_no_more_than_its_own_water_gets_out(materials, joints) -> None:
    gypsum = mineral_liquid(materials.mineral["gypsum-casting"], 16.0, 293.15)
    # 0.6 of water to 1 of powder: 6 kg, of which 2 % bleed
    assert lost(gypsum, joints[2], 0.001) == pytest.approx(0.12, rel=1e-9)
    # 15 Pa against the weight of 0.389 m of slurry through 20 mm
    head = 1630.0 * STANDARD_GRAVITY * 0.389
    rests = 2 * 15.0 * 0.02 / head
    assert slurry_stops_at(gypsum, joints[2]) == pytest.approx(rests, rel=1e-3)
    assert leaks_of(gypsum, joints).widest == pytest.approx(rests, rel=1e-3)
