"""Corners and edges: angles of prisms, roundings of known radius at every fineness, points of cones."""

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.geometry import Mesh, box, cone, revolve
from pourwright.geometry.thin.edge_lines import edge_folds, edge_lines
from pourwright.geometry.thin.edge_spikes import spikes
from pourwright.geometry.thin.edge_walks import roundings
from tests.geometry.bodies import ball, hourglass, torus, turned
from tests.geometry.thin_bodies import STEP, filleted, finned, wedge


def test_a_box_has_square_edges_all_round_and_no_inner_corner():
    (line,) = edge_lines(box([0.1, 0.2, 0.3]), inner=False, below=1e-3)
    assert np.degrees(line.angle) == pytest.approx(90.0, abs=1e-9)
    assert line.length == pytest.approx(4 * (0.1 + 0.2 + 0.3), rel=1e-12)
    assert line.radius == 0.0
    assert edge_lines(box([0.1, 0.2, 0.3]), inner=True, below=1e-3) == ()


def test_the_inner_corner_of_a_step_with_its_legs():
    (line,) = edge_lines(revolve(STEP, 64), inner=True, below=1e-3)
    # the perimeter of 64 sides, and both legs: 70 mm up, 60 mm out to the rim
    assert line.length == pytest.approx(64 * 2 * 0.04 * np.sin(np.pi / 64), rel=1e-9)
    assert sorted(line.legs) == pytest.approx([0.06, 0.07], rel=2e-3)
    assert np.degrees(line.angle) == pytest.approx(90.0, abs=1e-6)
    assert line.place[2] == pytest.approx(0.05, abs=1e-9)


@pytest.mark.parametrize("facets", [1, 2, 3, 6, 16, 40])
@pytest.mark.parametrize("radius", [0.0005, 0.002, 0.008])
def test_a_rounding_has_its_radius_however_finely_it_is_cut(radius, facets):
    (line,) = edge_lines(filleted(radius, facets), inner=True, below=0.05)
    # edges go round in 64 chords, so across one the cut is a thousandth flatter
    assert line.radius == pytest.approx(radius, rel=3e-3)
    assert np.degrees(line.angle) == pytest.approx(90.0, abs=0.2)
    # each edge counts by its turn, the first and last by half
    turn = np.linspace(0.0, np.pi / 2, facets + 1)
    weights = np.array([0.5, *[1.0] * (facets - 1), 0.5]) / facets
    around = 64 * 2 * np.sin(np.pi / 64) * (0.04 + radius - radius * np.sin(turn))
    assert line.length == pytest.approx(weights @ around, rel=2e-3)


@pytest.mark.parametrize("facets", [3, 6, 16])
def test_a_small_rounding_is_a_corner_and_a_large_one_is_none(facets):
    assert len(edge_lines(filleted(0.0005, facets), inner=True, below=0.001)) == 1
    assert edge_lines(filleted(0.002, facets), inner=True, below=0.001) == ()


@pytest.mark.parametrize("mesh", [ball(0.1, 4), torus(), hourglass(48)], ids=["ball", "torus", "waist"])
def test_round_bodies_have_no_inner_corner(mesh):
    assert edge_lines(mesh, inner=True, below=0.005) == ()


def test_round_bodies_have_no_outer_edge():
    assert edge_lines(ball(0.1, 4), inner=False, below=0.005) == ()


@pytest.mark.parametrize("degrees", [12.0, 38.0, 55.0])
def test_a_knife_edge_has_its_angle(degrees):
    lines = edge_lines(wedge(degrees), inner=False, below=1e-3)
    sharpest = min(lines, key=lambda line: line.angle)
    assert np.degrees(sharpest.angle) == pytest.approx(degrees, abs=1e-6)
    assert sharpest.length == pytest.approx(0.06, rel=1e-9)
    np.testing.assert_allclose(sharpest.place, [0.0, 0.03, 0.0], atol=1e-12)


def test_an_octagon_is_round_and_a_square_recess_is_not():
    outer, depth = 0.1, 0.02
    for sides, sharp in ((4, True), (8, False)):
        cup = [[0.0, 0.0], [outer, 0.0], [outer, 0.06], [0.05, 0.06], [0.05, depth], [0.0, depth]]
        upright = [
            line
            for line in edge_lines(revolve(cup, sides), inner=True, below=0.005)
            if np.ptp(line.ends[..., 2]) > 0.01
        ]
        assert bool(upright) is sharp


@given(seed=st.integers(0, 10_000), scale=st.floats(0.1, 10.0))
@settings(max_examples=15, deadline=None)
def test_lines_turn_and_grow_with_the_body(seed, scale):
    body = filleted(0.001, 4, 24)
    (line,) = edge_lines(body, inner=True, below=0.005)
    other = turned(Mesh(scale * body.vertices, body.faces), seed)
    (same,) = edge_lines(other, inner=True, below=0.005 * scale)
    assert same.radius == pytest.approx(scale * line.radius, rel=1e-6)
    assert same.length == pytest.approx(scale * line.length, rel=1e-6)
    assert same.turn == pytest.approx(line.turn, rel=1e-6)


def test_folds_of_a_closed_body_sum_to_its_mean_curvature():
    # integral of mean curvature, doubled; of a box pi (a + b + c), by Steiner's formula
    body = box([0.1, 0.2, 0.3])
    folds = edge_folds(body)
    start = body.faces.ravel()[folds.halves]
    end = np.roll(body.faces, -1, axis=1).ravel()[folds.halves]
    lengths = np.linalg.norm(body.vertices[end] - body.vertices[start], axis=1)
    assert -(folds.turns * lengths).sum() == pytest.approx(2 * np.pi * 0.6, rel=1e-12)


@pytest.mark.parametrize("half", [5.0, 15.0, 25.0])
def test_a_cone_comes_to_a_point_of_its_own_angle(half):
    body = cone(0.1 * np.tan(np.radians(half)), 0.0, 0.1, 128)
    found = spikes(body)
    assert np.degrees(found.angles) == pytest.approx([2 * half], rel=2e-3)
    np.testing.assert_allclose(found.places, [[0.0, 0.0, 0.1]], atol=1e-12)


def test_a_box_and_a_ball_have_no_point():
    assert spikes(box([0.1, 0.1, 0.1])).angles.size == 0
    assert spikes(ball(0.1, 3)).angles.size == 0
    # three right angles: 2 arccos(1 - 1/4)
    wide = spikes(box([0.1, 0.1, 0.1]), np.radians(90.0))
    assert np.degrees(wide.angles) == pytest.approx([np.degrees(2 * np.arccos(0.75))] * 8)


def test_the_walk_and_its_plain_twin():
    body = finned()
    folds = edge_folds(body)
    chosen = np.flatnonzero(folds.turns > np.radians(60.0))[:6]
    parts = (
        body.vertices,
        body.faces,
        folds.normals,
        folds.twins,
        folds.halves[chosen],
        folds.turns[chosen],
        1.0,
    )
    for one, other in zip(roundings(*parts), roundings.py_func(*parts), strict=True):
        np.testing.assert_allclose(one, other, rtol=1e-9, atol=1e-12)
