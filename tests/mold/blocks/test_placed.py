"""Space blocks of whole molds: clear of the piece, held, whole boards, worth it; marks, screws, twins."""

import dataclasses
from itertools import combinations

import numpy as np
import pytest
from trimesh.triangles import closest_point

from pourwright.foundation.errors import UserError
from pourwright.geometry import box, level_volume, revolve
from pourwright.geometry.drawn.joining import Joining
from pourwright.materials.loading import load_materials
from pourwright.mold import MoldChoices, design_mold
from pourwright.mold.block_choices import BlockChoices
from pourwright.mold.blocks.glue_up import glue_up
from pourwright.mold.blocks.hold import load_on, pull_on_screws, screws_of
from pourwright.mold.blocks.marks import mark_of, panel_face
from pourwright.mold.blocks.saving import board_area, saving_of
from pourwright.mold.blocks.twins import first_screw, twins_of
from pourwright.mold.screw_hold import Wood

LENGTHS = (0.03, 0.04, 0.05, 0.06)
BOARD = Wood(density=750.0)
WAISTED = revolve([[0.10, 0.0], [0.04, 0.12], [0.10, 0.24]], 48)


@pytest.fixture(scope="module", params=["hung", "screwed"])
def mold(request, module_design):
    return module_design(WAISTED, method=request.param)


@pytest.fixture(scope="module")
def module_design():
    materials = load_materials()

    def make(mesh, **changes):
        choices = MoldChoices(
            rubber=materials.rubber["silicone-platinum-a25"], board=materials.board["mdf"], wall=0.02,
            base=0.019, casting_density=1100.0, space_blocks=True,
        )  # fmt: skip
        size = tuple(float(edge) for edge in mesh.bounds[1] - mesh.bounds[0])
        return design_mold(size, level_volume(mesh), dataclasses.replace(choices, **changes))

    return make


def test_no_block_comes_nearer_to_the_piece_than_the_wall(mold):
    """An independent distance, from a lattice of places in every block to every triangle."""
    assert mold.blocks
    shares = np.stack(np.meshgrid(*[np.linspace(0.0, 1.0, 7)] * 3), axis=-1).reshape(-1, 3)
    triangles = WAISTED.triangles
    for block in mold.blocks:
        for place in np.array(block.lower) + shares * np.array(block.size):
            nearest = closest_point(triangles, np.broadcast_to(place, (len(triangles), 3)))
            assert np.linalg.norm(nearest - place, axis=1).min() >= 0.019 - 1e-6
            if place[2] >= 0:
                assert np.linalg.norm(nearest - place, axis=1).min() >= 0.02 - 1e-6


def test_blocks_do_not_meet_and_stay_in_the_box(mold):
    x, y, z = mold.inside
    low, high = np.array([-x / 2, -y / 2, -mold.base]), np.array([x / 2, y / 2, z - mold.base])
    for block in mold.blocks:
        assert (np.array(block.lower) >= low - 1e-9).all()
        assert (np.array(block.upper) <= high + 1e-9).all()
    for one, other in combinations(mold.blocks, 2):
        before = np.array(one.upper) <= np.array(other.lower) + 1e-9
        after = np.array(other.upper) <= np.array(one.lower) + 1e-9
        assert (before | after).any()


def test_blocks_are_whole_boards_thick_enough_and_worth_their_sawing(mold):
    for block in mold.blocks:
        sides, board = np.array(block.size), 0.018
        boards = sides / board
        whole = np.abs(boards - np.round(boards)) < 1e-6
        assert whole.any()
        # what is no multiple spans the rest in the middle of the box
        rest = np.array(mold.inside) % board
        assert (whole | (np.abs((sides - rest) / board - np.round((sides - rest) / board)) < 1e-6)).all()
        assert sides.min() >= 0.036 - 1e-6
        assert block.layers == int(np.round(boards[whole]).min())
        # common practice, where no price says better
        assert block.volume >= 0.25e-3


def test_each_touches_the_panel_that_holds_it(mold):
    x, y, z = mold.inside
    foot = z - mold.base if mold.method == "screwed" else -mold.base
    for block in mold.blocks:
        touched = {
            "left": block.lower[0] + x / 2, "right": block.upper[0] - x / 2,
            "front": block.lower[1] + y / 2, "back": block.upper[1] - y / 2,
            "base": block.upper[2] - foot if mold.method == "screwed" else block.lower[2] - foot,
        }  # fmt: skip
        assert touched[block.wall] == pytest.approx(0.0, abs=1e-9)


def test_marks_lead_back_to_the_block(mold):
    """From the panel's corner so far along, up and off it: the block's own corners."""
    for block in mold.blocks:
        face = panel_face(mold, block.wall)
        mark = mark_of(block, face)
        right, up = np.array(face.right), np.array(face.up)
        off = np.cross(right, up)
        near = np.array(face.corner) + mark.left * right + mark.foot * up
        far = near + mark.size[0] * right + mark.size[1] * up + mark.size[2] * off
        assert np.minimum(near, far) == pytest.approx(block.lower, abs=1e-9)
        assert np.maximum(near, far) == pytest.approx(block.upper, abs=1e-9)
        assert -1e-9 <= mark.left <= face.width - mark.size[0] + 1e-9
        assert -1e-9 <= mark.foot <= face.height - mark.size[1] + 1e-9


def test_sides_are_measured_with_their_lap_and_ends_without(mold):
    x, y, z = mold.inside
    side, end, base = (panel_face(mold, wall) for wall in ("front", "left", "base"))
    assert (side.width, end.width, base.width) == pytest.approx((x + 0.036, y, x + 0.036))
    assert (side.height, end.height, base.height) == pytest.approx((z, z, y + 0.036))
    assert (side.lap, end.lap, base.lap) == pytest.approx((0.018, 0.0, 0.018))


def test_the_left_of_a_panel_is_where_it_is_seen_from_inside(module_design):
    """Hung: who looks at the left end has the front side at his left; turned over it is at his right."""
    hung, screwed = (module_design(box([0.1] * 3), method=method) for method in ("hung", "screwed"))
    assert panel_face(hung, "left").corner == pytest.approx((-0.07, -0.07, -0.019))
    assert panel_face(screwed, "left").corner == pytest.approx((-0.07, 0.07, 0.1))
    assert panel_face(hung, "back").corner == pytest.approx((-0.088, 0.07, -0.019))
    assert panel_face(hung, "base").corner == pytest.approx((-0.088, -0.088, -0.019))
    assert panel_face(screwed, "base").corner == pytest.approx((0.088, -0.088, 0.1))


def test_room_of_exactly_two_boards_is_used(module_design):
    """Beside a stem 36 mm narrower on either side, whole boards fit between wall and panel."""
    joining = Joining()
    joining.add(box([0.20, 0.20, 0.03]))
    joining.add(box([0.128, 0.20, 0.20]))
    mold = module_design(joining.body())
    assert {round(block.size[0], 6) for block in mold.blocks} == {0.036}
    assert len(mold.blocks) == 2
    # the wall above the foot ends at 50 mm, the third board from below at 53 mm
    assert [block.volume for block in mold.blocks] == pytest.approx([0.036 * 0.24 * (0.2 - 0.053)] * 2)


def test_beside_straight_sides_nothing_fits_at_any_wall(module_design):
    for wall in (0.01, 0.06):
        assert module_design(box([0.2, 0.2, 0.2]), wall=wall, base=wall).blocks == ()


def test_a_least_side_beyond_the_box_is_refused(module_design):
    with pytest.raises(UserError) as refusal:
        module_design(WAISTED, blocks=BlockChoices(least=0.5, where="job.toml:7 mold.least_block"))
    assert str(refusal.value).startswith("job.toml:7 mold.least_block: mold.least_block is 500 mm")


def test_dearer_work_leaves_fewer_blocks_and_each_worth_more(module_design):
    """Ten minutes of sawing against rubber at 20 a kilogram."""
    counts = []
    for price in (5.0, 40.0):
        mold = module_design(WAISTED, blocks=BlockChoices(hour_price=price / 3600, rubber_price=20.0))
        counts.append(len(mold.blocks))
        for block in mold.blocks:
            assert block.volume * mold.choices.rubber.density.value * 20.0 >= price / 6 * (1 - 1e-9)
    assert 0 < counts[1] < counts[0]


def test_the_fewest_boards_make_a_block():
    assert glue_up((0.072, 0.054, 0.3), (0.018,)).layers == 3
    mixed = glue_up((0.072, 0.1, 0.3), (0.018, 0.012, 0.036))
    assert (mixed.layers, mixed.board, mixed.axis) == (2, 0.036, 0)
    with pytest.raises(ValueError, match="empty"):
        glue_up((0.05, 0.05, 0.05), (0.018,))


def test_lift_weight_and_tipping():
    """Two litres of wood of 500 kg/m3 in rubber of 1,100: 0.002 x 600 x 9.80665 N up."""
    load = load_on(0.002, 500.0, 1100.0)
    assert (load.lift, load.weight) == pytest.approx((11.768, 9.80665), rel=1e-5)
    assert pull_on_screws(load, (0.2, 0.1, 0.1), upright=False) == load.lift
    # as deep as high: two thirds on top
    assert pull_on_screws(load, (0.2, 0.1, 0.1), upright=True) == pytest.approx(load.lift * 5 / 3)
    heavy = load_on(0.002, 900.0, 1100.0)
    assert pull_on_screws(heavy, (0.2, 0.1, 0.1), upright=True) == pytest.approx(heavy.weight * 5 / 3)


def test_screws_stay_inside_thin_blocks_and_multiply_with_side_and_force():
    thick = screws_of((0.1, 0.1, 0.1), 0.018, 10.0, BOARD, LENGTHS)
    assert (thick.number, thick.length) == (2, 0.04)
    thin = screws_of((0.1, 0.1, 0.018), 0.018, 10.0, BOARD, LENGTHS)
    assert thin.length == 0.03
    assert thin.bears < thick.bears
    assert screws_of((0.6, 0.3, 0.1), 0.018, 10.0, BOARD, LENGTHS).number == 6
    strong = screws_of((0.1, 0.1, 0.1), 0.018, 10 * thick.bears, BOARD, LENGTHS)
    assert strong.number == 10


def test_blocks_of_one_size_have_their_first_screw_apart():
    twins = twins_of([(0.1, 0.2, 0.3), (0.2, 0.1, 0.3), (0.3, 0.2, 0.1), (0.3, 0.3, 0.1)])
    assert twins == [[1, 2], [0, 2], [0, 1], []]
    shares = [first_screw(number, others) for number, others in enumerate(twins)]
    assert len({*shares[:3]}) == 3
    assert all(0.2 <= share < 0.5 for share in shares)


def test_what_is_saved(mold):
    asked = BlockChoices(rubber_price=20.0, hour_price=30.0 / 3600, sawing_time=600.0)
    choices = dataclasses.replace(mold.choices, blocks=asked)
    saved = saving_of(mold.blocks, choices)
    volume = sum(np.prod(block.size) for block in mold.blocks)
    assert saved.volume == pytest.approx(volume)
    assert saved.rubber == pytest.approx(volume * choices.rubber.density.value * 1.03)
    assert saved.rubber_money == pytest.approx(20.0 * saved.rubber)
    assert saved.sawing_money == pytest.approx(5.0 * len(mold.blocks))
    assert saving_of(mold.blocks, mold.choices).sawing_money is None
    # boards face up: their volume over their thickness, and 15 % for saw cuts
    assert board_area(mold.blocks, (0.018,)) == pytest.approx(volume / 0.018 * 1.15)
