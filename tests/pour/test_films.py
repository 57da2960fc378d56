"""Films looked up in tables against the equations they were made from."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from pourwright.physics.outside_film import outside_film
from pourwright.pour.cycle import Cycle
from pourwright.pour.films import tabulated_film

START = datetime(2027, 1, 4, 9, tzinfo=UTC)


@pytest.mark.parametrize("around", [293.15, 320.0, 353.15, 399.15])
@pytest.mark.parametrize("face", ["upright", "facing up", "facing down"])
def test_an_oven_radiates_by_its_temperature_of_the_moment(face, around):
    oven = Cycle(START, ZoneInfo("UTC"), (), (0.0, 3600.0), (293.15, 399.15))
    surface = around + np.array([-20.0, -3.0, 0.5, 5.0, 40.0])
    looked_up = tabulated_film(oven.typical, 0.2, face, 0.9)(surface, around)
    assert looked_up == pytest.approx(np.asarray(outside_film(surface, around, 0.2, face, 0.9)), rel=0.005)


def test_one_temperature_holds_everywhere():
    film, surface = tabulated_film(293.15, 0.2, "upright", 0.9), np.array([310.0])
    assert film(surface + 50.0, 343.15) == pytest.approx(film(surface, 293.15))
