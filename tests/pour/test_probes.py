"""Values between the middles of cells, from cells of the casting alone."""

import numpy as np
import pytest

from pourwright.geometry import Grid
from pourwright.pour.probes import stencil, summit

GRID = Grid(np.linspace(-0.03, 0.03, 7), np.linspace(-0.02, 0.02, 7), [0.0, 0.004, 0.01, 0.02, 0.024, 0.03])
X, Y, Z = np.meshgrid(*GRID.centers, indexing="ij")
RUBBER = -1e6


def casting() -> np.ndarray:
    """A block that leaves a layer of cells all round to the rubber."""
    cells = np.zeros(GRID.shape, dtype=bool)
    cells[1:-1, 1:-1, 1:-1] = True
    return cells


@pytest.mark.parametrize(
    "place",
    [
        (0.0, 0.0, 0.012),
        (0.0031, -0.0042, 0.0155),
        (-0.02, 0.01, 0.024),
        (0.02, -0.01, 0.004),
        (0.019, 0.0, 0.0041),
    ],
)
def test_a_straight_field_is_read_exactly_and_nothing_comes_from_the_rubber(place):
    cells = casting()
    field = np.where(cells, 5.0 + 100.0 * X - 70.0 * Y + 300.0 * Z, RUBBER)
    read = stencil(GRID, cells, place)
    assert read is not None
    assert read.of(field) == pytest.approx(
        5.0 + 100.0 * place[0] - 70.0 * place[1] + 300.0 * place[2], abs=1e-9
    )


def test_inside_it_is_trilinear():
    cells = np.ones(GRID.shape, dtype=bool)
    read = stencil(GRID, cells, (0.001, 0.002, 0.012))
    assert read is not None
    assert read.of(X * Y * Z) == pytest.approx(0.001 * 0.002 * 0.012, rel=1e-9)


def test_in_a_corner_that_lacks_a_cell_it_is_still_straight():
    cells = casting()
    cells[3, 1, 3] = False
    field = np.where(cells, 5.0 + 100.0 * X - 70.0 * Y + 300.0 * Z, RUBBER)
    place = (-0.004, -0.004, 0.016)
    read = stencil(GRID, cells, place)
    assert read is not None
    assert read.of(field) == pytest.approx(5.0 - 0.4 + 0.28 + 4.8, abs=1e-9)


def test_far_from_the_casting_there_is_nothing_to_read():
    cells = np.zeros(GRID.shape, dtype=bool)
    cells[0, 0, 0] = True
    assert stencil(GRID, cells, (0.029, 0.019, 0.029)) is None


def test_the_summit_of_a_parabola_is_found_between_cells():
    cells = casting()
    field = 80.0 - 4e4 * (X - 0.002) ** 2 - 9e4 * (Y + 0.003) ** 2 - 5e4 * (Z - 0.0137) ** 2
    top, place = summit(GRID, cells, np.where(cells, field, RUBBER))
    assert top == pytest.approx(80.0, abs=1e-9)
    assert place == pytest.approx((0.002, -0.003, 0.0137), abs=1e-9)


def test_a_summit_at_the_face_stays_in_its_cell():
    cells = casting()
    top, place = summit(GRID, cells, np.where(cells, X + Z, RUBBER))
    assert (top, place[0], place[2]) == pytest.approx((0.015 + 0.022, 0.015, 0.022))
