"""Bulge of the box: three edges supported, the rim free; battens by beams."""

import pytest

from pourwright.mold.box.bulge import Upright, bulge, with_battens
from pourwright.physics.plates import plate_stiffness

G = 9.80665


def upright(width=0.8, height=0.4, density=1800.0):
    return Upright(name="side", width=width, height=height, wet=height, density=density)


def test_rim_of_a_wall_twice_as_wide_as_high(materials):
    mdf, pine = materials.board["mdf"], materials.board["pine"]
    # w = 0.0367 q0 h^4/D at the middle of the rim, three edges supported: an independent Ritz, 1 %
    stiffness = mdf.bending_modulus.value * 0.018**3 / (12 * (1 - 0.3**2))
    expected = 0.0367 * 1800.0 * G * 0.4 * 0.4**4 / stiffness
    found = bulge(upright(), mdf, 0.018, pine, 0.001)
    assert found.bare == pytest.approx(expected, rel=0.01)
    assert found.at_height == pytest.approx(0.4)


def test_the_board_told_bulges_just_to_the_limit(materials):
    mdf, pine = materials.board["mdf"], materials.board["pine"]
    needed = bulge(upright(), mdf, 0.018, pine, 0.001).board_needed
    again = bulge(upright(), mdf, needed * (1 + 1e-9), pine, 0.001)
    assert again.bare == pytest.approx(0.001, rel=1e-6)
    assert again.battens == 0


def test_battens_are_the_fewest_that_hold_it(materials):
    mdf, pine = materials.board["mdf"], materials.board["pine"]
    panel = upright(width=0.9, height=0.5)
    found = bulge(panel, mdf, 0.018, pine, 0.001)
    assert found.battens is not None
    assert found.battens > 0
    assert found.held <= 0.001 < found.bare
    if found.battens > 1:
        assert with_battens(panel, plate_stiffness(2.2e9, 0.018), pine, found.battens - 1) > 0.001


def test_a_side_too_long_for_any_batten_says_so(materials):
    found = bulge(
        upright(width=4.0, height=0.8), materials.board["mdf"], 0.018, materials.board["pine"], 0.001
    )
    assert found.battens is None
    assert found.held == found.bare


@pytest.mark.parametrize("board", ["mdf", "plywood", "melamine-board", "pine"])
def test_denser_bulges_more(materials, board):
    light, heavy = (
        bulge(upright(density=rho), materials.board[board], 0.018, materials.board["pine"], 0.001).bare
        for rho in (1100.0, 2200.0)
    )
    assert heavy == pytest.approx(2 * light, rel=1e-9)
