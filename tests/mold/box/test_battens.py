"""Battens: beams by closed forms, the fields between them by plates, the fewest laths that hold."""

import pytest

from pourwright.materials.loading import load_materials
from pourwright.mold.box.battens import battens_level, battens_upright, fewest
from pourwright.mold.box.bulge import bulge
from pourwright.mold.box.upright import Upright
from pourwright.physics.plates import plate_stiffness

G = 9.80665
BOARDS = load_materials().board
MDF, PINE = BOARDS["mdf"], BOARDS["pine"]
STIFF = plate_stiffness(2.2e9, 0.018)
LATH = 9e9 * 0.045 * 0.070**3 / 12


def wall(width, height, density=2300.0):
    return Upright(name="side", width=width, height=height, wet=height, density=density)


def test_one_level_batten_at_the_rim():
    """5 q L^4/(384 EI) with a third of the whole triangle, and a field of the whole height held all round."""
    panel = wall(0.6, 0.3)
    load = 2300 * G * 0.3 * 0.3 / 3
    sag = 5 * load * 0.6**4 / (384 * LATH)
    found = battens_level(panel, STIFF, PINE, 1)
    assert found.at == pytest.approx((0.3,))
    assert found.bulge - sag == pytest.approx(panel.field(0.6, 0.0, 0.3, STIFF).largest[0], rel=1e-9)
    assert found.end_force == pytest.approx(load * 0.3)
    # M = q L^2 / 8 over b d^2 / 6
    assert found.batten_stress == pytest.approx(load * 0.6**2 / 8 * 6 / (0.045 * 0.070**2))


def test_a_field_held_all_round_in_a_growing_load():
    """Half of the square plate's 0.00406 q a^4/D in the middle, under a load from q0 to nothing."""
    bent = wall(0.4, 0.4).field(0.4, 0.0, 0.4, 1.0)
    foot = 2300 * G * 0.4
    assert float(bent.deflection(0.2, 0.2)) == pytest.approx(0.00203 * foot * 0.4**4, rel=5e-3)


def test_battens_that_stand_are_held_at_foot_and_rim():
    panel = wall(0.9, 0.4)
    found = battens_upright(panel, STIFF, PINE, 2)
    assert found.at == pytest.approx((0.3, 0.6))
    assert found.count == 3
    foot = 2300 * G * 0.4
    # a third of a triangle's load rests on its unloaded end: q0 h / 6 a metre, half of it at each corner
    assert found.end_force == pytest.approx(foot * 0.4 / 6 * 0.9 / 2)
    growing = 0.00652 * foot * 0.3 * 0.4**4 / LATH
    rim = 5 * foot * 0.4 / 6 * 0.9**4 / (384 * LATH)
    field = panel.field(0.3, 0.0, 0.4, STIFF).largest[0]
    assert found.bulge == pytest.approx(growing + rim + field, rel=1e-3)


@pytest.mark.parametrize(("width", "height", "lie"), [(0.8, 0.4, "upright"), (0.3, 1.1, "level")])
def test_battens_lie_across_the_shorter_way_where_that_takes_less_lath(width, height, lie):
    found = bulge(wall(width, height), MDF, 0.018, PINE, 0.001)
    assert found.battens is not None
    assert found.battens.lie == lie
    assert found.held <= 0.001 < found.bare
    assert found.built_stress <= found.allowed


def test_one_batten_less_does_not_hold():
    panel, tried = wall(0.3, 1.1), []

    def holds(battens):
        tried.append(battens)
        return battens.bulge <= 0.0009

    found = fewest(panel, STIFF, PINE, holds)
    same = [battens for battens in tried if battens.lie == found.lie]
    assert same[-1] is found
    assert all(battens.bulge > 0.0009 for battens in same[:-1])
    assert fewest(panel, STIFF, PINE, lambda _: False) is None


def test_a_side_too_long_for_any_batten_says_so():
    found = bulge(wall(4.0, 0.8, 1800.0), MDF, 0.018, PINE, 0.001)
    assert found.battens is None
    assert not found.enough
