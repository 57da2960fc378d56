"""Glass transition by cure, its inverse, and the viscosity on the way to the gel point.

B30: DiBenedetto, J. Polym. Sci. B 25 (1987) 1949; Pascault & Williams, J. Polym. Sci. B 28 (1990)
85; parameters read in public code; closed form; 0.01 K. B31: the same, inverted; parameters made
for this project; scipy brentq; 1e-4. B32: Castro & Macosko, AIChE J. 28 (1982) 250; closed form;
A and B made for this project; 1e-4. B29: Lee, Loos & Springer, J. Compos. Mater. 16 (1982) 510; U and K
read in public code, mu_inf from memory; 1 %. The papers were not before us.
"""

import numpy as np
import pytest

from pourwright.physics.glass_transition import dibenedetto, dibenedetto_conversion
from pourwright.physics.prepreg_resin import lee_loos_springer_1982
from pourwright.physics.viscosity import castro_macosko, lee_loos_springer_viscosity

ZERO = 273.15


def test_glass_transition_by_cure():
    # B30
    found = dibenedetto(np.array([0.0, 0.5, 0.9, 1.0]), ZERO - 20, ZERO + 220, 0.5)
    np.testing.assert_allclose(found - ZERO, [-20.0, 60.0, 176.364, 220.0], rtol=0, atol=0.01)


def test_cure_at_which_the_resin_turns_to_glass():
    # B31
    found = dibenedetto_conversion(ZERO + 25, ZERO - 20, ZERO + 120, 0.4)
    assert found == pytest.approx(0.542169, abs=1e-4)
    assert dibenedetto(found, ZERO - 20, ZERO + 120, 0.4) == pytest.approx(ZERO + 25, abs=1e-9)


def test_viscosity_on_the_way_to_the_gel_point():
    # B32
    found = castro_macosko(np.array([0.0, 0.2, 0.4, 0.5]), np.full(4, 0.6), 0.577, 1.5, 1.0)
    np.testing.assert_allclose(found, [0.6, 1.237, 5.66547, 33.6916], rtol=1e-4)


def test_viscosity_is_infinite_from_the_gel_point_on():
    assert np.all(np.isinf(castro_macosko(np.array([0.577, 0.9]), np.full(2, 0.6), 0.577, 1.5, 1.0)))


def test_viscosity_of_a_prepreg_resin():
    # B29: 116 degC, fresh and a fifth cured
    found = lee_loos_springer_viscosity(ZERO + 116, np.array([0.0, 0.2]), *lee_loos_springer_1982().flow)
    np.testing.assert_allclose(found, [0.12215, 2.0493], rtol=0.01)
