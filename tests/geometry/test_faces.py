import numpy as np
import pytest

from pourwright.geometry import Grid, box, graded_axis, measure, split_surface, surface_areas
from tests.geometry.bodies import ball, hourglass, turned


def grid_around(mesh, spacing):
    return Grid(*(graded_axis([low - 0.01, high + 0.01], spacing) for low, high in mesh.bounds.T))


@pytest.mark.parametrize("mesh", [ball(), hourglass(), turned(hourglass(), 4)])
@pytest.mark.parametrize("spacing", [0.1, 0.017])
def test_total_is_the_surface(mesh, spacing):
    found = surface_areas(mesh, grid_around(mesh, spacing))
    assert found.area.sum() == pytest.approx(measure(mesh).area, rel=1e-11)
    assert found.vector.sum(axis=(0, 1, 2)) == pytest.approx(np.zeros(3), abs=1e-12)
    assert (np.linalg.norm(found.vector, axis=-1) <= found.area + 1e-15).all()


def test_faces_in_grid_planes_belong_to_the_body_side():
    mesh = box([0.2, 0.2, 0.2])
    grid = Grid([-0.2, -0.1, 0.0, 0.1, 0.2], [-0.2, -0.1, 0.1, 0.2], [-0.1, 0.0, 0.2, 0.3])
    found = surface_areas(mesh, grid)
    inside = found.area[1:3, 1, 1]
    assert inside == pytest.approx([0.12, 0.12], rel=1e-12)
    assert found.area.sum() == pytest.approx(0.24, rel=1e-12)


def test_upward_and_downward_shares_of_a_box():
    grid = Grid([-0.2, 0.2], [-0.2, 0.2], [-0.1, 0.1, 0.3])
    found = surface_areas(box([0.2, 0.2, 0.2]), grid)
    assert found.vector[0, 0, :, 2] == pytest.approx([-0.04, 0.04], rel=1e-12)


def test_one_cut_serves_both():
    mesh = ball()
    grid = grid_around(mesh, 0.02)
    pieces = split_surface(mesh, grid)
    assert (surface_areas(mesh, grid, pieces=pieces).area == surface_areas(mesh, grid).area).all()


def test_pieces_of_another_grid_are_refused():
    mesh = ball()
    pieces = split_surface(mesh, grid_around(mesh, 0.02))
    with pytest.raises(ValueError, match="another grid"):
        surface_areas(mesh, grid_around(mesh, 0.02), pieces=pieces)


def test_what_lies_outside_the_grid_is_left_out():
    grid = Grid([-1.0, 1.0], [-1.0, 1.0], [0.05, 0.1])
    assert surface_areas(box([0.2, 0.2, 0.2]), grid).area.item() == pytest.approx(0.8 * 0.05, rel=1e-12)
