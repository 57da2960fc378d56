"""Undercut and stretch against closed forms, an equation solver, and turned copies."""

import manifold3d
import numpy as np
import pytest
import trimesh
from hypothesis import given, settings, strategies as st

from pourwright.geometry import (
    Mesh,
    box,
    closer_look,
    cone,
    freest_pull,
    half_sphere,
    joined,
    locked_faces,
    measure,
    neck_stretch,
    revolve,
    tunnels,
    undercut_over,
)
from tests.geometry.bodies import ball, hourglass, torus

UP = np.array([0.0, 0.0, 1.0])


def channel():
    """A block 3 x 4 x 2 with a groove 1 wide and 1.5 deep along y, open upward."""
    whole = manifold3d.Manifold.cube((3.0, 4.0, 2.0), True)
    raw = (whole - manifold3d.Manifold.cube((1.0, 4.0, 1.5), True).translate((0.0, 0.0, 0.25))).to_mesh64()
    return Mesh(np.asarray(raw.vert_properties)[:, :3], np.asarray(raw.tri_verts))


def leaning_block(degrees):
    shear = np.eye(4)
    shear[0, 2] = np.tan(np.radians(degrees))
    return box([0.2, 0.2, 0.4]).transformed(shear)


def test_nothing_convex_locks_a_mold_of_two_parts():
    for body in (ball(), box([0.1, 0.2, 0.3]), cone(0.1, 0.05, 0.2)):
        assert undercut_over(body).parted.max() == 0.0


def test_ring_comes_out_along_its_axis():
    assert undercut_over(torus(), [UP]).parted[0] == 0.0
    assert closer_look(torus(), undercut_over(torus())).directions[0] == pytest.approx(UP)


def test_ring_across_its_axis():
    """Where a line from the ring meets it again ahead: the torus's quartic less its root at the start."""
    major, minor = 0.2, 0.05
    angle = 2 * np.pi * (np.arange(240) + 0.5) / 240
    u, v = (each.ravel() for each in np.meshgrid(angle, angle))
    facing = np.cos(u) * np.cos(v)
    along = np.sign(facing) * (major + minor * np.cos(v)) * np.cos(u)
    size = (major + minor * np.cos(v)) ** 2 + (minor * np.sin(v)) ** 2 + major**2 - minor**2
    companion = np.zeros((u.size, 3, 3))
    companion[:, 1, 0] = companion[:, 2, 1] = 1.0
    companion[:, 0, 2] = -(4 * along * size - 8 * major**2 * along)
    companion[:, 1, 2] = -(4 * along**2 + 2 * size - 4 * major**2)
    companion[:, 2, 2] = -4 * along
    roots = np.linalg.eigvals(companion)
    hidden = ((np.abs(roots.imag) < 1e-7) & (roots.real > 1e-9)).any(axis=1)
    # what slides within a degree locks nothing
    locks = hidden & (np.abs(facing) > np.sin(np.radians(1.0)))
    weight = major + minor * np.cos(v)
    expected = (weight * locks).sum() / weight.sum()
    mesh = trimesh.creation.torus(major, minor, major_sections=256, minor_sections=128)
    found = undercut_over(Mesh(mesh.vertices, mesh.faces), [[1.0, 0.0, 0.0]], 400).parted[0]
    assert 0.1 < expected < 0.5
    assert found == pytest.approx(expected, abs=0.01)


def test_groove_locks_across_it_only():
    body = channel()
    shares = undercut_over(body, [[1, 0, 0], [0, 1, 0], [0, 0, 1]], 200).parted
    # the two flanks of the groove look at each other
    assert shares[0] == pytest.approx(2 * 1.5 * 4 / measure(body).area, rel=0.02)
    assert shares[1:].tolist() == [0.0, 0.0]
    locked = locked_faces(body, np.array([1.0, 0.0, 0.0]))
    areas = np.linalg.norm(body.area_vectors, axis=1)
    assert (locked * areas).sum() == pytest.approx(12.0, rel=0.02)


@settings(max_examples=15, deadline=None, derandomize=True)
@given(st.integers(0, 2**32 - 1))
def test_turning_the_body_turns_the_map(seed):
    rng = np.random.default_rng(seed)
    turn = trimesh.transformations.random_rotation_matrix(rng.random(3))
    ways = half_sphere(12)
    before = undercut_over(hourglass(), ways, 200).parted
    after = undercut_over(hourglass().transformed(turn), ways @ turn[:3, :3].T, 200).parted
    assert after == pytest.approx(before, abs=0.02)


def test_directions_cover_the_half_sphere_evenly():
    spread = half_sphere(200)
    assert np.linalg.norm(spread, axis=1) == pytest.approx(np.ones(200))
    # the mean of z*z over a half sphere is a third
    assert (spread[:, 2] ** 2).mean() == pytest.approx(1 / 3, abs=1e-3)
    nearest = np.sort(spread @ spread.T, axis=1)[:, -2]
    assert np.degrees(np.arccos(nearest)).max() < 12


@pytest.mark.parametrize(("waist", "share"), [(0.1, 0.0), (0.08, 0.25), (0.05, 1.0)])
def test_stretch_of_a_waist(waist, share):
    body = revolve([[0.1, 0.0], [0.1, 0.1], [waist, 0.1001], [waist, 0.2], [0.1, 0.2001], [0.1, 0.3]])
    found = neck_stretch(body, UP)
    assert found.share == pytest.approx(share, abs=1e-3)
    if share:
        assert found.neck_girth == pytest.approx(2 * np.pi * waist, rel=1e-3)
        assert 0.1 < found.neck_height < 0.2


def test_stretch_depends_on_the_way_out():
    """A tapered piece slides out of its wide end, and has to pass the narrow one the other way."""
    taper = cone(0.10, 0.05, 0.2)
    assert neck_stretch(taper, -UP).share == 0.0
    assert neck_stretch(taper, UP).share == pytest.approx(1.0, abs=0.03)


@pytest.mark.parametrize("degrees", [10, 25])
def test_leaning_block_is_pulled_along_its_lean(degrees):
    pull, freed = freest_pull(leaning_block(degrees), UP)
    assert np.degrees(np.arccos(pull @ UP)) == pytest.approx(degrees, abs=0.01)
    assert freed == 0.0
    assert freest_pull(box([0.2, 0.2, 0.4]), UP)[0].tolist() == UP.tolist()


def test_holes_right_through():
    assert [tunnels(body) for body in (ball(), torus(), hourglass(), channel())] == [0, 1, 0, 0]
    assert tunnels(joined([torus(), torus().moved([1, 0, 0]), ball()])) == 2
