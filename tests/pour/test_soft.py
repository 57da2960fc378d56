"""Places in words' reach, and the stall of a cold shop."""

import dataclasses

import pytest

from pourwright.geometry import box, revolve, wall_thickness
from pourwright.pour.soft import stall_in, whereabouts
from tests.pour.blocks import ZERO_CELSIUS, block_site


def test_a_colder_shop_stalls_earlier_and_leaves_softer_resin():
    site = block_site(0.03, 0.12, degrees=20.0)
    cold = dataclasses.replace(site, climate=site.climate.shifted(-6.0))
    here, there = stall_in(site), stall_in(cold)
    assert there.cured < here.cured < 1.0
    assert there.glass_transition == pytest.approx(here.glass_transition - 6.0)


def test_the_stall_leaves_a_glass_transition_above_the_shop_by_the_offset():
    # half of the rate is lost where Tg lies above the resin by the offset, 10 K in the record
    site = block_site(0.03, 0.12, degrees=20.0)
    assert stall_in(site).glass_transition == pytest.approx(30.0 + ZERO_CELSIUS, abs=1e-6)


def test_in_an_oven_it_cures_through():
    site = block_site(0.03, 0.12, degrees=60.0)
    found = stall_in(site)
    assert found.cures_through
    assert found.glass_transition == pytest.approx(found.full)


def test_where_a_place_is():
    body = box([0.2, 0.1, 0.04])
    walls = wall_thickness(body)
    rim = whereabouts(body, walls, (0.095, 0.0, 0.035))
    assert rim.height == 0.035
    assert rim.share == pytest.approx(0.875)
    assert rim.from_rubber == pytest.approx(0.005)
    middle = whereabouts(body, walls, (0.0, 0.0, 0.02))
    assert middle.from_rubber == pytest.approx(0.05)


def test_a_thin_rim_is_told_from_a_thick_body():
    # a block of 60 mm with a flange of 8 mm around its foot
    profile = [[0.0, 0.0], [0.09, 0.0], [0.09, 0.008], [0.03, 0.008], [0.03, 0.1], [0.0, 0.1]]
    body = revolve(profile, 64)
    walls = wall_thickness(body)
    flange = whereabouts(body, walls, (0.08, 0.0, 0.004))
    assert flange.thin
    assert flange.thickness == pytest.approx(0.008, rel=0.02)
    assert not whereabouts(body, walls, (0.0, 0.0, 0.08)).thin
