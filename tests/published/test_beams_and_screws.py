"""Beams, straps, screws, fresh concrete, units.

D05: Euler-Eytelwein, closed form, 1e-5. D25, D26: AISC beam tables and Roark Table 8.1, closed forms,
0.1 % and 1e-5. D31, D32: Wood Handbook GTR-190/282 chapter 8, formulas from memory, constants checked
by converting them from inches and pounds; 0.1 % and 0.2 %. D33: ACI 347-04 / 347R-14 eq. 2.2, from
memory; 0.1 %. D34: NIST SP 811, 1e-5.
"""

import math

import pint
import pytest

from pourwright.foundation.notation import parse_quantity
from pourwright.foundation.quantities import Dimension
from pourwright.physics.beams import (
    evenly_growing,
    evenly_loaded,
    loaded_in_the_middle,
    second_moment,
)
from pourwright.physics.capstan import capstan_ratio
from pourwright.physics.fresh_concrete import lateral_pressure, placed_slowly
from pourwright.physics.screws import (
    EDGE,
    FACE,
    sideways_in_wood,
    withdrawal_from_board,
    withdrawal_from_wood,
)

INCH, POUND_FORCE = 25.4, 4.4482216152605


def test_band_around_a_post() -> None:
    # D05
    assert capstan_ratio(0.3, math.radians(180.0)) == pytest.approx(2.56633, rel=1e-5)


def test_beam_on_two_supports() -> None:
    # D25
    even, growing = evenly_loaded(1.0, 1.0, 1.0), evenly_growing(1.0, 1.0, 1.0)
    assert even.deflection == pytest.approx(0.0130208, rel=1e-3)
    assert even.moment == pytest.approx(0.125, rel=1e-3)
    assert growing.deflection == pytest.approx(0.00652, rel=1e-3)
    assert growing.deflection_at == pytest.approx(0.5193, rel=1e-3)
    assert growing.moment == pytest.approx(0.06415, rel=1e-3)
    assert growing.moment_at == pytest.approx(0.57735, rel=1e-3)


def test_cantilever_and_clamped_beam() -> None:
    # D26
    assert evenly_loaded(1.0, 1.0, 1.0, "cantilever").deflection == pytest.approx(0.125, rel=1e-5)
    clamped = evenly_loaded(1.0, 1.0, 1.0, "clamped")
    assert clamped.deflection == pytest.approx(0.00260417, rel=1e-5)
    assert clamped.moment == pytest.approx(0.0833333, rel=1e-5)


def test_beam_with_a_load_in_its_middle() -> None:
    """Roark Table 8.1: F L^3 / (48 EI), F L / 4."""
    bent = loaded_in_the_middle(300.0, 0.8, 210e9 * second_moment(0.02, 0.03))
    assert bent.deflection == pytest.approx(300 * 0.8**3 / (48 * 210e9 * 0.02 * 0.03**3 / 12), rel=1e-12)
    assert bent.moment == pytest.approx(60.0, rel=1e-12)


def test_screw_in_wood() -> None:
    # D31: 15,700 G^2 D L in inches and pounds
    assert withdrawal_from_wood(0.5, 0.0042, 0.025) == pytest.approx(2841.56, rel=1e-3)
    pounds = 15700 * 0.5**2 * (4.2 / INCH) * (25.0 / INCH)
    assert withdrawal_from_wood(0.5, 0.0042, 0.025) == pytest.approx(pounds * POUND_FORCE, rel=1e-3)


def test_screw_in_board() -> None:
    # D32: 2,655 and 2,055 in inches and pounds
    assert withdrawal_from_board(0.7, 0.0042, 0.014) == pytest.approx(979.774, rel=2e-3)
    assert withdrawal_from_board(0.7, 0.0042, 0.014, edge=True) == pytest.approx(758.073, rel=2e-3)
    for ours, inches in ((FACE, 2655.0), (EDGE, 2055.0)):
        assert ours == pytest.approx(inches * POUND_FORCE / INCH**1.75, rel=2e-3)


def test_screw_sideways() -> None:
    """Hicks 2002, table 6.2: p = C D^2 with C from 2,520 to 4,800 in inches and pounds; 0.3 %."""
    for ours, inches in ((17.4, 2520.0), (22.3, 3240.0), (27.3, 3960.0), (33.1, 4800.0)):
        pounds = inches * (4.2 / INCH) ** 2
        assert sideways_in_wood(0.0042, ours) == pytest.approx(pounds * POUND_FORCE, rel=3e-3)


def test_concrete_in_a_form() -> None:
    # D33
    for rate, raw, governing in ((1.0, 27.9672, 30.0), (2.0, 48.7344, 48.7344)):
        slow = placed_slowly(rate / 3600, 293.15)
        assert slow == pytest.approx(raw * 1e3, rel=1e-3)
        assert lateral_pressure(2300.0, 4.0, slow) == pytest.approx(governing * 1e3, rel=1e-3)
        assert lateral_pressure(2300.0, 0.5, slow) == pytest.approx(11277.6, rel=1e-3)


@pytest.mark.parametrize(
    ("text", "kind", "pinted", "value"),
    [
        ("70 lb/ft3", Dimension.DENSITY, "lb/ft**3", 1121.29),
        ("1000 psi", Dimension.PRESSURE, "psi", 6.89476e6),
        ("1 fl oz", Dimension.VOLUME, "fluid_ounce", 29.5735e-6),
        ("1 gallon", Dimension.VOLUME, "gallon", 3.78541e-3),
    ],
)
def test_units(text: str, kind: Dimension, pinted: str, value: float) -> None:
    # D34
    units = pint.UnitRegistry()
    amount = float(text.split(maxsplit=1)[0])
    assert parse_quantity(text, kind).si == pytest.approx(value, rel=1e-5)
    assert units.Quantity(amount, pinted).to_base_units().magnitude == pytest.approx(value, rel=1e-5)
