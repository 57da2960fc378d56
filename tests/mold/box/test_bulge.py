"""Bulge of the box: three edges supported, the rim free; what it bears; board that needs no battens."""

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.materials.loading import load_materials
from pourwright.mold.box.bulge import bulge
from pourwright.mold.box.upright import Upright

G = 9.80665
BOARDS = load_materials().board
MDF, PINE = BOARDS["mdf"], BOARDS["pine"]


def upright(width=0.8, height=0.4, density=1800.0, wet=None):
    return Upright(name="side", width=width, height=height, wet=wet or height, density=density)


def of(panel, board=MDF, thickness=0.018, limit=0.001):
    return bulge(panel, board, thickness, PINE, limit)


@pytest.mark.parametrize(("ratio", "c_rim", "c_moment"), [(1.0, 0.003679, 0.03251), (2.0, 0.0367, 0.07884)])
def test_rim_of_a_wall_as_of_an_open_tank(ratio, c_rim, c_moment):
    """Coefficients of D23 and D24: middle of the rim, w = c q0 h^4/D and M = c q0 h^2, 1 %."""
    found = of(upright(width=ratio * 0.4))
    stiffness = 2.2e9 * 0.018**3 / (12 * (1 - 0.3**2))
    foot = 1800.0 * G * 0.4
    assert float(found.plate.deflection(ratio * 0.2, 0.4)) == pytest.approx(
        c_rim * foot * 0.4**4 / stiffness, rel=0.01
    )
    # M = c q0 h^2 at the rim is 6 M / t^2 there; the largest anywhere is no less
    assert found.stress >= 0.99 * 6 * c_moment * foot * 0.4**2 / 0.018**2


def test_the_board_told_bulges_just_to_the_limit():
    needed = of(upright()).board_needed
    again = of(upright(), thickness=needed * (1 + 1e-9))
    assert again.bare == pytest.approx(0.001, rel=1e-6)
    assert again.battens is None
    assert again.enough


@settings(deadline=None, max_examples=12)
@given(st.floats(0.2, 1.2), st.floats(0.15, 0.8), st.floats(0.009, 0.024), st.sampled_from(sorted(BOARDS)))
def test_thicker_bulges_less_and_denser_in_proportion(width, height, thickness, board):
    panel, twice = (upright(width, height, rho) for rho in (1100.0, 2200.0))
    thin = of(panel, BOARDS[board], thickness)
    thick = of(panel, BOARDS[board], 1.5 * thickness)
    # D goes with t^3
    assert thin.bare == pytest.approx(1.5**3 * thick.bare, rel=1e-9)
    assert of(twice, BOARDS[board], thickness).bare == pytest.approx(2 * thin.bare, rel=1e-9)
    assert thin.stress == pytest.approx(1.5**2 * thick.stress, rel=1e-9)


@settings(deadline=None, max_examples=10)
@given(st.floats(0.3, 1.0), st.floats(0.2, 0.6), st.floats(0.3, 1.0))
def test_a_lower_level_presses_less(width, height, share):
    full, part = of(upright(width, height)), of(upright(width, height, wet=share * height))
    assert part.bare <= full.bare * (1 + 1e-9)


def test_a_weak_board_is_held_though_it_hardly_bends():
    """A limit of 20 mm lets it bulge; its strength over three does not."""
    weak = of(upright(width=1.6, height=0.9, density=2300.0), thickness=0.025, limit=0.02)
    # 6 M / t^2 against 20 MPa over a safety of 3
    assert weak.stress > 20e6 / 3
    assert weak.battens is not None
    assert weak.built_stress <= weak.allowed


def test_far_too_thin_is_said_where_the_theory_ends():
    thin = of(upright(width=4.0, height=0.8), thickness=0.006)
    assert thin.battens is None
    assert not thin.enough
    assert thin.far_too_thin
    assert thin.bare > 0.003


def test_the_room_that_a_bulge_takes_is_its_mean_times_the_panel():
    found = of(upright(width=0.3, height=0.4))
    n = 200
    x, y = ([(i + 0.5) / n * edge for i in range(n)] for edge in (0.3, 0.4))
    mean = sum(float(found.plate.deflection(a, b)) for a in x[::4] for b in y[::4]) / (50 * 50)
    assert found.room == pytest.approx(mean * 0.3 * 0.4, rel=0.02)
