"""Where the rubber is cut, and how that is said."""

from math import atan2, pi, sqrt

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.geometry import box, cone
from pourwright.geometry.ways_up.around import space_around
from pourwright.mold.space_block import SpaceBlock
from pourwright.mold.way_out.cut import chosen_cut, every_cut, opposite, sides_to_look_at
from pourwright.mold.way_out.places import spot_words

ANGLES = sides_to_look_at()


def cuts_of(mesh, inside, base=0.019, filled=()):
    return every_cut(mesh, space_around(mesh, inside, ANGLES, filled=filled), base)


def test_a_long_piece_is_cut_at_its_end():
    cuts = cuts_of(box([0.3, 0.1, 0.2]), (0.36, 0.16))
    first = chosen_cut(cuts)
    assert first.angle == 0.0
    assert opposite(cuts, first).angle == pytest.approx(pi)
    assert first.width == pytest.approx(0.1)
    assert (first.land, first.depth) == pytest.approx((0.03, 0.03))
    # 30 mm of rubber stay uncut above the floor of the mold, 19 mm of them below the piece
    assert first.ends_at == pytest.approx(0.011)
    assert first.length == pytest.approx(0.2 - 0.011)
    assert first.area == pytest.approx(0.03 * (0.2 - 0.011), rel=0.02)


def test_an_edge_of_the_piece_hides_the_line():
    # seen from an edge a prism of six sides is sqrt(3) wide, from a flat side 2
    first = chosen_cut(cuts_of(cone(0.1, 0.1, 0.2, 6), (0.26, 0.26)))
    assert first.on_edge
    assert first.width == pytest.approx(0.1 * sqrt(3), rel=0.01)
    assert not chosen_cut(cuts_of(cone(0.1, 0.1, 0.2), (0.26, 0.26))).on_edge


@settings(max_examples=15, deadline=None)
@given(wall=st.floats(0.01, 0.08), high=st.floats(0.05, 0.6))
def test_waves_leave_rubber_on_both_sides(wall, high):
    first = chosen_cut(cuts_of(box([0.1, 0.1, high]), (0.1 + 2 * wall, 0.1 + 2 * wall)))
    assert first.wave <= first.land / 2 + 1e-12
    assert first.waves == int(first.length // 0.06)
    assert 0.0 < first.ends_at <= high / 2
    assert first.length + first.ends_at == pytest.approx(high)


def test_space_blocks_leave_less_to_cut():
    mesh, inside = box([0.1, 0.1, 0.2]), (0.2, 0.2)
    block = SpaceBlock((0.07, -0.1, -0.019), (0.1, 0.1, 0.2), "right")
    filled = [(block.lower, block.upper)]
    plain, spared = (cuts_of(mesh, inside, filled=each)[0] for each in ((), filled))
    assert (plain.land, spared.land) == pytest.approx((0.05, 0.02))


def test_the_line_of_a_cut_runs_over_the_piece():
    mesh = cone(0.05, 0.10, 0.2)
    line = space_around(mesh, (0.24, 0.24), ANGLES).line(float(ANGLES[9]), 0.02)
    radius = np.hypot(line[:, 0], line[:, 1])
    # beside the axis by 3e-5 of the ray, on flats of a polygon
    assert radius == pytest.approx(0.05 + 0.05 * line[:, 2] / 0.2, rel=1e-3)
    assert np.arctan2(line[:, 1], line[:, 0]) == pytest.approx(np.full(len(line), pi / 4))
    assert line[0, 2] > 0.02
    assert (np.diff(line[:, 2]) > 0).all()


def test_corners_and_middles_have_names():
    inside = (0.4, 0.2)
    corner = atan2(0.2, 0.4)
    assert spot_words(corner, inside, "metric") == "the corner between right and back"
    assert spot_words(pi / 2, inside, "metric") == "the middle of the back side"
    # at 45 degrees a ray meets the back 100 mm from the middle
    assert spot_words(pi / 4, inside, "metric") == "the back side, 100 mm from its middle toward the right"


@given(angle=st.floats(0.0, 2 * pi))
def test_the_opposite_place_has_the_opposite_name(angle):
    swap = {"right": "left", "left": "right", "front": "back", "back": "front"}
    here, there = (spot_words(each, (0.4, 0.3), "us") for each in (angle, angle + pi))
    assert there == " ".join(swap.get(word.strip(","), word.strip(",")) + ("," if "," in word else "")
                             for word in here.split())  # fmt: skip
