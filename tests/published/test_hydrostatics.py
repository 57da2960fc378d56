"""Push of a liquid, buoyancy, floating.

D01, D02: any fluid statics text, y_cp = y_c + I/(y_c A); closed forms; 1e-4.
D03, D04: Archimedes; closed forms; 1e-5 and 1e-6.
"""

import pytest

from pourwright.physics.hydrostatics import (
    floating_depth,
    hold_down_force,
    pressure_at_depth,
    thrust_on_wall,
)


def test_wall_of_a_full_box():
    # D01
    push = thrust_on_wall(0.0, 0.45, 0.6, 1100.0)
    assert push.force == pytest.approx(655.329, rel=1e-4)
    assert push.depth == pytest.approx(0.3, rel=1e-4)
    assert pressure_at_depth(0.45, 1100.0) == pytest.approx(4854.29, rel=1e-4)


def test_gate_wholly_below_the_surface():
    # D02
    push = thrust_on_wall(1.0, 2.0, 1.5, 1000.0)
    assert push.force == pytest.approx(58839.9, rel=1e-4)
    assert push.depth == pytest.approx(2.16667, rel=1e-4)


def test_hold_down_of_a_drowned_core():
    # D03
    assert hold_down_force(0.012, 1870.0, 35.0) == pytest.approx(215.942, rel=1e-5)


def test_floating_depth():
    # D04
    assert floating_depth(0.1, 600.0, 1100.0) == pytest.approx(0.0545455, rel=1e-6)
    assert floating_depth(0.1, 1200.0, 1100.0) == 0.1
