"""Joints: lengths that close without gap or overlap, and panels that are so much board."""

import pytest

from pourwright.geometry.solid import measure
from pourwright.mold.bodies.panels import panel_bodies
from pourwright.mold.box.joints import JOINTS

T, L, W = 0.018, 0.34, 0.24


@pytest.mark.parametrize(
    ("name", "side", "end"),
    [
        ("butt", L + 2 * T, W),
        ("rabbet", L + 2 * T, W + T),
        ("housing", L + 4 * T, W + 2 * T / 3),
        ("flange", L + 2 * T + 2 * 0.045, W),
    ],
)
def test_lengths_follow_from_the_joint(design, block, name, side, end):
    mold = design(block, joint=JOINTS[name], board_thickness=T)
    base, sides, ends = mold.panels
    assert (base.length, sides.length, ends.length) == pytest.approx((side, side, end))
    assert mold.outside[:2] == pytest.approx((side, W + 2 * T))
    assert mold.inside[:2] == pytest.approx((L, W))


@pytest.mark.parametrize("name", JOINTS)
def test_the_four_walls_close_around_the_rubber(design, block, name):
    """Outer rectangle less inner one, and what the sides go on beyond: no gap, nothing twice."""
    mold = design(block, joint=JOINTS[name], board_thickness=T)
    walls = [body for body in panel_bodies(mold, 0.0, 0.4) if body.name in ("side", "end")]
    past = mold.outside[0] - L - 2 * T
    plan = (L + 2 * T) * (W + 2 * T) - L * W + 2 * past * T
    height = mold.panels[1].width
    assert sum(measure(body.mesh).volume for body in walls) == pytest.approx(plan * height, rel=1e-9)
    for body in walls:
        low, high = body.mesh.bounds
        # nothing of a wall reaches into the rubber
        assert max(abs(low[1]), abs(high[1])) > W / 2 - 1e-9 if body.name == "side" else low[0] * high[0] > 0


@pytest.mark.parametrize("name", JOINTS)
def test_the_outline_of_a_side_runs_counter_clockwise(name):
    outline = JOINTS[name].side_outline(L, T)
    turned = zip(outline, [*outline[1:], outline[0]], strict=True)
    area = sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in turned) / 2
    joint = JOINTS[name]
    assert area == pytest.approx(joint.side_length(L, T) * T - 2 * T * T * joint.depth)
