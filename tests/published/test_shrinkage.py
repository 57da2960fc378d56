"""Cure shrinkage by length, and of a filled part.

B35: isotropic geometry, closed form; 1e-4. B36: volume rule, closed form; 1e-6.
"""

import numpy as np
import pytest

from pourwright.physics.shrinkage import filled_shrinkage, linear_shrinkage


def test_linear_from_volumetric():
    # B35, in per cent
    found = linear_shrinkage(np.array([0.02, 0.05, 0.06])) * 100
    np.testing.assert_allclose(found, [0.671161, 1.69524, 2.04139], rtol=1e-4)


def test_filled_part():
    # B36, in per cent
    assert filled_shrinkage(0.05, 0.55) * 100 == pytest.approx(2.25, rel=1e-6)
