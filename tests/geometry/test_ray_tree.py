"""Rays through the tree of boxes against the plain loop, nearest places against trimesh."""

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings, strategies as st

from pourwright.geometry import box
from pourwright.geometry.ray_kernels import first_hits
from pourwright.geometry.ray_tree import LEAF, surface_tree
from pourwright.geometry.tree_kernels import shrunk_balls, tree_hits, tree_nearest
from tests.geometry.bodies import ball, hourglass, torus, turned
from tests.geometry.thin_bodies import finned


@pytest.mark.parametrize("mesh", [torus(), finned(), hourglass(9)], ids=["torus", "finned", "hourglass"])
def test_the_tree_answers_as_the_loop_does_to_the_last_bit(mesh):
    rng = np.random.default_rng(3)
    starts = rng.uniform(*mesh.bounds, (400, 3))
    ways = rng.normal(size=(400, 3))
    # along the axes too, where a box is entered edge on
    ways[:60] = np.repeat(np.concatenate([np.eye(3), -np.eye(3)]), 10, axis=0)
    tree = surface_tree(mesh)
    distance, row = tree.hits(starts, ways, 1e-9)
    plain, face = first_hits(mesh.triangles, starts, ways, 1e-9)
    np.testing.assert_array_equal(distance, plain)
    met = np.isfinite(plain)
    assert met.sum() > 100
    np.testing.assert_array_equal(tree.faces[row[met]], face[met])


@given(seed=st.integers(0, 10_000))
@settings(max_examples=20, deadline=None)
def test_the_way_from_the_surface_is_the_shortest(seed):
    mesh = turned(box([0.2, 0.1, 0.05]), seed)
    points = np.random.default_rng(seed).uniform(-0.2, 0.2, (20, 3))
    ours = np.linalg.norm(surface_tree(mesh).from_surface(points, 10.0), axis=1)
    pairs = np.repeat(points, len(mesh.faces), axis=0)
    nearest = trimesh.triangles.closest_point(np.tile(mesh.triangles, (len(points), 1, 1)), pairs)
    theirs = np.linalg.norm(nearest - pairs, axis=1).reshape(len(points), -1).min(axis=1)
    np.testing.assert_allclose(ours, theirs, rtol=1e-9, atol=1e-12)


def test_nothing_farther_than_the_most_is_looked_for():
    off = surface_tree(box([0.2, 0.2, 0.2])).from_surface(np.array([[0.0, 0.0, 0.1], [0.0, 0.0, 0.19]]), 0.05)
    np.testing.assert_allclose(np.linalg.norm(off, axis=1), [0.05, 0.01], rtol=1e-12)


def test_a_single_triangle_and_one_without_area_are_no_trouble():
    mesh = box([0.2, 0.2, 0.2])
    tree = surface_tree(type(mesh)(mesh.vertices, np.concatenate([mesh.faces, [[0, 0, 1]]])))
    assert tree.hits(np.zeros((1, 3)) + 0.01, np.array([[0.0, 0.0, 1.0]]), 0.0)[0][0] == pytest.approx(0.19)
    alone = surface_tree(type(mesh)(mesh.vertices, mesh.faces[:1]))
    assert len(alone.triangles) == 1


def test_kernels_and_their_plain_twins():
    mesh = ball(0.1, 1)
    tree = surface_tree(mesh)
    places = tree.triangles.mean(axis=1)[:6]
    inward = -tree.normals[:6]
    parts = (tree.triangles, tree.faces, tree.boxes, LEAF, places, inward, 1e-9)
    for one, other in zip(tree_hits(*parts), tree_hits.py_func(*parts), strict=True):
        np.testing.assert_allclose(one, other, rtol=1e-12)
    near = (tree.triangles, tree.boxes, LEAF, places + 0.01, 0.05)
    np.testing.assert_allclose(tree_nearest(*near), tree_nearest.py_func(*near), rtol=1e-9, atol=1e-15)
    balls = (tree.triangles, tree.normals, tree.boxes, tree.cones, LEAF, places, inward, np.full(6, 0.1), 0.7)
    for one, other in zip(shrunk_balls(*balls), shrunk_balls.py_func(*balls), strict=True):
        np.testing.assert_allclose(one, other, rtol=1e-9)
