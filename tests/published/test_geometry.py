"""Shapes against closed forms and a mesh nobody here made.

Expected digits are those printed beside each source; faceted bodies are compared at what their facets allow.
"""

import importlib.util
from pathlib import Path

import numpy as np
import pytest
import trimesh
from scipy.special import gamma

from pourwright.geometry import (
    Mesh,
    box,
    cone,
    find_faults,
    level_volume,
    measure,
    offset_volume,
    read_mesh,
    revolve,
)


def converged(make, quantity, coarse=128):
    """Extrapolate a quantity of a faceted body to the true one: the facets cost 1/n^2."""
    rough, fine = quantity(make(coarse)), quantity(make(2 * coarse))
    return fine + (fine - rough) / 3


def torus(segments):
    t = trimesh.creation.torus(0.2, 0.05, major_sections=2 * segments, minor_sections=segments)
    return Mesh(t.vertices, t.faces)


def test_solid_torus():
    """G01: standard closed forms, e.g. CRC Standard Mathematical Tables (from memory); R = 0.2, a = 0.05."""
    found = measure(torus(256))
    assert found.volume == pytest.approx(0.0098696, rel=1e-3)
    assert found.area == pytest.approx(0.394784, rel=1e-3)
    assert found.inertia[2, 2] / found.volume == pytest.approx(0.041875, rel=1e-3)
    assert found.inertia[0, 0] / found.volume == pytest.approx(0.0215625, rel=1e-3)


def test_solid_torus_in_the_limit_of_fine_facets():
    """G01: the closed forms to their printed digits."""
    assert converged(torus, lambda m: measure(m).volume) == pytest.approx(0.0098696, rel=1e-5)
    assert converged(torus, lambda m: measure(m).area) == pytest.approx(0.394784, rel=1e-5)


def cap(segments):
    """Revolve a cap of height 0.3 of the unit sphere, flat side down."""
    polar = np.linspace(np.arccos(0.7), 0.0, segments // 2)
    profile = np.stack([np.sin(polar), np.cos(polar) - 0.7], axis=1)
    profile[-1, 0] = 0.0
    return revolve(profile, segments)


def test_spherical_cap():
    """G02: Archimedes; R = 1, h = 0.3."""
    base_radius = 0.714143
    body = cap(1024)
    assert np.hypot(*body.vertices[0, :2]) == pytest.approx(base_radius, abs=1e-6)
    assert measure(body).volume == pytest.approx(0.254469, rel=2e-5)
    curved = body.area_vectors[np.abs(body.area_vectors[:, 2]) != -body.area_vectors[:, 2]]
    assert np.linalg.norm(curved, axis=1).sum() == pytest.approx(1.88496, rel=1e-5)


def test_spherical_cap_from_the_level_curve_of_a_ball():
    """G02: the same cap as what a ball holds up to 0.3 of its radius."""

    def held(segments):
        polar = np.linspace(np.pi, 0.0, 2 * segments)
        profile = np.stack([np.sin(polar), np.cos(polar)], axis=1)
        profile[[0, -1], 0] = 0.0
        return level_volume(revolve(profile, segments)).volume(-0.7)

    assert converged(held, float, 256) == pytest.approx(0.254469, rel=1e-5)


def test_truncated_cone():
    """G03: CRC tables (from memory); radii 0.3 and 0.2, height 0.4."""

    def make(segments):
        return cone(0.3, 0.2, 0.4, segments)

    def side(body):
        areas = body.area_vectors
        return np.linalg.norm(areas[np.hypot(areas[:, 0], areas[:, 1]) > 0], axis=1).sum()

    assert converged(make, lambda m: measure(m).volume) == pytest.approx(0.079587, rel=1e-5)
    assert converged(make, side) == pytest.approx(0.647656, rel=1e-5)
    assert converged(make, lambda m: measure(m).centroid[2]) == pytest.approx(0.173684, rel=1e-5)


def test_superellipse_section():
    """G05: Lame curve, exponent 4: area 4 Gamma(1+1/n)^2 / Gamma(1+2/n) = 3.70815, as a prism one high."""
    assert 4 * gamma(1.25) ** 2 / gamma(1.5) == pytest.approx(3.70815, abs=5e-6)

    def prism(segments):
        angle = 2 * np.pi * np.arange(segments) / segments
        root = np.sqrt(np.abs(np.stack([np.cos(angle), np.sin(angle)])))
        outline = (np.sign([np.cos(angle), np.sin(angle)]) * root).T
        solid = trimesh.creation.extrude_triangulation(outline, fan(segments), 1.0)
        return Mesh(solid.vertices, solid.faces)

    def fan(segments):
        return np.array([[0, k, k + 1] for k in range(1, segments - 1)])

    found = level_volume(prism(4096)).area(0.5)
    assert found == pytest.approx(3.70815, rel=2e-6)


def test_box_and_cylinder_inertia():
    """G06: standard closed forms at 1000 kg/m3."""
    block = measure(box([0.4, 0.3, 0.2]))
    assert 1000 * block.volume == pytest.approx(24.0, rel=1e-12)
    assert 1000 * block.inertia[2, 2] == pytest.approx(0.5, rel=1e-12)

    def cylinder(segments):
        return cone(0.1, 0.1, 0.4, segments)

    assert 1000 * converged(cylinder, lambda m: measure(m).volume) == pytest.approx(12.5664, rel=1e-5)
    assert 1000 * converged(cylinder, lambda m: measure(m).inertia[2, 2]) == pytest.approx(
        0.0628319, rel=1e-5
    )
    assert 1000 * converged(cylinder, lambda m: measure(m).inertia[0, 0]) == pytest.approx(0.198968, rel=1e-5)


def test_tetrahedron():
    """G07: divergence theorem; one sixth."""
    corner = Mesh([[0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1]], [[0, 2, 1], [0, 1, 3], [0, 3, 2], [1, 2, 3]])
    assert measure(corner).volume == pytest.approx(1 / 6, abs=1e-12)
    assert level_volume(corner).total == pytest.approx(1 / 6, abs=1e-12)


def nut_path():
    spec = importlib.util.find_spec("pyvista")
    assert spec is not None
    assert spec.origin is not None
    return Path(spec.origin).parent / "examples" / "nut.ply"


def test_icosphere():
    """G10: trimesh 5.2.0, icosphere(subdivisions=4): less volume than the ball."""
    t = trimesh.creation.icosphere(subdivisions=4)
    found = measure(Mesh(t.vertices, t.faces)).volume
    assert len(t.faces) == 5120
    assert found == pytest.approx(4.17974, rel=1e-5)
    assert found / (4 * np.pi / 3) == pytest.approx(0.997839, rel=1e-5)


def test_mesh_shipped_in_a_wheel():
    """G08: nut.ply of the pyvista 0.49.1 wheel (MIT); numbers by trimesh 5.2.0 and an independent sum."""
    mesh = read_mesh(nut_path(), "m")
    found = measure(mesh)
    assert (len(mesh.vertices), len(mesh.faces)) == (523, 1046)
    assert found.volume == pytest.approx(32171.322, rel=1e-5)
    assert found.area == pytest.approx(8977.6491, rel=1e-5)
    assert found.lower == pytest.approx([58.342369, -96.372681, -104.37987], rel=1e-6)
    assert found.upper == pytest.approx([104.37987, -67.442078, -58.342369], rel=1e-6)


def test_mesh_shipped_in_a_wheel_has_no_fault():
    """G08: the same file in millimetres is one closed body with a hole."""
    mesh = read_mesh(nut_path(), "mm")
    assert find_faults(mesh) == ()
    assert level_volume(mesh).total == pytest.approx(32171.322e-9, rel=1e-5)


def test_clearance_offset_of_a_cube():
    """G11: Steiner, V + S d + M d^2 + 4/3 pi d^3, M = 3 pi: 1.69844 for the unit cube and 0.1, at a fifth."""
    scale = 0.2
    found = offset_volume(box([scale] * 3), 0.1 * scale, 2e-3) / scale**3
    assert found == pytest.approx(1.69844, rel=1.5e-3)


def test_clearance_offset_of_a_cube_in_the_limit_of_fine_cubes():
    """G11: the closed form to its printed digits, the error falling with the square of the spacing."""
    rough, fine = (offset_volume(box([0.2] * 3), 0.02, h) / 0.008 for h in (2e-3, 1e-3))
    assert fine + (fine - rough) / 3 == pytest.approx(1.69844, rel=2e-5)
