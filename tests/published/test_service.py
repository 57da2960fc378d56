"""How warm a piece may get in use.

I07: keep it 10 K or more below its glass transition; for 55 degC that is 45 degC, so a cup of 70 degC is
too hot for it. Common practice, no source; a band: the tool's own limit is no higher.
"""

from pourwright.pour.defaults import DEFAULTS
from pourwright.pour.soft import Stall

ZERO = 273.15


def test_service_stays_below_the_glass_transition():
    # I07
    found = Stall(shop=45.0 + ZERO, cured=0.97, glass_transition=55.0 + ZERO, full=60.0 + ZERO)
    assert found.keep_below <= 45.0 + ZERO + 1e-9
    assert found.keep_below >= 35.0 + ZERO
    assert DEFAULTS["hot_cup"].value == 70.0 + ZERO
