"""Heat conduction, heat capacity and density of a resin filled with grains.

A31: Maxwell 1873; Eucken 1940; Hashin & Shtrikman, J. Appl. Phys. 33 (1962) 3125 (closed form).
A32: Hashin & Shtrikman 1962 (closed form). A33: Bruggeman, Ann. Phys. 416 (1935) 636; Landauer
1952 (root by scipy). A34: Bruggeman 1935 (root by scipy). A35: Nielsen, Ind. Eng. Chem. Fundam.
13 (1974) 17 (closed form, form from memory; exceeds the upper bound here: formula check only).
A36: Wiener 1912 (closed form). A37: mixture rule (closed form). All 1e-4.
The papers were not before us.
"""

import numpy as np
import pytest
from scipy.optimize import brentq

from pourwright.physics import composite, effective_medium
from pourwright.physics.effective_medium import CONDUCTIVITY_MODELS, effective_conductivity
from pourwright.physics.mixing import filled_heat_capacity, volume_average

MATRIX, PARTICLE, FRACTION = 0.2, 1.0, 0.55


@pytest.mark.parametrize(
    ("model", "expected"),
    [
        pytest.param(composite.maxwell_eucken, 0.475, id="A31 Maxwell-Eucken"),
        pytest.param(composite.hashin_shtrikman_lower, 0.475, id="A31 Hashin-Shtrikman lower"),
        pytest.param(composite.hashin_shtrikman_upper, 0.578125, id="A32"),
        pytest.param(effective_medium.bruggeman_symmetric, 0.543868, id="A33"),
        pytest.param(effective_medium.bruggeman_hanai, 0.508615, id="A34"),
        pytest.param(effective_medium.lewis_nielsen, 0.609162, id="A35"),
        pytest.param(composite.wiener_series, 0.357143, id="A36 series"),
        pytest.param(composite.geometric_mean, 0.484689, id="A36 geometric"),
        pytest.param(composite.wiener_parallel, 0.64, id="A36 parallel"),
    ],
)
def test_conductivity(model, expected):
    assert model(FRACTION, MATRIX, PARTICLE) == pytest.approx(expected, rel=1e-4)


@pytest.mark.parametrize("name", sorted(CONDUCTIVITY_MODELS))
@pytest.mark.parametrize(("matrix", "particle"), [(0.2, 1.0), (1.0, 0.2), (0.2, 200.0)])
def test_every_model_lies_between_series_and_parallel(name, matrix, particle):
    # A36's tolerance note; Wiener 1912
    fraction = np.linspace(0.0, 1.0, 21)
    found = effective_conductivity(fraction, matrix, particle, model=name)
    lowest = composite.wiener_series(fraction, matrix, particle)
    highest = composite.wiener_parallel(fraction, matrix, particle)
    slack = 1 + 1e-12
    assert np.all(lowest <= found * slack)
    assert np.all(found <= highest * slack)
    np.testing.assert_allclose(found[[0, -1]], [matrix, particle], rtol=1e-9)


def test_bruggeman_hanai_solves_its_equation_also_where_grains_conduct_less():
    def residual(k):
        return (0.05 - k) / (0.05 - 0.2) * (0.2 / k) ** (1 / 3) - (1 - 0.4)

    root = brentq(residual, 0.05, 0.2, xtol=1e-15)
    assert effective_medium.bruggeman_hanai(0.4, 0.2, 0.05) == pytest.approx(root, rel=1e-10)


def test_filled_resin_by_volume():
    # A37
    assert volume_average(FRACTION, 1100.0, 2500.0) == pytest.approx(1870.0, rel=1e-4)
    held = volume_average(FRACTION, 1100.0 * 1800.0, 2500.0 * 840.0)
    assert held == pytest.approx(2046000.0, rel=1e-4)
    found = filled_heat_capacity(FRACTION, 1100.0, 1800.0, 2500.0, 840.0)
    assert found == pytest.approx(1094.12, rel=1e-4)
