"""Facts of the trade that the product's own families must agree with: common practice, no source.

T02, T03, T04 as bands or orderings; T01, T05, T06 stand in test_mold_and_fill.py.
"""

import pytest

from pourwright.pour.follow import Goal
from tests.pour.blocks import HOUR, block_site, celsius, one_pour

INCH = 0.0254
WIDTH = 12 * INCH


@pytest.fixture(scope="module")
def limit():
    return block_site(0.05, WIDTH).resin.peak_limit.value


def test_neat_depth_limit_of_the_slow_resin(limit):
    # T02: 2 to 3 in; the tool's own limit falls in 1.5 to 4 in, shop at 20 degC
    assert one_pour(block_site(1.5 * INCH, WIDTH), goal=Goal.PEAK).peak < limit
    assert one_pour(block_site(4.0 * INCH, WIDTH), goal=Goal.PEAK, stop_above=limit + 5).peak > limit


def test_filled_pour_stays_cool_where_a_neat_one_would_not(limit):
    # T03: about 9 in of glass that holds only about 3 in worth of resin: a resin share of 0.33
    depth = 9 * INCH
    filled = one_pour(block_site(depth, WIDTH, solid=1 - 0.33), goal=Goal.PEAK).peak
    neat = one_pour(block_site(depth, WIDTH), goal=Goal.PEAK, stop_above=limit + 30).peak
    assert filled < limit < neat
    assert celsius(neat) - celsius(filled) > 30


@pytest.mark.parametrize("degrees", [18.0, 20.0, 22.0])
def test_demold_time_of_a_thick_casting(degrees):
    # T04: 4 to 5 days; the tool's own time falls in 2 to 7 days
    ready = one_pour(block_site(4 * INCH, 8 * INCH, solid=0.55, degrees=degrees), goal=Goal.READY).ready
    assert 2 * 24 * HOUR < ready < 7 * 24 * HOUR
