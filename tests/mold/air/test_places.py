"""Caught air on a bell, an inverted cup and a ring at four tilts, against quadrature."""

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.geometry import cone, revolve
from pourwright.mold.air.places import caught_air
from pourwright.mold.air.rising import Rising
from tests.geometry.bodies import torus
from tests.mold.air.bodies import (
    SHAPES,
    caught_in,
    met,
    ring,
    ring_above,
)

TILTS = np.radians([0.0, 30.0, 60.0, 90.0])
WHICH = ("casting", "hung", "screwed")


@pytest.mark.parametrize("which", WHICH)
@pytest.mark.parametrize("name", SHAPES)
def test_a_bell_and_a_cup_at_four_tilts(name, which):
    one = Rising(met(name, which), which)
    radius, high = SHAPES[name]
    whole = caught_in(radius, high, 0.0)
    for tilt in TILTS:
        found = sum(pocket.volume for pocket in one.caught(one.tilted(0.0, tilt)))
        assert found == pytest.approx(caught_in(radius, high, tilt), rel=0.01, abs=1e-4 * whole)


def test_the_bell_holds_some_even_on_its_side_and_the_cup_does_not():
    assert caught_in(*SHAPES["bell"], np.pi / 2) > 0.02 * caught_in(*SHAPES["bell"], 0.0)
    assert caught_in(*SHAPES["cup"], np.pi / 2) < 1e-9


@pytest.mark.parametrize("tilt", TILTS)
def test_a_ring_on_its_edge_whose_mouth_leans_away(tilt):
    """What lies over the highest point of the mouth stays air; quadrature of the ring's section."""
    major, minor, flat = 0.1, 0.03, 0.125
    half = np.arccos(flat / (major + minor))
    level = (major + minor) * np.cos(max(tilt - half, 0.0))
    rising = Rising(ring(major, minor, flat), "casting")
    found = sum(pocket.volume for pocket in rising.caught(rising.tilted(np.pi, tilt)))
    wanted = ring_above(major, minor, level) if tilt > half else 0.0
    assert found == pytest.approx(wanted, rel=0.01, abs=1e-9)
    assert (found > 1e-6) == (tilt > half)


@pytest.mark.parametrize("tilt", TILTS)
def test_rubber_leaves_a_ring_without_air_however_it_hangs(tilt):
    for which in ("hung", "screwed"):
        rising = Rising(torus(), which)
        assert rising.caught(rising.tilted(0.0, tilt)) == ()


@pytest.mark.parametrize("which", WHICH)
def test_a_cone_point_up_catches_none(which):
    assert caught_air(cone(0.1, 0.0, 0.3), which, least=0.0).places == ()


def test_place_of_an_inverted_cup():
    (place,) = caught_air(met("cup", "hung"), "hung").places
    assert (place.lip, place.depth, place.top[2]) == pytest.approx((0.0, 0.08, 0.08))
    assert place.area == pytest.approx(place.volume / 0.08, rel=1e-9)
    (under,) = caught_air(met("cup", "screwed"), "screwed").places
    assert (under.lip, under.depth, under.top[2]) == pytest.approx((0.0, 0.08, -0.08))
    assert under.volume == pytest.approx(place.volume, rel=1e-9)


def test_a_hollow_that_stands_on_the_board_is_no_air():
    """No rubber comes into it at all."""
    cup = revolve([[0.05, 0.0], [0.05, 0.1], [0.04, 0.1], [0.04, 0.02]], 64)
    assert caught_air(cup, "screwed").places == ()
    assert caught_air(cup, "hung").places == ()


def test_small_places_are_counted_not_told():
    mesh = met("cup", "hung")
    told = caught_air(mesh, "hung", least=1.0)
    assert (told.places, told.small) == ((), 1)
    assert told.small_volume == pytest.approx(caught_air(mesh, "hung").volume, rel=1e-12)


@settings(max_examples=12, deadline=None, derandomize=True)
@given(
    st.sampled_from(WHICH),
    st.floats(-180, 180),
    st.floats(0.1, 10.0),
    st.floats(0.0, 1.4),
    st.floats(0, 6.28),
)
def test_turned_about_up_and_scaled(which, degrees, factor, tilt, side):
    mesh = met("bell", which)
    turn = np.eye(4)
    c, s = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    turn[:2, :2] = [[c, -s], [s, c]]
    grown = np.diag([factor, factor, factor, 1.0]) @ turn
    one, other = Rising(mesh, which), Rising(mesh.transformed(grown), which)
    volumes = [
        sum(pocket.volume for pocket in each.caught(each.tilted(at, tilt)))
        for each, at in ((one, side), (other, side + np.radians(degrees)))
    ]
    assert volumes[1] == pytest.approx(factor**3 * volumes[0], rel=1e-6, abs=1e-9 * factor**3)


@settings(max_examples=25, deadline=None, derandomize=True)
@given(st.floats(0.0, 1.5), st.floats(0.0, 6.28), st.sampled_from(list(SHAPES)))
def test_an_open_mouth_never_holds_air(tilt, side, name):
    rising = Rising(met(name, "casting"), "casting")
    for pocket in rising.caught(rising.tilted(side, tilt)):
        assert not rising.mouth[pocket.vertices].any()
