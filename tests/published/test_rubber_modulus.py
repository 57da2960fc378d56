"""Stiffness of rubber from its hardness.

E10: Gent, Rubber Chem. Technol. 31 (1958) 896, formula from memory, 1e-3 on the formula. E11: Qi, Joyce and
Boyce, Rubber Chem. Technol. 76 (2003) 419, log10 E = 0.0235 S - 0.6403, from memory, 1e-3.
"""

import pytest

from pourwright.physics.rubber_modulus import gent_modulus, qi_modulus


@pytest.mark.parametrize(
    ("hardness", "modulus"),
    [(10, 0.4127), (20, 0.7319), (30, 1.142), (40, 1.69), (50, 2.456), (60, 3.605)],
)
def test_gent(hardness: float, modulus: float) -> None:
    # E10
    assert gent_modulus(hardness) == pytest.approx(modulus * 1e6, rel=1e-3)


@pytest.mark.parametrize(("hardness", "modulus"), [(20, 0.6756), (30, 1.161), (50, 3.425)])
def test_second_relation(hardness: float, modulus: float) -> None:
    # E11
    assert qi_modulus(hardness) == pytest.approx(modulus * 1e6, rel=1e-3)
