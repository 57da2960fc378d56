"""Plaster and concrete by mass and volume.

E05: stoichiometry with molar masses of the elements; 0.1 %. E06: mass and volume balance; 1e-4. E07: Kelley,
Southard & Anderson, US Bureau of Mines TP 625 (1941), as carried in Ullmann (not seen by us); 5 %. E08: US
Navy training course 14070, example of the absolute volume method after ACI 211.1, inch-pound; 0.5 %.
"""

import pytest

from pourwright.physics.concrete_mix import mix_by_absolute_volume
from pourwright.physics.plaster import (
    DIHYDRATE,
    HEMIHYDRATE,
    SETTING_HEAT,
    dry_density,
    slurry_density,
    water_to_set,
)

POUNDS_PER_CUBIC_YARD = 0.45359237 / 0.9144**3
POUNDS_PER_CUBIC_FOOT = 0.45359237 / 0.3048**3


def test_water_that_plaster_takes_up():
    # E05
    assert 100 * water_to_set() == pytest.approx(18.617, rel=1e-3)
    assert pytest.approx(118.62, rel=1e-3) == 100 * DIHYDRATE / HEMIHYDRATE


def test_slurry_and_dry_cast():
    # E06
    assert slurry_density(0.70, 2630.0) == pytest.approx(1573.74, rel=1e-4)
    assert dry_density(0.70, 2630.0) == pytest.approx(1098.08, rel=1e-4)


@pytest.mark.parametrize(("kind", "joules_per_mole"), [("beta", 19.3e3), ("alpha", 17.2e3)])
def test_heat_of_setting(kind, joules_per_mole):
    # E07
    assert SETTING_HEAT[kind].value == pytest.approx(joules_per_mole / (HEMIHYDRATE / 1000), rel=0.05)


def test_concrete_of_the_training_course():
    # E08
    mix = mix_by_absolute_volume(
        305 * POUNDS_PER_CUBIC_YARD,
        0.5,
        coarse_bulk=0.63,
        coarse_rodded=102 * POUNDS_PER_CUBIC_FOOT,
        air=0.05,
        cement_density=3.15 * 62.4 * POUNDS_PER_CUBIC_FOOT,
        coarse_density=2.6 * 62.4 * POUNDS_PER_CUBIC_FOOT,
        sand_density=2.65 * 62.4 * POUNDS_PER_CUBIC_FOOT,
        water_density=62.4 * POUNDS_PER_CUBIC_FOOT,
    )
    pounds = [mass / POUNDS_PER_CUBIC_YARD for mass in (mix.cement, mix.coarse, mix.sand)]
    assert pounds == pytest.approx([610.0, 1735.0, 1151.7], rel=0.005)
