import numpy as np
import pytest

from pourwright.geometry import (
    Grid,
    box,
    cell_fractions,
    graded_axis,
    joined,
    level_volume,
    measure,
    split_surface,
)
from tests.geometry.bodies import ball, hourglass, torus, turned


def around(mesh, cells):
    lower, upper = mesh.bounds
    return Grid(
        *(np.linspace(a - 0.003, b + 0.007, n + 1) for a, b, n in zip(lower, upper, cells, strict=True))
    )


BODIES = {"torus": torus(), "hourglass": hourglass(), "turned": turned(hourglass(), 5), "ball": ball()}


@pytest.mark.parametrize("name", BODIES)
@pytest.mark.parametrize("cells", [(1, 1, 1), (7, 5, 9), (31, 32, 33)])
def test_volume_and_area_are_kept(name, cells):
    mesh = BODIES[name]
    grid = around(mesh, cells)
    fractions = cell_fractions(mesh, grid)
    assert (fractions * grid.cell_volumes).sum() == pytest.approx(measure(mesh).volume, rel=1e-11)
    areas = np.linalg.norm(split_surface(mesh, grid).area_vector, axis=1)
    assert areas.sum() == pytest.approx(measure(mesh).area, rel=1e-11)


@pytest.mark.parametrize("name", BODIES)
def test_every_layer_holds_what_the_level_curve_says(name):
    mesh = BODIES[name]
    grid = around(mesh, (13, 11, 17))
    layers = (cell_fractions(mesh, grid) * grid.cell_volumes).sum(axis=(0, 1))
    assert layers == pytest.approx(
        np.diff(level_volume(mesh).volume(grid.z)), abs=1e-12 * measure(mesh).volume
    )


@pytest.mark.parametrize("order", [(1, 2, 0), (2, 0, 1)])
def test_no_axis_is_special(order):
    mesh = turned(hourglass(), 8)
    grid = around(mesh, (9, 10, 11))
    turn = np.zeros((4, 4))
    turn[[0, 1, 2, 3], [*order, 3]] = 1.0
    other = Grid(*(grid.axes[axis] for axis in order))
    found = cell_fractions(mesh.transformed(turn), other)
    assert found == pytest.approx(np.transpose(cell_fractions(mesh, grid), order), abs=1e-11)


def test_faces_on_grid_planes_leave_cells_full_or_empty():
    mesh = box([0.3, 0.3, 0.3]).moved([0.1, 0.2, 0.7])
    axes = [graded_axis([low - 0.1, low, high, high + 0.1], 0.03) for low, high in mesh.bounds.T]
    grid = Grid(*axes)
    fractions = cell_fractions(mesh, grid)
    assert set(np.unique(fractions)) == {0.0, 1.0}
    assert (fractions * grid.cell_volumes).sum() == pytest.approx(0.027, rel=1e-12)


def test_nearly_on_a_grid_plane_counts_as_on_it():
    mesh = box([0.3, 0.3, 0.3])
    edges = np.linspace(-0.6, 0.6, 9) * (1 + 1e-15)
    assert set(np.unique(cell_fractions(mesh, Grid(edges, edges, np.linspace(0.0, 0.6, 5))))) == {0.0, 1.0}


def test_body_larger_than_the_grid():
    mesh = box([1.0, 1.0, 1.0])
    inside = Grid([-0.1, 0.0, 0.1], [-0.1, 0.1], [0.2, 0.3, 0.4])
    assert (cell_fractions(mesh, inside) == 1.0).all()
    above = Grid([-0.1, 0.1], [-0.1, 0.1], [0.9, 1.1, 1.3])
    assert cell_fractions(mesh, above).ravel() == pytest.approx([0.5, 0.0], abs=1e-12)
    beside = Grid([2.0, 3.0], [-0.1, 0.1], [0.9, 1.1, 1.3])
    assert (cell_fractions(mesh, beside) == 0.0).all()


def test_cavity_is_empty():
    mesh = joined([box([0.4, 0.4, 0.4]), ball(0.1, center=(0.0, 0.0, 0.2)).reversed()])
    edges = np.linspace(-0.2, 0.2, 41)
    fractions = cell_fractions(mesh, Grid(edges, edges, edges + 0.2))
    assert fractions[20, 20, 20] == 0.0
    assert fractions[0, 0, 0] == 1.0


def test_the_same_twice():
    mesh = turned(hourglass(), 1)
    grid = around(mesh, (20, 20, 20))
    assert (cell_fractions(mesh, grid) == cell_fractions(mesh, grid)).all()
