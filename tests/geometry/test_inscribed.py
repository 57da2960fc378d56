"""The largest ball at a place: plates, tubes, wedges and tips whose ball is known in closed form."""

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.geometry import Mesh, box, cone, revolve, wall_thickness
from pourwright.geometry.thin.inscribed import thickness_map
from tests.geometry.bodies import ball, turned
from tests.geometry.thin_bodies import finned, wedge

SLACK = 2e-4
"""A ball fits where less than a ten-thousandth of its radius is reached into."""


@pytest.mark.parametrize("size", [(0.2, 0.1, 0.01), (0.3, 0.02, 0.2), (0.05, 0.05, 0.05)])
def test_a_plate_is_as_thick_as_its_least_side_right_to_its_edge(size):
    found = thickness_map(box(list(size)), 500)
    assert found.balls.min() == pytest.approx(min(size), rel=SLACK)
    np.testing.assert_allclose(found.balls, found.rays, rtol=SLACK)
    # a plain ball would be as small as its distance from the next face
    assert set(found.balls.round(6)) <= {round(side, 6) for side in size}


def test_in_a_ball_it_is_the_diameter():
    # facets lean against the ball by up to 1.3 degrees, which takes up to sin(1.3 degrees) off what fits
    found = thickness_map(ball(0.1, 4), 500)
    assert found.balls.min() > 0.2 * (1 - np.sin(np.radians(1.3)))
    assert found.balls.max() <= 0.2


def test_the_wall_of_a_tube():
    # outer radius 60 mm, wall 5 mm, 96 sides: between flats the wall is cos(pi / 96) of that
    cup = np.array([[0.0, 0.0], [0.06, 0.0], [0.06, 0.1], [0.055, 0.1], [0.055, 0.02], [0.0, 0.02]])
    found = thickness_map(revolve(cup, 96))
    assert found.balls.min() == pytest.approx(0.005 * np.cos(np.pi / 96), rel=1e-3)


@pytest.mark.parametrize("degrees", [5.0, 20.0, 40.0])
def test_in_a_wedge_the_ball_is_2_s_tan_half_the_angle_and_the_ray_overstates_it(degrees):
    angle = np.radians(degrees)
    found = thickness_map(wedge(degrees), 2000)
    # how far each place lies from the edge, along its face
    along = np.hypot(found.places[:, 0], found.places[:, 2])
    # far enough from the blunt end that the ball is not cut off there
    sides = (along < 0.04) & (along > 1e-4) & (np.abs(found.inward[:, 1]) < 0.5)
    assert sides.sum() > 200
    np.testing.assert_allclose(found.balls[sides], 2 * along[sides] * np.tan(angle / 2), rtol=1e-3)
    np.testing.assert_allclose(found.rays[sides], along[sides] * np.tan(angle), rtol=1e-9)


def test_near_the_tip_of_a_cone():
    # half angle a: s from the tip along the side, a ball of the radius s tan(a) touches
    found = thickness_map(cone(0.02, 0.0, 0.1, 256), 3000)
    half = np.arctan(0.2)
    along = np.linalg.norm(found.places - [0.0, 0.0, 0.1], axis=1)
    near = (along < 0.05) & (along > 0.005) & (found.places[:, 2] > 1e-3)
    assert near.sum() > 100
    np.testing.assert_allclose(found.balls[near], 2 * along[near] * np.tan(half), rtol=0.02)


@pytest.mark.parametrize("grow", [0.002, 0.004])
def test_a_plate_grown_by_a_distance_is_thicker_by_twice_as_much(grow):
    plate = np.array([0.2, 0.1, 0.01])
    thin = thickness_map(box(list(plate)), 300).balls.min()
    thick = thickness_map(box(list(plate + 2 * grow)), 300).balls.min()
    assert thick - thin == pytest.approx(2 * grow, rel=1e-3)


def test_turned_inside_out_it_is_the_space_between():
    found = thickness_map(finned().reversed())
    assert found.balls.min() == pytest.approx(0.003, rel=1e-3)
    assert thickness_map(box([0.1, 0.1, 0.1]).reversed(), 100).balls.size == 0


@given(seed=st.integers(0, 10_000), scale=st.floats(0.01, 20.0))
@settings(max_examples=15, deadline=None)
def test_it_turns_and_grows_with_the_body(seed, scale):
    body = finned()
    least = thickness_map(body, 800).balls.min()
    other = turned(Mesh(scale * body.vertices, body.faces), seed)
    assert thickness_map(other, 800).balls.min() == pytest.approx(scale * least, rel=1e-3)


def test_every_small_triangle_has_a_place():
    body = finned()
    found = thickness_map(body, 400)
    # the pin is a hundredth of the surface
    on_pin = np.hypot(found.places[:, 0] - 0.08, found.places[:, 1] - 0.04) < 0.003
    assert (on_pin & (found.places[:, 2] > 0.041)).sum() > 30


def test_the_ray_of_the_map_is_that_of_the_wall_reading():
    body = ball(0.1, 3)
    walls = wall_thickness(body, 400)
    assert np.median(thickness_map(body, 400).rays) == pytest.approx(np.median(walls.through), rel=2e-3)
