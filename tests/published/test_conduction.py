"""Conduction of heat against textbook solutions: plane wall, cylinder, sphere, half space, slab.

A01 to A09: Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, Table 5.1; Heisler,
Trans. ASME 69 (1947) 227. Recomputed with scipy roots, equal to the printed four decimals as
remembered; the table has four decimals, hence 1e-4.
A10 to A12: Carslaw & Jaeger 1959, sec. 3.11. Recomputed with sixty terms.
A15, A16: Carslaw & Jaeger 1959, sec. 2.4 and 2.7; Incropera eq. 5.60. Recomputed with erfc.
A18: Incropera sec. 3.5.1, eq. 3.47 and 3.51. A19: Carslaw & Jaeger 1959, sec. 3.3. Closed forms.
The books were not before us.
"""

import numpy as np
import pytest

from pourwright.physics.conduction import biot, fourier, heated_slab_rise, sine_mode
from pourwright.physics.cooling import cooling, one_term_coefficients
from pourwright.physics.half_space import half_space_convection, half_space_step

ONE_TERM = [
    pytest.param("wall", 0.1, 0.3110528, 1.016094, id="A01"),
    pytest.param("cylinder", 0.1, 0.4416818, 1.024579, id="A02"),
    pytest.param("sphere", 0.1, 0.5422809, 1.029798, id="A03"),
    pytest.param("wall", 1.0, 0.8603336, 1.119132, id="A04"),
    pytest.param("cylinder", 1.0, 1.255784, 1.207092, id="A05"),
    pytest.param("sphere", 1.0, 1.570796, 1.27324, id="A06"),
    pytest.param("wall", 10.0, 1.42887, 1.261963, id="A07"),
    pytest.param("cylinder", 10.0, 2.179497, 1.567692, id="A08"),
    pytest.param("sphere", 10.0, 2.8363, 1.924909, id="A09"),
]


@pytest.mark.parametrize(("shape", "bi", "zeta", "weight"), ONE_TERM)
def test_one_term_coefficients(shape, bi, zeta, weight):
    assert one_term_coefficients(bi, shape) == pytest.approx((zeta, weight), abs=1e-4)


@pytest.mark.parametrize(
    ("fo", "place", "expected", "tolerance"),
    [
        pytest.param(0.5, 0.0, 0.772526, 1e-4, id="A10"),
        pytest.param(0.5, 1.0, 0.504522, 1e-4, id="A11"),
        pytest.param(0.05, 0.0, 0.999751, 5e-4, id="A12"),
    ],
)
def test_wall_full_series(fo, place, expected, tolerance):
    assert cooling(fo, place, 1.0, "wall") == pytest.approx(expected, abs=tolerance)


def test_one_term_is_not_enough_at_an_early_time():
    # A12 gives 1.07847 for the first term alone
    assert cooling(0.05, 0.0, 1.0, "wall", terms=1) == pytest.approx(1.07847, abs=1e-4)


def test_half_space_whose_surface_steps():
    # A15
    assert half_space_step(0.02, 3600.0, 1.1e-7) == pytest.approx(0.477289, abs=1e-4)


def test_half_space_warmed_by_the_air():
    # A16
    found = half_space_convection(np.array([0.0, 0.02]), 3600.0, 10.0, 0.2, 1.1e-7)
    np.testing.assert_allclose(found, [0.571043, 0.227153], rtol=0, atol=1e-4)


def test_slab_that_makes_heat():
    # A18: air at 20 degC; centre 41.9429 degC, surface 37.1429 degC
    rise = heated_slab_rise(np.array([0.0, 1.0]), 3000.0, 0.04, 0.5, 7.0)
    np.testing.assert_allclose(20.0 + rise, [41.9429, 37.1429], rtol=1e-3)


def test_sine_mode_decays():
    # A19
    assert sine_mode(0.5, 20000.0, 1e-7, 0.1) == pytest.approx(0.138911, abs=2e-4)


def test_biot_and_fourier_make_the_series_dimensional():
    """A10 again, by a wall of 80 mm with h = 5, k = 0.2: Bi = 1, and Fo = 0.5 after 8000 s."""
    bi, fo = biot(5.0, 0.04, 0.2), fourier(8000.0, 1e-7, 0.04)
    assert cooling(fo, 0.0, bi, "wall") == pytest.approx(0.772526, abs=1e-4)
