"""A thinned surface stays closed, near and as large as it was; a refined one is the same body."""

import numpy as np
import pytest
import trimesh

from pourwright.geometry import Mesh, box, measure
from pourwright.geometry.ray_tree import surface_tree
from pourwright.geometry.shown import refined, thinned


@pytest.fixture(scope="module")
def ball() -> Mesh:
    made = trimesh.creation.icosphere(subdivisions=6, radius=0.1)
    return Mesh(made.vertices, made.faces)


def test_a_ball_of_82000_triangles_shown_with_8000(ball):
    few = thinned(ball, 8_000)
    assert 2_000 < len(few.mesh.faces) <= 8_000
    made = trimesh.Trimesh(few.mesh.vertices, few.mesh.faces, process=False)
    assert made.is_watertight
    assert made.is_winding_consistent
    # what is told of how far it is off holds, both ways, and bounds the volume: area times that
    away = surface_tree(ball).from_surface(few.mesh.triangles.mean(axis=1), 1.0)
    back = surface_tree(few.mesh).from_surface(ball.vertices, 1.0)
    assert max(np.abs(away).max(), np.abs(back).max()) <= few.off
    lost = measure(ball).volume - measure(few.mesh).volume
    assert 0 <= lost < few.off * 4 * np.pi * 0.1**2
    assert few.off < 0.003 * 0.2


def test_what_is_small_enough_is_shown_as_it_is(ball):
    assert thinned(ball, 100_000).mesh is ball
    assert thinned(ball, 100_000).off == 0.0


def test_corners_of_what_is_shown_are_corners_of_the_piece(ball):
    few = thinned(ball, 8_000).mesh
    used = few.vertices[np.unique(few.faces)]
    known = {tuple(np.round(point, 12)) for point in ball.vertices}
    assert all(tuple(np.round(point, 12)) in known for point in used)


def test_flat_sides_stay_flat_when_they_are_cut_finer():
    block = box([0.3, 0.2, 0.1])
    fine = refined(block, 0.02, 100_000)
    edges = np.linalg.norm(np.roll(fine.triangles, -1, axis=1) - fine.triangles, axis=2)
    assert edges.max() <= 0.02
    assert measure(fine).volume == pytest.approx(0.006)
    assert measure(fine).area == pytest.approx(0.22)
    assert len(refined(block, 0.001, 500).faces) < 1000


def test_neighbours_of_what_is_cut_finer_share_their_corners(ball):
    coarse = thinned(ball, 2_000).mesh
    fine = refined(coarse, 0.004, 100_000)
    made = trimesh.Trimesh(fine.vertices, fine.faces, process=True)
    assert made.is_watertight
    assert made.is_winding_consistent
    assert measure(fine).volume == pytest.approx(measure(coarse).volume)
