"""Each way: its rubber, its lines, what rules it out."""

from dataclasses import replace

import numpy as np
import pytest

from pourwright.geometry import box, cone, joined, revolve
from pourwright.mold.ways.block import block_way
from pourwright.mold.ways.skin import coats, skin_way
from pourwright.mold.ways.two_part import two_part_way
from tests.mold.ways.conftest import moved

WAIST = [[0.10, 0.0], [0.05, 0.1], [0.10, 0.2]]


def frame():
    """A frame of four bars with a window across the pull: a hole right through."""
    from manifold3d import Manifold

    from pourwright.geometry import Mesh

    solid = Manifold.cube([0.3, 0.1, 0.3]) - Manifold.cube([0.1, 0.3, 0.1]).translate([0.1, -0.1, 0.1])
    made = solid.to_mesh()
    mesh = Mesh(
        np.asarray(made.vert_properties, dtype=float)[:, :3], np.asarray(made.tri_verts, dtype=np.int64)
    )
    return moved(mesh, [-0.15, -0.05, 0.0])


def test_two_pours_take_the_rubber_of_one_block_and_the_clay_of_the_second(asked):
    ask, mold = asked(revolve(WAIST), method="screwed")
    way = two_part_way(ask, mold)
    assert way.volume == pytest.approx(mold.rubber.volume)
    assert way.clay_volume == pytest.approx(mold.rubber.volume / 2, rel=1e-3)
    assert len(way.pours) == 2
    assert way.mixed >= mold.rubber.mass
    assert (way.lines, way.lift) == (2, 0.0)


def test_what_is_free_is_pulled_out_of_an_uncut_block(asked):
    way = block_way(*asked(cone(0.1, 0.15, 0.2)))
    assert (way.lines, way.line, way.no) == (0, 0.0, ())


def test_a_waist_is_cut_open_down_one_side(asked):
    way = block_way(*asked(revolve(WAIST)))
    assert way.lines == 1
    # half of the outline: half of the floor and one wall of two cones
    assert way.line == pytest.approx(0.10 + 2 * np.hypot(0.05, 0.1), rel=1e-3)
    assert any("cut" in step.name for step in way.steps)


def test_a_thick_block_is_cut_as_often_as_the_way_out_says(asked):
    ask, mold = asked(revolve(WAIST))
    one, two = (block_way(replace(ask, cuts=cuts), mold) for cuts in (1, 2))
    assert (one.lines, two.lines) == (1, 3)
    assert two.line == pytest.approx(2 * one.line)
    assert block_way(replace(ask, cuts=0), mold).line == 0.0


def test_a_hole_across_the_pull_needs_two_parts(asked):
    ask, mold = asked(frame(), method="screwed")
    assert "a hole goes through" in block_way(ask, mold).no[0]
    assert "a hole goes through" in skin_way(ask, mold).no[0]
    assert two_part_way(ask, mold).possible


def test_more_batches_than_the_rubber_waits_for_are_no_way_to_hang_a_master(asked):
    large = box([0.6, 0.6, 0.6])
    hung = block_way(*asked(large, wall=0.025))
    assert "setting rubber" in hung.no[0]
    assert block_way(*asked(large, wall=0.025, method="screwed")).possible


def test_nobody_stirs_and_pours_for_a_day(asked):
    ask, mold = asked(box([4.0, 3.0, 1.0]), method="screwed")
    assert any("in one go" in reason for reason in block_way(ask, mold).no)


def test_a_narrow_face_takes_no_screws(asked):
    narrow = cone(0.1, 0.015, 0.2)
    assert "four screws" in block_way(*asked(narrow, method="screwed")).no[0]
    assert block_way(*asked(narrow)).possible


def test_only_a_screwed_box_is_turned_over(asked):
    screwed, mold = asked(cone(0.1, 0.15, 0.2), method="screwed")
    master = mold.hold_down.master_mass
    assert block_way(screwed, mold).turned == pytest.approx(mold.empty_mass + master)
    assert block_way(*asked(cone(0.1, 0.15, 0.2))).turned == 0.0


def test_two_parts_that_lock_are_no_way(asked):
    """Eight pockets all round: whichever way two parts open, most of them hold."""
    turns = [n * np.pi / 8 + 0.2 for n in range(16)]
    star = joined([moved(box([0.02, 0.02, 0.2]), [0.1 * np.cos(a), 0.1 * np.sin(a), 0.0]) for a in turns])
    ask, mold = asked(star, method="screwed")
    assert "two parts lock" in two_part_way(ask, mold).no[0]


def test_a_skin_takes_its_rubber_coat_by_coat(asked):
    ask, mold = asked(cone(0.1, 0.15, 0.2), method="screwed")
    way = skin_way(ask, mold)
    # skin and a rim of 30 mm round the mouth
    assert way.volume == pytest.approx(0.002 + 2 * np.pi * 0.15 * 0.03 * 0.010, rel=2e-3)
    assert len(way.pours) == coats(0.010) == 4
    assert way.mixed == pytest.approx(way.mass * 1.08, rel=1e-2)
    assert not way.planned
    assert skin_way(asked(cone(0.1, 0.15, 0.2), cast="gypsum")[0], mold).planned
