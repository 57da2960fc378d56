"""The rubber pour in its own frame, hung and screwed."""

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.foundation.errors import UserError
from pourwright.geometry import box, level_volume, revolve
from pourwright.geometry.drawn.outlines import Step, closed_outline, flattened
from pourwright.geometry.drawn.outlines_prism import extruded
from pourwright.mold import RubberPour

CONE = level_volume(revolve([[0.05, 0.0], [0.15, 0.3]], 48))
METHODS = st.sampled_from(["hung", "screwed"])


def test_rubber_is_the_block_less_the_piece(design, block):
    for method in ("hung", "screwed"):
        mold = design(block, method=method)
        assert mold.inside == pytest.approx((0.34, 0.24, 0.419), rel=1e-12)
        assert mold.rubber.volume == pytest.approx(0.34 * 0.24 * 0.419 - 0.30 * 0.20 * 0.40, rel=1e-12)
        assert mold.rubber.level_after == pytest.approx(0.419, rel=1e-12)


def test_mark_before_a_hung_master_goes_in(design, block):
    mold = design(block)
    # nothing is in the box yet, so all of its rubber stands as a plain slab
    assert mold.rubber.fill_mark == pytest.approx((0.34 * 0.24 * 0.419 - 0.024) / (0.34 * 0.24), rel=1e-12)
    assert design(block, method="screwed").rubber.fill_mark is None


def test_a_hung_master_meets_the_rubber_only_above_the_base():
    pour = RubberPour(level_volume(box([0.1, 0.1, 0.2])), "hung", 0.02, 0.04)
    assert [float(pour.immersed(level)) for level in (0.0, 0.02, 0.12, 0.22, 0.5)] == pytest.approx(
        [0, 0, 0.001, 0.002, 0.002], abs=1e-15
    )


def test_a_screwed_master_stands_upside_down():
    hung = RubberPour(CONE, "hung", 0.02, 0.1)
    screwed = RubberPour(CONE, "screwed", 0.02, 0.1)
    # the wide mouth lies on the board, so half-way up more of it is drowned
    assert float(screwed.immersed(0.15)) > 2 * float(hung.immersed(0.02 + 0.15))
    assert float(screwed.immersed(0.1)) == pytest.approx(CONE.total - CONE.volume(0.2), rel=1e-12)
    assert screwed.volume == pytest.approx(hung.volume, rel=1e-12)


@settings(max_examples=50, deadline=None)
@given(METHODS, st.floats(0.0, 0.5))
def test_the_level_of_a_volume_is_the_volume_of_that_level(method, level):
    pour = RubberPour(CONE, method, 0.02, 0.1)
    assert pour.level_after(float(pour.rubber_below(level))) == pytest.approx(level, abs=1e-9)


@settings(max_examples=30, deadline=None)
@given(METHODS, st.lists(st.floats(0.0, 0.5), min_size=2, max_size=8))
def test_many_levels_at_once_agree_with_one_at_a_time(method, levels):
    import numpy as np

    pour = RubberPour(CONE, method, 0.02, 0.1)
    one_by_one = [float(pour.immersed(level)) for level in levels]
    assert pour.immersed(np.array(levels)) == pytest.approx(one_by_one, abs=1e-14)


def test_a_negative_volume_is_refused():
    with pytest.raises(UserError, match="0 or more"):
        RubberPour(CONE, "hung", 0.02, 0.1).level_after(-1.0)


@settings(max_examples=25, deadline=None)
@given(st.floats(0.05, 0.5), st.floats(0.05, 0.5), st.floats(0.05, 0.6), METHODS)
def test_mass_balance_of_any_box(materials, x, y, z, method):
    from pourwright.mold import MoldChoices, design_mold

    choices = MoldChoices(
        rubber=materials.rubber["silicone-tin-a25"],
        board=materials.board["mdf"],
        method=method,
        casting_density=1100.0,
    )
    mold = design_mold((x, y, z), level_volume(box([x, y, z])), choices)
    mix = mold.rubber
    assert mold.inside[0] * mold.inside[1] * mold.inside[2] == pytest.approx(mix.volume + x * y * z, rel=1e-9)
    assert mix.mass == pytest.approx(mix.volume * choices.rubber.density.value, rel=1e-12)
    assert mix.part_a + mix.part_b == pytest.approx(mix.mass_mixed, rel=1e-9)
    assert sum(batch.mass for batch in mix.batches) == pytest.approx(mix.mass_mixed, rel=1e-9)
    assert mix.mass_mixed >= mix.mass * 1.03 * (1 - 1e-9)
    assert mix.mass_mixed <= mix.mass * 1.03 + 0.003 * len(mix.batches)
    parts = choices.rubber.parts_b.value / choices.rubber.parts_a.value
    for batch in mix.batches:
        assert batch.part_b / batch.part_a == pytest.approx(parts * (1 + batch.ratio_error), rel=1e-9)
        assert mold.rubber.batches[0].mass == batch.mass


def test_levels_after_each_batch(design, block):
    hung, screwed = (design(block, method=method) for method in ("hung", "screwed"))
    count = len(hung.rubber.batches)
    assert count > 1
    assert hung.level_after_batch(count) == pytest.approx(hung.rubber.fill_mark, rel=1e-12)
    assert hung.level_after_batch(1) == pytest.approx(hung.rubber.fill_mark / count, rel=1e-12)
    assert screwed.level_after_batch(count) == pytest.approx(0.419, rel=1e-9)
    # a ring of 0.34 x 0.24 - 0.30 x 0.20 round the standing master takes the first half
    half = screwed.rubber.volume / count
    assert screwed.level_after_batch(1) == pytest.approx(half / (0.34 * 0.24 - 0.06), rel=1e-9)


@pytest.mark.parametrize(
    "size",
    [
        (0.319, 0.174, 0.103),
        (0.198, 0.235, 0.103),
        (0.307, 0.126, 0.027),
        (0.288, 0.12, 0.063),
        (0.266, 0.085, 0.029),
    ],
)
def test_the_level_over_a_drowned_master_is_found_whatever_the_round_off(materials, size):
    """Rounded slabs whose rubber is that of the highest level there can be, to the last digit."""
    from pourwright.mold import MoldChoices, design_mold

    x, y, z = size
    corner = [Step(at, radius=0.003) for at in ((0.0, 0.0), (x, 0.0), (x, y), (0.0, y))]
    body = extruded([flattened(closed_outline(corner))], z, 0.0, 0.003)
    choices = MoldChoices(
        rubber=materials.rubber["silicone-platinum-a25"],
        board=materials.board["mdf"],
        method="hung",
        casting_density=1100.0,
    )
    mold = design_mold(size, level_volume(body), choices)
    assert mold.rubber.level_after == pytest.approx(mold.inside[2], rel=1e-8)
