"""The compiled cure law is the same law as the vectorised one."""

import numpy as np
import pytest

from pourwright.physics import cure_kernels
from pourwright.physics.cure import kamal_sourour_rate
from pourwright.physics.cure_law import CureLaw, cure_rate, stalled_conversion
from pourwright.physics.diffusion import chern_poehlein_factor, vitrification_factor
from pourwright.physics.glass_transition import dibenedetto

CHEMISTRY = (2.6e4, 5.8e4, 5.1e4, 5.4e4, 0.7, 1.6)
FREE = CureLaw(*CHEMISTRY)
HELD = CureLaw(*CHEMISTRY, 228.15, 325.15, 0.4, 10.0, 5.0)


@pytest.mark.parametrize("law", [FREE, HELD], ids=["chemistry", "with diffusion"])
@pytest.mark.parametrize("kernel", [cure_kernels.rate, cure_kernels.scalar_rate])
def test_kernel_equals_the_vectorised_law(law, kernel):
    temperature, conversion = np.meshgrid(np.linspace(255.0, 450.0, 14), np.linspace(0, 1, 21))
    one_by_one = [kernel(t, a, law.row) for t, a in zip(temperature.ravel(), conversion.ravel(), strict=True)]
    np.testing.assert_allclose(
        one_by_one, cure_rate(temperature, conversion, law).ravel(), rtol=1e-12, atol=0
    )


def test_kernel_holds_a_conversion_that_rounding_pushed_out():
    assert cure_kernels.rate(300.0, 1.0 + 1e-12, HELD.row) == 0.0
    assert cure_kernels.rate(300.0, -1e-12, HELD.row) == cure_kernels.rate(300.0, 0.0, HELD.row)


def test_a_very_narrow_transition_does_not_overflow():
    sharp = CureLaw(*CHEMISTRY, 228.15, 525.15, 0.4, 0.0, 0.1)
    assert 0.0 <= cure_kernels.rate(260.0, 0.99, sharp.row) < 1e-100
    assert 0.0 <= cure_rate(260.0, 0.99, sharp) < 1e-100


def test_half_of_the_chemical_rate_is_left_where_the_glass_is_the_offset_above():
    half = stalled_conversion(293.15, HELD)
    assert dibenedetto(half, 228.15, 325.15, 0.4) == pytest.approx(303.15, rel=1e-12)
    chemical = kamal_sourour_rate(293.15, half, *CHEMISTRY)
    assert cure_rate(293.15, half, HELD) == pytest.approx(chemical / 2, rel=1e-12)


def test_a_cold_shop_stalls_earlier():
    assert stalled_conversion(288.15, HELD) < stalled_conversion(293.15, HELD) < 1


def test_the_factor_in_kelvin_agrees_with_the_published_one_near_half_rate():
    half, width, step = stalled_conversion(293.15, HELD), 5.0, 1e-4
    climb = (dibenedetto(half + step, *HELD.glass) - dibenedetto(half - step, *HELD.glass)) / (2 * step)
    conversion = half + np.array([-0.01, 0.0, 0.01])
    in_kelvin = vitrification_factor(np.full(3, 293.15), dibenedetto(conversion, *HELD.glass), 10.0, width)
    published = chern_poehlein_factor(conversion, np.full(3, half), climb / width)
    np.testing.assert_allclose(in_kelvin, published, atol=0.01)
