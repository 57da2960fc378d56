"""Gel point of epoxy and amine.

B01 to B05: Flory 1941, Stockmayer 1943; Macosko & Miller 1976. Closed forms with equal reactivity
and no loops; 1e-4. The papers were not before us.
"""

import pytest

from pourwright.physics.gelation import gel_conversion, lowest_gelling_ratio


@pytest.mark.parametrize(
    ("amine", "ratio", "expected"),
    [
        pytest.param(4, 1.0, 0.57735, id="B01 diamine"),
        pytest.param(5, 1.0, 0.5, id="B02 diethylenetriamine"),
        pytest.param(6, 1.0, 0.447214, id="B03 triethylenetetramine"),
        pytest.param(4, 0.8, 0.645497, id="B04 off ratio"),
    ],
)
def test_gel_conversion(amine, ratio, expected):
    assert gel_conversion(ratio, 2, amine) == pytest.approx(expected, abs=1e-4)


def test_lowest_ratio_that_gels():
    # B05
    lowest = lowest_gelling_ratio(2, 4)
    assert lowest == pytest.approx(0.333333, abs=1e-4)
    assert gel_conversion(lowest, 2, 4) == pytest.approx(1.0, abs=1e-12)
