"""The skin by which a top is judged."""

import numpy as np
import pytest

from pourwright.pour.layout import SKIN, lay_out
from pourwright.pour.skin import Skin
from pourwright.pour.stages import Stage, add_pour, empty_mold
from tests.pour.blocks import block_site


def top(spacing: float, levels: tuple[float, ...] = (0.05,)) -> tuple[Stage, Skin]:
    stage = empty_mold(lay_out(block_site(0.05, 0.08), spacing, levels), 0.0)
    for level in levels:
        stage = add_pour(stage, level)
    return stage, Skin.of(stage)


@pytest.mark.parametrize("spacing", [0.016, 0.008, 0.004, 0.0025])
def test_the_same_skin_on_every_grid(spacing: float) -> None:
    stage, skin = top(spacing)
    heights = np.broadcast_to(stage.layout.grid.centers[2], stage.layout.inside.shape)
    assert skin.mean(heights) == pytest.approx(0.05 - SKIN / 2, abs=1e-12)
    assert skin.areas.sum() == pytest.approx(0.08**2, rel=1e-9)


def test_a_pour_thinner_than_the_skin_is_judged_as_a_whole() -> None:
    stage, skin = top(0.008, (0.046, 0.05))
    heights = np.broadcast_to(stage.layout.grid.centers[2], stage.layout.inside.shape)
    assert skin.mean(heights) == pytest.approx(0.048, abs=1e-12)


def test_a_column_that_has_not_gelled_through_has_not_gelled() -> None:
    stage, skin = top(0.0025)
    times = np.zeros(stage.layout.inside.shape)
    assert np.all(skin.mean(times) == 0.0)
    times[:, :, skin.layers.start] = np.nan
    assert np.all(np.isnan(skin.mean(times)))
