"""Rubber in front of a body: volumes against closed forms, what is loose, how faces lean."""

from math import atan2, degrees, pi

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.geometry import cone, revolve
from pourwright.geometry.ways_up.drafts import draft_angles, draft_shares
from pourwright.geometry.ways_up.held import held_regions

UP = np.array([0.0, 0.0, 1.0])
FINE = 5e-3
"""A lattice of 256 columns against a circle; a polygon of 256 sides is 1e-4 smaller than its circle."""


def ball(radius, steps=96):
    turn = np.linspace(-pi / 2, pi / 2, steps)
    profile = np.stack([radius * np.cos(turn), radius * (1 + np.sin(turn))], axis=1)
    profile[[0, -1], 0] = 0.0
    return revolve(profile)


def bowl(up=True):
    profile = np.array([[0, 0], [60, 0], [120, 80], [112, 80], [55, 8], [0, 8]]) / 1000
    mesh = revolve(profile)
    return mesh if up else mesh.__class__(mesh.vertices * [1, -1, -1] + [0, 0, 0.08], mesh.faces)


def test_over_half_a_ball_lies_a_cylinder_less_half_a_ball():
    (held,) = held_regions(ball(0.1), UP)
    assert held.volume == pytest.approx(pi * 0.1**3 / 3, rel=FINE)
    assert held.depth == pytest.approx(0.1, rel=0.02)
    assert not held.roofed
    assert not held.loose


@settings(max_examples=6, deadline=None)
@given(neck=st.floats(0.02, 0.09), low=st.floats(0.05, 0.3), high=st.floats(0.05, 0.3))
def test_waist_of_two_cones(neck, low, high):
    wide = 0.1
    (held,) = held_regions(revolve([[wide, 0.0], [neck, low], [wide, low + high]]), UP)
    rings = (wide**3 - neck**3) / 3 - neck * (wide**2 - neck**2) / 2
    assert held.volume == pytest.approx(2 * pi * (low + high) / (wide - neck) * rings, rel=0.02)
    assert held.depth == pytest.approx(wide - neck, abs=0.002)
    assert held.place[2] == pytest.approx(low, abs=0.03 * (low + high))
    assert held.roofed


def test_dumbbell_holds_the_ring_between_its_discs():
    profile = [[0.04, 0.0], [0.04, 0.04], [0.02, 0.04], [0.02, 0.08], [0.04, 0.08], [0.04, 0.12]]
    (held,) = held_regions(revolve(profile), UP)
    assert held.volume == pytest.approx(pi * (0.04**2 - 0.02**2) * 0.04, rel=FINE)
    assert (held.lowest, held.highest) == pytest.approx((0.04, 0.08), abs=1e-9)
    assert held.depth == pytest.approx(0.02, abs=0.0008)


def test_what_opens_toward_the_pull_holds_nothing():
    assert held_regions(cone(0.06, 0.10, 0.2), UP) == ()
    assert held_regions(cone(0.08, 0.08, 0.2), UP) == ()


def test_rubber_in_a_bowl_is_a_body_of_its_own():
    (held,) = held_regions(bowl(), UP)
    frustum = pi * 0.072 / 3 * (0.055**2 + 0.055 * 0.112 + 0.112**2)
    assert held.loose
    assert held.volume == pytest.approx(frustum, rel=FINE)
    inside = held.footprint.over([[0.0, 0.0, 0.05], [0.1, 0.0, 0.07], [0.119, 0.0, 0.08]])
    assert inside.tolist() == [True, True, False]


def test_rubber_below_a_turned_bowl_hangs_together_with_the_block():
    regions = held_regions(bowl(up=False), UP)
    assert len(regions) == 1
    assert not regions[0].loose
    (core,) = held_regions(bowl(up=False), -UP)
    assert core.loose
    assert core.place[2] == pytest.approx(0.072, abs=1e-6)


def test_a_waist_hides_no_loose_rubber_from_below():
    # the upper flare covers the waist, and its rubber is free to the side, above the lower one
    waist = revolve([[0.18, 0.0], [0.11, 0.2], [0.155, 0.44]])
    assert not any(region.loose for pull in (UP, -UP) for region in held_regions(waist, pull))


@pytest.mark.parametrize(
    ("bottom", "top", "height"), [(0.06, 0.10, 0.2), (0.10, 0.06, 0.2), (0.05, 0.052, 0.3)]
)
def test_a_cone_leans_by_its_own_angle(bottom, top, height):
    mesh = cone(bottom, top, height)
    lean = draft_angles(mesh, UP)
    side = np.isfinite(lean) & (np.abs(lean) < 80.0)
    # its flats stand a little inside the circle: cos(pi / 256)
    want = degrees(atan2((top - bottom) * np.cos(pi / 256), height))
    assert lean[side] == pytest.approx(np.full(side.sum(), want), abs=1e-6)


def test_shares_of_a_cone_are_those_of_its_areas():
    found = draft_shares(cone(0.10, 0.06, 0.2), UP)
    side, floor = pi * 0.16 * np.hypot(0.04, 0.2), pi * 0.1**2
    assert found.undercut == pytest.approx(side / (side + floor), rel=1e-3)
    assert found.free == pytest.approx(floor / (side + floor), rel=1e-3)
    assert found.upright + found.little == 0.0
