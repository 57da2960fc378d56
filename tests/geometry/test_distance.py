import numpy as np
import pytest
import trimesh
from trimesh.triangles import closest_point

from pourwright.foundation.checks import RangeError
from pourwright.geometry import Grid, box, cone, distance_grid, measure, offset_bounds, offset_volume
from tests.geometry.bodies import ball, hourglass, torus, turned


def lattice(mesh, count, beyond=0.05):
    return Grid(*(np.linspace(low - beyond, high + beyond, count + 1) for low, high in mesh.bounds.T))


def distance_to_box(grid, half):
    points = np.stack(np.meshgrid(*grid.centers, indexing="ij"), axis=-1)
    off = np.abs(points) - half
    return np.linalg.norm(np.maximum(off, 0), axis=-1) + np.minimum(off.max(axis=-1), 0)


def test_distance_to_a_box():
    mesh = box([0.2, 0.3, 0.4]).moved([0, 0, -0.2])
    grid = lattice(mesh, 17)
    expected = distance_to_box(grid, np.array([0.1, 0.15, 0.2]))
    assert distance_grid(mesh, grid) == pytest.approx(expected, abs=1e-12)
    assert distance_grid(mesh, grid, 0.03) == pytest.approx(np.clip(expected, -0.03, 0.03), abs=1e-12)


def enclosed(triangles, point):
    """Solid angle of all triangles over 4 pi: Van Oosterom and Strackee (1983)."""
    a, b, c = (triangles - point).transpose(1, 0, 2)
    la, lb, lc = (np.linalg.norm(v, axis=1) for v in (a, b, c))
    over = np.einsum("ij,ij->i", a, np.cross(b, c))
    ab, bc, ca = (np.einsum("ij,ij->i", u, v) for u, v in ((a, b), (b, c), (c, a)))
    return np.arctan2(over, la * lb * lc + ab * lc + bc * la + ca * lb).sum() / (2 * np.pi)


def test_distance_against_an_independent_search():
    """Compare with trimesh's nearest points and with the solid angle on a turned body."""
    mesh = turned(hourglass(24), 6)
    triangles = mesh.triangles
    grid = lattice(mesh, 5)
    points = np.stack(np.meshgrid(*grid.centers, indexing="ij"), axis=-1).reshape(-1, 3)
    found = distance_grid(mesh, grid).ravel()
    for point, distance in zip(points, found, strict=True):
        nearest = closest_point(triangles, np.broadcast_to(point, (len(triangles), 3)))
        assert abs(distance) == pytest.approx(np.linalg.norm(nearest - point, axis=1).min(), abs=1e-12)
        assert enclosed(triangles, point) == pytest.approx(float(distance < 0), abs=1e-9)


def test_distance_of_a_torus():
    mesh = torus(0.2, 0.05)
    grid = lattice(mesh, 12)
    x, y, z = np.meshgrid(*grid.centers, indexing="ij")
    expected = np.hypot(np.hypot(x, y) - 0.2, z) - 0.05
    sagitta = 0.2 * (1 - np.cos(np.pi / 64)) + 0.05 * (1 - np.cos(np.pi / 32))
    assert distance_grid(mesh, grid) == pytest.approx(expected, abs=1.1 * sagitta)


@pytest.mark.parametrize("mesh", [box([0.2, 0.2, 0.2]), cone(0.1, 0.1, 0.2, 96), ball(0.1, 4)])
def test_offset_of_convex_bodies(mesh):
    """Steiner's formula with the mean width summed over the edges of the faceted body itself."""
    grow = 0.02
    found = measure(mesh)
    expected = found.volume + found.area * grow + edge_curvature(mesh) * grow**2 + 4 / 3 * np.pi * grow**3
    assert offset_volume(mesh, grow) == pytest.approx(expected, rel=1.5e-3)


def edge_curvature(mesh):
    """Half the sum of edge length times outer angle."""
    other = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False)
    ends = mesh.vertices[other.face_adjacency_edges]
    return (np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1) * other.face_adjacency_angles).sum() / 2


def test_offset_converges_with_the_spacing():
    side, grow = 0.2, 0.02
    exact = side**3 + 6 * side**2 * grow + 3 * np.pi * side * grow**2 + 4 / 3 * np.pi * grow**3
    errors = [abs(offset_volume(box([side] * 3), grow, h) / exact - 1) for h in (8e-3, 4e-3, 2e-3)]
    assert errors[2] < errors[1] < errors[0]
    assert errors[2] < 3e-4


def test_offset_inward_and_none():
    mesh = box([0.2, 0.3, 0.4])
    assert offset_volume(mesh, -0.05) == pytest.approx(0.1 * 0.2 * 0.3, rel=1.5e-3)
    assert offset_volume(mesh, 0.0) == pytest.approx(0.024, rel=1.5e-3)
    assert offset_volume(mesh, -0.2) == 0.0


def test_offset_of_a_body_with_a_waist_stays_below_its_hull():
    mesh = hourglass()
    found = offset_volume(mesh, 0.015)
    lower, upper = offset_bounds(mesh, 0.015)
    assert measure(mesh).volume + 0.9 * measure(mesh).area * 0.015 < found < np.prod(upper - lower)


def test_spacing_must_be_positive():
    with pytest.raises(RangeError):
        offset_volume(box([1, 1, 1]), 0.1, 0.0)
