"""Damp air and flowing resin: values from tables, and limits.

Vapour pressure of water: steam tables (IAPWS), 2339 Pa at 20 degC and 7384 Pa at 40 degC, from memory;
the Magnus form claims 0.5 %.
"""

import numpy as np
import pytest

from pourwright.physics.diffusion import rabinowitch_rate, wlf_diffusion_rate
from pourwright.physics.humidity import dew_point, saturation_pressure
from pourwright.physics.viscosity import arrhenius_viscosity


@pytest.mark.parametrize(("celsius", "pascal"), [(20.0, 2339.0), (40.0, 7384.0)])
def test_saturation_pressure(celsius, pascal):
    assert saturation_pressure(celsius + 273.15) == pytest.approx(pascal, rel=5e-3)


def test_at_the_dew_point_the_air_is_full():
    temperature, humidity = np.linspace(278.15, 308.15, 7), 0.65
    dew = dew_point(temperature, humidity)
    np.testing.assert_allclose(
        saturation_pressure(dew), humidity * saturation_pressure(temperature), rtol=1e-12
    )
    np.testing.assert_allclose(dew_point(temperature, 1.0), temperature, rtol=1e-14)


def test_viscosity_at_its_reference_and_its_slope():
    assert arrhenius_viscosity(298.15, 0.6, 50e3) == 0.6
    slope = (arrhenius_viscosity(298.16, 0.6, 50e3) - arrhenius_viscosity(298.14, 0.6, 50e3)) / 0.02
    assert slope == pytest.approx(-0.6 * 50e3 / (8.314462618 * 298.15**2), rel=1e-6)


def test_diffusion_is_as_much_slower_below_the_transition_as_faster_above():
    faster, slower = (wlf_diffusion_rate(320.0 + step, 320.0, 1e-3) for step in (7.0, -7.0))
    assert faster * slower == pytest.approx(1e-6, rel=1e-12)


def test_the_slower_of_two_steps_in_series_rules():
    assert rabinowitch_rate(1e-3, 1e6) == pytest.approx(1e-3, rel=1e-8)
    assert rabinowitch_rate(1e-3, 1e-9) == pytest.approx(1e-9, rel=1e-5)
