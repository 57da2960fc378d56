"""Layers in a shallow pour and below it, on the wide cells that a search can afford."""

import pytest

from pourwright.planner.grids import layers_of
from pourwright.pour.follow import Goal, follow
from pourwright.pour.layout import lay_out
from pourwright.pour.stages import add_pour, empty_mold
from pourwright.solver import Control
from tests.pour.blocks import block_site

DEPTH = 0.009
SITE = block_site(DEPTH, 0.1, degrees=16.0, resin="epoxy-fast")
"""Neat resin on the edge of taking off: what the grid misses in the cold grows as it warms."""


def peak(spacing, *, layers=()):
    stage = add_pour(empty_mold(lay_out(SITE, spacing, [DEPTH], layers=layers), 0.0), DEPTH)
    return follow(stage, Goal.PEAK, control=Control(tolerance=0.02)).peak


def test_wide_cells_with_layers_are_right_where_even_ones_are_not():
    layers = layers_of([DEPTH], SITE.block)
    # layers twice as thin, cells a quarter as wide: 0.07 K from cells of 3 mm
    finely = [DEPTH * n / 16 for n in range(1, 16)] + [-0.019 * n / 12 for n in range(1, 12)]
    true = peak(0.004, layers=finely)
    for wide in (0.016, 0.008):
        assert peak(wide, layers=layers) == pytest.approx(true, abs=1.0)
    assert peak(0.008) > true + 3.0
    assert peak(0.016) > true + 3.0
