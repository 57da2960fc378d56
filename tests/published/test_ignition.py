"""Critical conditions for run-away.

A27 to A29: Frank-Kamenetskii, Diffusion and Heat Transfer in Chemical Kinetics (1969), which
prints 0.88, 2.00 and 3.32 (from memory); recomputed by shooting with scipy; 1e-3.
A30: Semenov 1928; closed form 1/e; 1e-4. The books were not before us.
"""

import numpy as np
import pytest

from pourwright.physics.ignition import frank_kamenetskii_critical, semenov_balance, semenov_number


@pytest.mark.parametrize(
    ("shape", "delta", "theta"),
    [
        pytest.param("slab", 0.878458, 1.1868, id="A27"),
        pytest.param("cylinder", 2.0, 1.3863, id="A28"),
        pytest.param("sphere", 3.32199, 1.6075, id="A29"),
    ],
)
def test_frank_kamenetskii(shape, delta, theta):
    found = frank_kamenetskii_critical(shape)
    assert (found.delta, found.theta) == pytest.approx((delta, theta), abs=1e-3)


def test_closed_forms_of_slab_and_cylinder():
    """Slab: delta = 2 b^2/cosh^2 b, theta = 2 ln cosh b at b tanh b = 1. Cylinder: 2 and 2 ln 2."""
    b = 1.199678640257734  # root of b tanh b = 1, a known constant
    slab, cylinder = frank_kamenetskii_critical("slab"), frank_kamenetskii_critical("cylinder")
    assert slab.delta == pytest.approx(2 * b**2 / np.cosh(b) ** 2, rel=1e-7)
    assert slab.theta == pytest.approx(2 * np.log(np.cosh(b)), rel=1e-7)
    assert (cylinder.delta, cylinder.theta) == pytest.approx((2, 2 * np.log(2)), rel=1e-7)


def test_semenov_criterion():
    # A30: psi_c 0.367879 at theta_c 1.0
    theta = np.linspace(0.0, 3.0, 30001)
    psi = semenov_balance(theta)
    assert psi.max() == pytest.approx(0.367879, abs=1e-4)
    assert theta[psi.argmax()] == pytest.approx(1.0, abs=1e-4)


def test_semenov_number_is_what_the_balance_speaks_of():
    """q E/(h S R Ta^2), reckoned by hand: 3 W, 55 kJ/mol, 0.6 W/K, 296.15 K."""
    expected = 3.0 * 55e3 / (0.6 * 8.314462618 * 296.15**2)
    assert semenov_number(296.15, 3.0, 55e3, 10.0, 0.06) == pytest.approx(expected, rel=1e-12)
