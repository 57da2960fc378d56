"""Parts of the box against the bodies they become, and against sizes that add up on paper."""

from types import SimpleNamespace

import pytest

from pourwright.mold.bodies.panels import panel_bodies
from pourwright.mold.box.joints import JOINTS
from pourwright.mold.hold.bars import Bars
from pourwright.mold.wood.bar_parts import batten_parts, flange_parts, hanging_parts
from pourwright.mold.wood.box_parts import BoxScrews, box_parts

SCREWS = BoxScrews(diameter=0.004, corner_at=(0.07, 0.2), base_at={"side": (0.1,), "end": (0.05,)})


@pytest.mark.parametrize("joint", JOINTS.values(), ids=lambda joint: joint.name)
def test_every_panel_has_the_volume_of_its_body(design, block, joint) -> None:
    mold = design(block, joint=joint)
    bodies = sorted(body.volume for body in panel_bodies(mold, -mold.base, mold.rim))
    parts = sorted(part.volume for part in box_parts(mold, SCREWS))
    assert parts == pytest.approx(bodies, rel=1e-9)


def test_marks_are_all_different_and_lengths_add_up(design, block) -> None:
    """Inside 340 x 240 mm from 19 mm board: sides lap the ends, 340 + 2 x 19 = 378 mm."""
    mold = design(block, board_thickness=0.019)
    sizes = {part.mark: (part.length, part.width) for part in box_parts(mold, SCREWS)}
    assert len(sizes) == 5
    assert sizes["front side"] == pytest.approx((0.378, 0.419))
    assert sizes["left end"] == pytest.approx((0.240, 0.419))
    assert sizes["base board"] == pytest.approx((0.378, 0.278))


def test_screws_of_a_side_hit_the_middle_of_the_ends(design, block) -> None:
    for joint in JOINTS.values():
        mold = design(block, joint=joint, board_thickness=0.018)
        side = next(part for part in box_parts(mold, SCREWS) if part.mark == "front side")
        # the middles of the ends are the inside of the box and one board apart, 340 + 18 mm
        left, right = (sorted({hole.at[0] for hole in side.holes})[n] for n in (0, -1))
        assert right - left == pytest.approx(0.358)
        assert left + right == pytest.approx(side.length)
        for groove in side.grooves:
            assert any(groove.start < hole.at[0] < groove.end for hole in side.holes)


def test_screws_of_the_base_hit_the_middle_of_every_edge(design, block) -> None:
    base = next(p for p in box_parts(design(block, board_thickness=0.018), SCREWS) if p.mark == "base board")
    places = {hole.use: hole.at for hole in base.holes}
    # outside 376 x 276 mm; 100 mm and 50 mm from the corner of what is wet, behind 18 mm of board
    assert places["screw into the front side"] == pytest.approx((0.118, 0.009))
    assert places["screw into the back side"] == pytest.approx((0.118, 0.267))
    assert places["screw into the left end"] == pytest.approx((0.009, 0.068))
    assert places["screw into the right end"] == pytest.approx((0.367, 0.068))


def test_a_screwed_master_needs_a_second_board(design, block) -> None:
    marks = [part.mark for part in box_parts(design(block, method="screwed"), BoxScrews())]
    assert marks[-1] == "floor for casting"


def test_battens_and_laths_are_those_that_were_reckoned(design, block, materials) -> None:
    mold, pine = design(block, joint=JOINTS["flange"]), materials.board["pine"]
    side = next(panel for panel in mold.panels if panel.name == "side")
    level = list(batten_parts(side, SimpleNamespace(lie="level", count=2), pine, (0.045, 0.07)))
    assert [part.mark for part in level][:2] == ["batten 1, front side", "batten 2, front side"]
    assert {part.length for part in level} == {side.length}
    upright = list(batten_parts(side, SimpleNamespace(lie="upright", count=3), pine, (0.045, 0.07)))
    assert [part.length for part in upright][:3] == pytest.approx([0.419 - 0.045] * 2 + [side.length])
    laths = list(flange_parts(mold, pine))
    assert [part.length for part in laths] == pytest.approx([0.419] * 4)
    assert not list(flange_parts(design(block), pine))


def test_bars_end_flush_with_the_outside_of_the_box(materials) -> None:
    bars = Bars(board=materials.board["pine"], count=2, width=0.045, height=0.07, span=0.258, spread=0.1)
    assert [part.length for part in hanging_parts(bars, 0.018)] == pytest.approx([0.276, 0.276])
