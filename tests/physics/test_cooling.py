"""The cooling series against a plain march in time, and where it must start and end."""

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from pourwright.foundation.errors import UserError
from pourwright.physics.cooling import SHAPES, cooling, eigenvalues, one_term_coefficients
from pourwright.physics.half_space import half_space_convection, half_space_step

CURVATURE = {"wall": 0, "cylinder": 1, "sphere": 2}


def marched(shape, bi, times, cells=200):
    """Temperatures at the cell centers by finite volumes in x/L, integrated by scipy."""
    edges = np.linspace(0, 1, cells + 1)
    power = CURVATURE[shape]
    area = edges**power
    volume = np.diff(edges ** (power + 1)) / (power + 1)
    step = 1 / cells
    face = 1 / (1 / bi + step / 2)

    def slope(_, theta):
        flux = np.concatenate([[0.0], area[1:-1] * np.diff(theta) / step, [-area[-1] * face * theta[-1]]])
        return np.diff(flux) / volume

    path = solve_ivp(slope, (0, times[-1]), np.ones(cells), t_eval=times, method="BDF", rtol=1e-8, atol=1e-10)
    return (edges[1:] + edges[:-1]) / 2, path.y.T


@pytest.mark.parametrize("shape", sorted(SHAPES))
@pytest.mark.parametrize("bi", [0.3, 5.0])
def test_series_equals_a_march_in_time(shape, bi):
    times = np.array([0.05, 0.3, 1.0])
    place, expected = marched(shape, bi, times)
    found = cooling(np.repeat(times[:, None], place.size, 1), place, bi, shape)
    np.testing.assert_allclose(found, expected, rtol=0, atol=2e-4)


@pytest.mark.parametrize("shape", sorted(SHAPES))
def test_the_body_starts_uniform(shape):
    assert cooling(1e-3, 0.3, 1.0, shape) == pytest.approx(1.0, abs=1e-6)


def test_a_very_strong_film_holds_the_face():
    zeta, _ = one_term_coefficients(1e6, "wall")
    assert zeta == pytest.approx(np.pi / 2, rel=1e-5)


@pytest.mark.parametrize("shape", sorted(SHAPES))
def test_eigenvalues_rise_by_about_pi(shape):
    steps = np.diff(eigenvalues(2.0, shape, terms=60))
    assert np.all(steps > 0)
    assert steps[-1] == pytest.approx(np.pi, rel=1e-3)


def test_a_half_space_under_a_very_strong_film_is_one_whose_face_steps():
    depth = np.array([0.005, 0.02, 0.05])
    film = half_space_convection(depth, 3600.0, 1e7, 0.2, 1.1e-7)
    np.testing.assert_allclose(film, half_space_step(depth, 3600.0, 1.1e-7), atol=1e-5)


def test_an_early_wall_is_a_half_space():
    """Bi = 2 and Fo = 0.01 by h = 8, k = 0.2, L = 0.05 and 1e-7 m2/s: 250 s."""
    beneath = half_space_convection(0.005, 250.0, 8.0, 0.2, 1e-7)
    assert 1 - cooling(0.01, 0.9, 2.0, "wall") == pytest.approx(beneath, abs=1e-6)


def test_an_unknown_shape_names_those_that_exist():
    with pytest.raises(UserError, match="wall, cylinder, sphere"):
        eigenvalues(1.0, "cone")
