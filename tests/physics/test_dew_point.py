"""Dew point against a general library of moist air (psychrolib, equations of the ASHRAE Handbook 2017).

Two independent fits of the vapour pressure over water: they agree within 0.05 K in a shop.
"""

import pytest

from pourwright.physics.humidity import dew_point, saturation_pressure
from tests.physics.moist_air import psychrolib

ZERO = 273.15


@pytest.mark.parametrize("humidity", [0.4, 0.5, 0.6, 0.7, 0.8, 0.85, 0.95])
@pytest.mark.parametrize("celsius", [14.0, 18.0, 20.0, 23.0, 28.0, 35.0, 45.0])
def test_dew_point(celsius, humidity):
    theirs = psychrolib.GetTDewPointFromRelHum(celsius, humidity)
    # below freezing the library turns to ice
    assert theirs > 0.0
    assert dew_point(celsius + ZERO, humidity) - ZERO == pytest.approx(theirs, abs=0.05)


@pytest.mark.parametrize("celsius", [1.0, 10.0, 20.0, 30.0, 45.0, 60.0])
def test_saturation_pressure(celsius):
    # the Magnus form claims half a per cent
    theirs = psychrolib.GetSatVapPres(celsius)
    assert saturation_pressure(celsius + ZERO) == pytest.approx(theirs, rel=5e-3)
