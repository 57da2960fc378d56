"""Blends by weight and volume, and the resin for a weighed charge of grains.

E01: ideal mixing; E02 to E04: closed forms; 1e-5.
"""

import pytest

from pourwright.foundation.errors import UserError
from pourwright.physics.mixing import blend_density, parts_by_volume, volume_fraction
from pourwright.physics.packing import grain_charge


def test_density_of_a_blend():
    # E01
    assert blend_density([100.0, 30.0], [1150.0, 950.0]) == pytest.approx(1096.72, rel=1e-5)


def test_parts_by_volume():
    # E02
    found = parts_by_volume([100.0, 30.0], [1150.0, 950.0])
    assert found == pytest.approx((100.0, 36.3158), rel=1e-5)


def test_volume_fraction_from_mass_fraction():
    # E03
    assert volume_fraction(0.7, 2500.0, 1100.0) == pytest.approx(0.506579, rel=1e-5)


def test_resin_for_a_weighed_charge_of_grains():
    # E04: 10 litres of mold
    charge = grain_charge(0.010, 1350.0, 2500.0, 1100.0)
    assert charge.grain_mass == pytest.approx(13.5, rel=1e-5)
    assert 1000 * charge.void_volume == pytest.approx(4.6, rel=1e-5)
    assert charge.resin_mass == pytest.approx(5.06, rel=1e-5)
    assert charge.density == pytest.approx(1856.0, rel=1e-5)


@pytest.mark.parametrize(
    ("parts", "densities"), [([], []), ([100.0], [1100.0, 950.0]), ([100.0, 0.0], [1100.0, 950.0])]
)
def test_parts_that_do_not_fit_are_refused(parts, densities):
    with pytest.raises(UserError, match="one density for each part"):
        blend_density(parts, densities)
