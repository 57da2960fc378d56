"""Corners and base: loads balance, screws by withdrawal, clamps by flange, bands by friction."""

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.foundation.notation import UnitSystem
from pourwright.materials.loading import load_materials
from pourwright.mold.box.bands import banded
from pourwright.mold.box.defaults import BOX
from pourwright.mold.box.fastening import Corner, fastenings
from pourwright.mold.box.flanges import clamped
from pourwright.mold.box.joints import JOINTS
from pourwright.mold.box.loads import SeamLoad, base_load, corner_load
from pourwright.mold.box.rows import row_along
from pourwright.mold.box.screws import pull_it_bears, screw_for, screws_along
from pourwright.mold.box.upright import Upright

BOARDS = load_materials().board
MDF, PINE = BOARDS["mdf"], BOARDS["pine"]
METRIC = UnitSystem.METRIC


def wall(width=0.4, height=0.4, density=1800.0, name="side"):
    return Upright(name=name, width=width, height=height, wet=height, density=density)


def even(pull, slide=0.0, length=0.4):
    along = np.linspace(0.0, length, 81)
    return SeamLoad(along=along, pull=np.full(81, pull), slide=np.full(81, slide))


def corner(load, joint="butt", thickness=0.018, board=MDF):
    return Corner(load=load, joint=JOINTS[joint], board=board, lath=PINE, thickness=thickness, units=METRIC)


def test_the_edges_carry_at_least_the_whole_push():
    """Two corners and the foot against rho g h^2 w / 2; what is left over pulls the lower corners back."""
    panel = wall()
    load = corner_load(panel, panel, holds_end=False)
    at_corners = 2 * float(np.trapezoid(load.pull, load.along))
    base = base_load(panel, 0.0)
    at_foot = float(np.trapezoid(base.slide, base.along))
    thrust = 1800 * 9.80665 * 0.4**2 / 2 * 0.4
    assert thrust < at_corners + at_foot < 1.2 * thrust


def test_a_groove_keeps_the_end_in():
    panel = wall()
    assert corner_load(panel, panel, holds_end=True).slide.max() == 0.0
    assert corner_load(panel, panel, holds_end=False).slide.max() > 0.0


def test_level_battens_take_load_off_the_corner():
    panel = wall(0.3, 1.1)
    heights = (0.37, 0.74, 1.1)
    bare = corner_load(panel, panel, holds_end=False)
    held = corner_load(panel, panel, holds_end=False, side_battens=heights)
    assert np.trapezoid(held.pull, held.along) < np.trapezoid(bare.pull, bare.along)
    assert held.slide == pytest.approx(bare.slide)


def test_working_load_in_an_edge_of_mdf():
    """P = 31.8 D^0.5 (L - D/3)^1.25 G^2, mm and N, G = 0.75 / 1.08, over 5.5."""
    screw = screw_for(0.018, METRIC)
    fails = 31.8 * 4.0**0.5 * (32.0 - 4.0 / 3.0) ** 1.25 * (0.75 / 1.08) ** 2
    assert pull_it_bears(screw, MDF, 0.018) == pytest.approx(fails / 5.5, rel=1e-3)


def test_the_edge_of_pine_counts_as_end_grain():
    """108.25 G^2 D L, three quarters of it, over 5.5."""
    screw = screw_for(0.020, METRIC)
    fails = 0.75 * 108.25 * (0.5 / 1.08) ** 2 * 4.0 * 30.0
    assert pull_it_bears(screw, PINE, 0.020) == pytest.approx(fails / 5.5, rel=1e-3)


def test_thin_board_takes_no_screw_in_its_edge():
    assert screw_for(0.009, METRIC) is None
    found = {each.means: each for each in fastenings(corner(even(300.0), thickness=0.009))}
    assert "splits" in found["screws"].why_not


@settings(deadline=None, max_examples=25)
@given(st.floats(0.0, 2500.0), st.floats(0.0, 2500.0), st.floats(0.15, 1.2))
def test_every_screw_of_a_row_bears_its_share(pull, slide, length):
    load = even(pull, slide, length)
    screw = screw_for(0.018, METRIC)
    row = screws_along(load, screw, MDF, 0.018)
    assert row.share <= 1.0
    assert row.spacing <= BOX["screw_spacing"].value + 1e-9
    assert row.at[0] == pytest.approx(min(0.07, length / 4))
    assert row.at[-1] == pytest.approx(length - row.at[0])
    # all of them together bear the whole seam; 17.4 D^2 is what one bears sideways
    whole = length * (pull / pull_it_bears(screw, MDF, 0.018) + slide / (17.4 * 16))
    assert row.share * row.count >= whole * (1 - 1e-9)


def test_more_load_never_takes_fewer_screws():
    screw = screw_for(0.018, METRIC)
    counts = [screws_along(even(pull), screw, MDF, 0.018).count for pull in range(0, 8000, 500)]
    assert counts == sorted(counts)
    assert counts[-1] > counts[0]


def test_a_short_seam_has_two():
    assert row_along(np.array([0.0, 0.1]), np.zeros(2), 0.07, 0.15).count == 2


def test_a_clamp_squeezes_what_lies_between_two():
    """1.5 (pull + slide / 0.3), and the lath a beam from clamp to clamp: 5 q s^4 / (384 EI)."""
    found = clamped(even(900.0, 60.0), MDF, 0.018, PINE)
    squeeze = 1.5 * (900.0 + 60.0 / 0.3)
    spacing = found.row.spacing
    assert found.force == pytest.approx(squeeze * max(spacing, 0.04 + spacing / 2), rel=0.02)
    assert found.force <= 1000.0
    assert found.gape == pytest.approx(5 * squeeze * spacing**4 / (384 * 9e9 * 0.045**4 / 12))
    # the side is bent by the clamps in the middle of its flange: 6 q (45 mm / 2) / t^2 against 20 MPa over 3
    assert found.side_share == pytest.approx(6 * squeeze * 0.0225 / 0.018**2 / (20e6 / 3))


def test_bands_lose_what_the_capstan_takes():
    """Half a turn behind the ratchet exp(0.3 pi) of the pull is gone: D05."""
    found = banded(even(600.0))
    assert 1 / found.left_over == pytest.approx(2.56633, rel=1e-5)
    assert len(found.at) * found.pull / 2.56633 == pytest.approx(1.5 * 600.0 * 0.4, rel=1e-5)
    assert found.pull <= 500.0
    assert found.at == pytest.approx([0.4 * (k + 0.5) / len(found.at) for k in range(len(found.at))])


def test_bands_lie_closer_where_more_presses():
    load = corner_load(wall(0.5, 0.6), wall(0.5, 0.6), holds_end=False)
    at = banded(load).at
    gaps = np.diff(at)
    assert len(at) > 2
    assert gaps[0] < gaps[-1]


def test_the_one_to_take_comes_first():
    light = even(300.0)
    assert fastenings(corner(light))[0].means == "screws"
    assert fastenings(corner(light, joint="flange"))[0].means == "clamps"
    crushed = fastenings(corner(even(60e3)))
    assert not any(each.possible for each in crushed)
    assert all(each.why_not for each in crushed)
