"""Air, natural convection and radiation.

A20: CoolProp 8.0.0 (Lemmon et al. 2000; Lemmon & Jacobsen 2004), computed by that library; 1 %,
density 0.3 %.
A21, A22: Churchill & Chu, Int. J. Heat Mass Transfer 18 (1975) 1323, the form for every Ra;
computed with an open heat-transfer library (ht 1.2.0) and CoolProp's air; 1 %.
A23, A24: McAdams, Heat Transmission, 1954; Incropera eq. 9.30 to 9.32; computed with ht 1.2.0; 2 %.
A26: Incropera eq. 1.9 with sigma of CODATA 2018, closed form; 1e-3.
"""

import pytest

from pourwright.physics import air
from pourwright.physics.convection import (
    churchill_chu_vertical,
    film_coefficient,
    mcadams_hot_side_down,
    mcadams_hot_side_up,
    rayleigh,
)
from pourwright.physics.radiation import radiation_coefficient, radiation_coefficient_linear

HOT, COLD, PRANDTL = 313.15, 293.15, 0.706669


@pytest.mark.parametrize(
    ("found", "expected", "tolerance"),
    [
        pytest.param(air.air_conductivity(303.15), 0.026618, 0.01, id="conductivity"),
        pytest.param(air.air_viscosity(303.15), 1.86888e-5, 0.01, id="viscosity"),
        pytest.param(air.air_density(303.15), 1.16473, 0.003, id="density"),
        pytest.param(air.SPECIFIC_HEAT_CAPACITY, 1006.49, 0.01, id="heat capacity"),
        pytest.param(air.air_prandtl(303.15), PRANDTL, 0.01, id="Prandtl"),
        pytest.param(air.air_kinematic_viscosity(303.15), 1.60455e-5, 0.01, id="kinematic viscosity"),
    ],
)
def test_air(found, expected, tolerance):
    # A20
    assert found == pytest.approx(expected, rel=tolerance)


@pytest.mark.parametrize(
    ("height", "ra", "nusselt", "film"),
    [
        pytest.param(0.3, 47947200.0, 49.0887, 4.35548, id="A21"),
        pytest.param(0.05, 221978.0, 11.2126, 5.96913, id="A22"),
    ],
)
def test_vertical_plate(height, ra, nusselt, film):
    assert churchill_chu_vertical(ra, PRANDTL) == pytest.approx(nusselt, rel=0.01)
    assert film_coefficient(HOT, COLD, height, "upright") == pytest.approx(film, rel=0.01)


@pytest.mark.parametrize(
    ("model", "face", "nusselt", "film"),
    [
        pytest.param(mcadams_hot_side_up, "facing up", 19.7126, 5.2471, id="A23"),
        pytest.param(mcadams_hot_side_down, "facing down", 9.8563, 2.62355, id="A24"),
    ],
)
def test_level_plate(model, face, nusselt, film):
    # plate 0.3 m by 0.6 m: area over perimeter 0.1 m, Ra 1775820
    assert model(1775820.0) == pytest.approx(nusselt, rel=0.02)
    assert film_coefficient(HOT, COLD, 0.1, face) == pytest.approx(film, rel=0.02)


def test_a_cold_face_behaves_like_a_warm_one_that_looks_the_other_way():
    # A24 mirrored; the film temperature, and so the air, is the same
    assert film_coefficient(COLD, HOT, 0.1, "facing up") == pytest.approx(2.62355, rel=0.02)


def test_rayleigh_number():
    # A21's own number, which CoolProp's air gave; nu enters squared, hence 2 %
    assert rayleigh(HOT, COLD, 0.3) == pytest.approx(47947200.0, rel=0.02)


def test_radiation_exact_and_linear():
    # A26
    assert radiation_coefficient(HOT, COLD, 0.9) == pytest.approx(5.69324, rel=1e-3)
    assert radiation_coefficient_linear(303.15, 0.9) == pytest.approx(5.68705, rel=1e-3)
