"""Thickness straight through: plates, balls and hollow bodies whose walls are known exactly."""

import numpy as np
import pytest

from pourwright.geometry import Mesh, box, cone, revolve, wall_thickness
from pourwright.geometry.ray_kernels import first_hits
from tests.geometry.bodies import hourglass, turned


def ball(radius: float, segments: int = 48) -> Mesh:
    angle = np.linspace(-np.pi / 2, np.pi / 2, segments)
    return revolve(np.stack([radius * np.cos(angle), radius * np.sin(angle)], axis=1), segments)


@pytest.mark.parametrize("size", [(0.2, 0.1, 0.01), (0.3, 0.02, 0.2), (0.05, 0.05, 0.05)])
def test_a_plate_is_as_thick_as_its_least_side(size):
    walls = wall_thickness(box(list(size)))
    assert walls.through.min() == pytest.approx(min(size), rel=1e-12)
    assert walls.through[walls.thinnest(0.01)] == pytest.approx(min(size), rel=1e-12)
    assert set(walls.through.round(9)) <= {round(side, 9) for side in size}


def test_through_a_ball_is_its_diameter():
    # facets of 48 segments lie within 1 - cos(pi / 48), 0.2 %, of the ball; rays leave them off the middle
    walls = wall_thickness(ball(0.1))
    assert walls.through[walls.thinnest(0.01)] == pytest.approx(0.2, rel=0.02)
    assert np.median(walls.through) == pytest.approx(0.2, rel=0.005)


def test_the_wall_of_a_cup_is_found_where_it_is():
    # outer radius 60 mm, wall 5 mm, floor 20 mm
    profile = np.array([[0.0, 0.0], [0.06, 0.0], [0.06, 0.1], [0.055, 0.1], [0.055, 0.02], [0.0, 0.02]])
    walls = wall_thickness(revolve(profile, 96))
    thinnest = walls.thinnest(0.05)
    assert walls.through[thinnest] == pytest.approx(0.005, rel=0.01)
    middle = walls.middles[thinnest]
    assert np.hypot(middle[0], middle[1]) == pytest.approx(0.0575, abs=2e-4)
    assert middle[2] > 0.02


def test_an_edge_is_no_section():
    # base and side of this cone meet at 69 degrees: a ray near the edge leaves through the face beside it
    walls = wall_thickness(cone(0.06, 0.03, 0.08, 96))
    # straight off its side a ray is longer than its top is wide, 60 mm; from top to bottom it is 80 mm
    assert 0.06 < walls.through.min() <= 0.08


def test_a_sharp_wedge_is_thin_and_a_body_without_facing_sides_is_measured_all_the_same():
    wedge = wall_thickness(cone(0.1, 1e-4, 0.01, 64), rays=2000)
    # a flat cone of 5.7 degrees: its faces look away from each other right to the edge
    assert wedge.through[wedge.thinnest(0.02)] < 0.001
    pointed = wall_thickness(cone(0.1, 1e-4, 0.1, 64))
    assert pointed.through.size > 300


def test_places_stand_for_the_whole_surface():
    body = turned(hourglass(24), 2)
    walls = wall_thickness(body, rays=300)
    area = np.linalg.norm(body.area_vectors, axis=1).sum()
    assert walls.areas == pytest.approx(walls.areas[0])
    assert walls.areas[0] == pytest.approx(area / 300)
    assert walls.areas.sum() > 0.3 * area


def test_thickness_grows_with_the_body_and_turns_with_it():
    body = hourglass(16)
    through = wall_thickness(body).through
    larger = wall_thickness(Mesh(2.0 * body.vertices, body.faces)).through
    np.testing.assert_allclose(larger, 2.0 * through, rtol=1e-9)


def test_kernel_and_its_plain_twin():
    body = turned(hourglass(5), 2)
    starts = body.triangles.mean(axis=1)[:9]
    ways = -body.area_vectors[:9] / np.linalg.norm(body.area_vectors[:9], axis=1)[:, None]
    rays = (body.triangles, starts, ways, 1e-9)
    for one, other in zip(first_hits(*rays), first_hits.py_func(*rays), strict=True):
        np.testing.assert_allclose(one, other, rtol=1e-12)
