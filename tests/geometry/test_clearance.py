"""Cells that keep clear of a body, against closed forms and an independent distance."""

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st
from trimesh.triangles import closest_point

from pourwright.geometry import Grid, box
from pourwright.geometry.clearance import clear_cells
from tests.geometry.bodies import ball, hourglass, turned


def least_distance_to_box(grid, half):
    """Of each cell to a box around the origin [m]: along each axis what lies between their intervals."""
    gaps = []
    for axis, reach in zip(grid.axes, half, strict=True):
        low, high = axis[:-1], axis[1:]
        gaps.append(np.maximum(np.maximum(low - reach, -reach - high), 0.0))
    x, y, z = np.meshgrid(*gaps, indexing="ij")
    return np.sqrt(x**2 + y**2 + z**2)


@settings(max_examples=25, deadline=None)
@given(
    half=st.tuples(*[st.floats(0.02, 0.1)] * 3), least=st.floats(0.001, 0.05), count=st.integers(4, 9),
)  # fmt: skip
def test_a_box(half, least, count):
    grid = Grid(*(np.linspace(-0.17, 0.17, count + n) for n in range(3)))
    found = clear_cells(box([2 * side for side in half]).moved([0, 0, -half[2]]), grid, least)
    gap = least_distance_to_box(grid, half)
    assert not found[gap < least - 2e-6].any()
    # what is left undecided is a tenth of a millimetre deep
    assert found[gap > least + 1e-4].all()


def test_a_ball():
    mesh = ball(0.1, 4)
    grid = Grid(*[np.linspace(-0.2, 0.2, 21)] * 3)
    low, high = np.meshgrid(*[grid.x[:-1]] * 3, indexing="ij"), np.meshgrid(*[grid.x[1:]] * 3, indexing="ij")
    near = np.sqrt(sum(np.maximum(np.maximum(a, -b), 0.0) ** 2 for a, b in zip(low, high, strict=True)))
    # flat faces lie inside the ball by less than a quarter of a millimetre
    found = clear_cells(mesh, grid, 0.03)
    assert found[near > 0.13 + 1e-4].all()
    assert not found[near < 0.13 - 2.5e-4].any()
    assert found.any()
    assert not found.all()


@pytest.mark.parametrize("module", [0.018, 0.019, 0.012])
@pytest.mark.parametrize("layers", [1, 2, 3])
def test_room_that_is_a_whole_number_of_boards_is_not_lost(module, layers):
    """Wall and boards fill what lies between piece and panel to the last bit of a float."""
    wall, side = 0.02, 0.1
    reach = side / 2 + wall + layers * module
    lines = [-reach + module * np.arange(layers + 1), reach - module * np.arange(layers, -1, -1)]
    grid = Grid(np.concatenate(lines), np.linspace(-side / 2, side / 2, 6), np.linspace(0.0, side, 6))
    clear = clear_cells(box([side, side, side]), grid, wall)
    assert clear[:layers].all()
    assert clear[-layers:].all()
    assert not clear[layers].any()


def test_a_turned_body_against_the_nearest_points_of_another_library():
    mesh = turned(hourglass(24), 6)
    low, high = mesh.bounds
    grid = Grid(*(np.linspace(a - 0.06, b + 0.06, 8) for a, b in zip(low, high, strict=True)))
    found = clear_cells(mesh, grid, 0.02)
    shares = np.linspace(0.0, 1.0, 4)
    for cell in np.argwhere(found)[::7]:
        corner, opposite = (
            np.array([axis[n + step] for axis, n in zip(grid.axes, cell, strict=True)]) for step in (0, 1)
        )
        for share in np.stack(np.meshgrid(*[shares] * 3), axis=-1).reshape(-1, 3):
            place = corner + share * (opposite - corner)
            nearest = closest_point(mesh.triangles, np.broadcast_to(place, (len(mesh.faces), 3)))
            assert np.linalg.norm(nearest - place, axis=1).min() >= 0.02 - 1e-6
