"""What tips a piece over, and what tests of furniture load it with.

I01: moments about the edge of a foot: 150 N at 0.18 m hold 27.0 N m; 600 N at 0.05 m beyond it and 20 N at
0.45 m tip with 39.0. I06: half a foot of 0.15 m under a centre of mass at 0.4 m leans by 20.556 degrees; both
closed form, rigid body. I02: scope of EN 1022:2018, people of up to 110 kg, read in a public extract. I03: EN
12520:2015 with EN 1728, 1300 N on a seat and 450 N against a back, ten times; I04: EN 12521:2015 with EN
1730, 1000 N down and 400 N level; both from memory, order of magnitude.
"""

import math

import pytest

from pourwright.app.pricing.loads import LOADS
from pourwright.foundation.sources import Kind
from pourwright.physics.standing import tilt_angle, tipping_moments


def test_moments_of_a_loaded_seat() -> None:
    # I01
    holds, tips = tipping_moments(150.0, 0.18, 600.0, 0.05, 20.0, 0.45)
    assert (holds, tips) == pytest.approx((27.0, 39.0), rel=1e-12)
    assert tips > holds


def test_tilt_before_it_tips() -> None:
    # I06
    assert math.degrees(tilt_angle(0.15, 0.4)) == pytest.approx(20.556, abs=1e-3)


def test_loads_of_seats_and_tables() -> None:
    # I02, I03, I04
    values = {name: load.value for name, load in LOADS.items()}
    assert values["grown_up"] == 110.0
    assert (values["seat"], values["back"], values["times"]) == (1300.0, 450.0, 10.0)
    assert (values["table"], values["table_sideways"]) == (1000.0, 400.0)
    # only the scope was read; what is from memory says so
    assert {name for name, load in LOADS.items() if load.kind is Kind.PUBLISHED} == {"grown_up"}
