"""Every compiled loop against its plain Python twin on a small body."""

import numpy as np
import pytest

from pourwright.geometry import column_kernels, distance_kernels, level_kernels, split_kernels
from pourwright.geometry.distance import features_of
from pourwright.geometry.grid import Grid
from pourwright.geometry.thin.region_kernels import lasting
from tests.geometry.bodies import hourglass, turned

BODY = turned(hourglass(5), 2)
EDGES = [np.linspace(low - 0.01, high + 0.01, 5) for low, high in BODY.bounds.T]


def same(kernel, *arguments):
    compiled, plain = kernel(*arguments), kernel.py_func(*arguments)
    compiled, plain = (found if isinstance(found, tuple) else (found,) for found in (compiled, plain))
    for one, other in zip(compiled, plain, strict=True):
        assert one == pytest.approx(other, rel=1e-12, abs=1e-15)


def test_split():
    # arrays that may be written and edges that may not, as it is called: else it is compiled once more
    same(split_kernels.split_faces, BODY.vertices.copy(), BODY.faces, *Grid(*EDGES).axes)


def test_levels():
    same(level_kernels.volumes_below, BODY.vertices, BODY.faces, EDGES[2], 0.1)
    same(level_kernels.bin_faces, BODY.vertices, BODY.faces, EDGES[2], 0.0)


@pytest.mark.parametrize("z", [0.1, 0.35])
def test_share_below(z):
    same(level_kernels.share_below, 0.0, 0.2, 0.5, z)


def test_columns():
    same(column_kernels.crossings, BODY.vertices, BODY.faces, EDGES[0] + 0.01, EDGES[1] + 0.01)
    starts, heights, signs = column_kernels.crossings(BODY.vertices, BODY.faces, EDGES[0] + 0.01, EDGES[1])
    same(column_kernels.wrong_winding, starts, heights, signs, 1e-6)
    same(column_kernels.hidden_depths, starts, heights)


def test_regions():
    # seven places in a row: valleys of 1 and 2 with 4 between, and a ripple of 3 beside the 4
    sizes = np.array([3.0, 1.0, 4.0, 3.5, 4.0, 2.0, 3.0])
    near = np.array([[i, max(i - 1, 0), min(i + 1, 6)] for i in range(7)])
    given = (np.argsort(sizes, kind="stable"), sizes, near, np.ones(near.shape, dtype=bool), 4 / 3)
    same(lasting, *given)
    assert np.flatnonzero(lasting(*given)).tolist() == [1, 5]


def test_distances():
    found = features_of(BODY)
    arrays = (found.triangles, found.normals, found.spheres)
    same(distance_kernels.fill_distances, *arrays, *EDGES, np.inf)
    same(distance_kernels.volume_within, *arrays, BODY.bounds[0] - 0.05, 0.6, 0.15, 0.02)


def cut_cube(alpha, gradient, count=200):
    """Count the points of a fine lattice below the plane."""
    along = (np.arange(count) + 0.5) / count
    x, y, z = np.multiply.outer(np.abs(gradient) / np.abs(gradient).sum(), along)
    return (x[:, None, None] + y[:, None] + z <= alpha).mean()


@pytest.mark.parametrize("alpha", [-0.1, 0.04, 0.2, 0.37, 0.5, 0.8, 1.2])
@pytest.mark.parametrize("gradient", [[1.0, 2.0, -3.0], [0.9, 1.0, 1.1], [0.1, -0.2, 1.0], [0.01, 1.0, 0.9]])
def test_cube_cut_by_a_plane(alpha, gradient):
    found = distance_kernels.share_of_cube(alpha, np.array(gradient))
    assert found == pytest.approx(cut_cube(alpha, np.array(gradient)), abs=6e-3)


@pytest.mark.parametrize("gradient", [[0.0, 0.0, 1.0], [0.0, -1.0, 0.0]])
def test_cube_cut_along_its_faces(gradient):
    for alpha in (0.0, 0.25, 0.5, 0.9, 1.0):
        assert distance_kernels.share_of_cube(alpha, np.array(gradient)) == pytest.approx(alpha, abs=2e-5)
