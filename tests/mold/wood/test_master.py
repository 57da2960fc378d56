"""Masters from boards: expected sizes and masses are arithmetic on the shapes given, no source needed."""

import dataclasses

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.foundation.errors import UserError
from pourwright.geometry import box, cone, revolve
from pourwright.geometry.drawn.joining import Joining, as_manifold
from pourwright.geometry.drawn.outlines_offset import as_section
from pourwright.materials.loading import load_materials
from pourwright.mold.wood.master_boards import master_from_boards
from pourwright.mold.wood.master_words import glue_words, remarks

MDF = load_materials().board["mdf"]
BOARD = 0.018
SEGMENTS = 32


def cut_out(body, *others):
    joining = Joining()
    joining.add(body)
    for other in others:
        joining.cut(other)
    return joining.body()


def put_together(body, *others):
    joining = Joining()
    joining.add(body)
    for other in others:
        joining.add(other)
    return joining.body()


def region(layer):
    """What is sawn of a layer, as a plane region in mm."""
    whole = as_section([])
    for part, corner in zip(layer.parts, layer.corners, strict=True):
        sides = ((0, 0), (part.length, 0), (part.length, part.width), (0, part.width))
        whole += as_section([np.array(loop) + corner for loop in part.outlines or (sides,)])
    return whole


def assert_contains(wood, mesh):
    body = as_manifold(mesh)
    for layer in wood.layers:
        sawn = region(layer)
        for height in np.linspace(layer.low + 1e-5, layer.high - 1e-5, 5):
            assert (body.slice(1000 * height) - sawn).area() < 1e-2


def test_box_of_three_boards():
    wood = master_from_boards(box([0.3, 0.2, 0.054]), MDF, oversize=0.005)
    assert (wood.kind, wood.axis) == ("stacked", "z")
    assert [part.mark for part in wood.parts] == ["master 1", "master 2", "master 3"]
    assert all(part.outlines == () and part.belongs == "master" for part in wood.parts)
    assert wood.parts[0].sawn == pytest.approx((0.310, 0.210))
    assert wood.volume == pytest.approx(0.3 * 0.2 * 0.054)
    assert wood.mass == pytest.approx(0.3 * 0.2 * 0.054 * MDF.density.value)
    assert wood.mass == pytest.approx(wood.solid_mass)
    assert wood.glued == pytest.approx(2 * 0.3 * 0.2)
    assert wood.sand == 0.0
    assert list(remarks(wood, "metric")) == []


def test_box_whose_last_board_is_planed():
    wood = master_from_boards(box([0.3, 0.2, 0.05]), MDF)
    assert [part.thickness for part in wood.parts] == pytest.approx([0.018, 0.018, 0.014])
    assert [layer.planed for layer in wood.layers] == [False, False, True]
    (remark,) = remarks(wood, "metric")
    assert "14.0 mm" in remark
    assert glue_words(wood, "metric")[1].startswith("master 3, lower face, on the upper face of master 2")


def test_rest_too_thin_to_plane():
    (remark,) = remarks(master_from_boards(box([0.3, 0.2, 0.037]), MDF), "metric")
    assert "whole board" in remark


def test_plate_thinner_than_a_board_is_one_part():
    (part,) = master_from_boards(box([0.3, 0.2, 0.010]), MDF).parts
    assert part.thickness == pytest.approx(0.010)


def test_upright_plate_lies_on_its_side():
    wood = master_from_boards(box([0.036, 0.2, 0.3]), MDF)
    assert (wood.axis, wood.plane, len(wood.parts)) == ("x", ("y", "z"), 2)
    assert (wood.parts[0].length, wood.parts[0].width) == pytest.approx((0.2, 0.3))


def test_stepped_block_is_a_stack_of_prisms():
    top = box([0.1, 0.1, 0.06]).moved([0.03, 0.0, 0.03])
    wood = master_from_boards(put_together(box([0.3, 0.2, 0.036]), top), MDF)
    assert wood.kind == "stacked"
    assert [layer.low for layer in wood.layers] == pytest.approx([0.0, 0.018, 0.036, 0.054, 0.072])
    assert [part.length for part in wood.parts] == pytest.approx([0.3, 0.3, 0.1, 0.1, 0.1])
    assert wood.layers[2].corners[0] == pytest.approx((-0.02, -0.05))
    assert wood.volume == pytest.approx(0.3 * 0.2 * 0.036 + 0.1 * 0.1 * 0.054)
    assert wood.glued == pytest.approx(0.3 * 0.2 + 3 * 0.1 * 0.1)


def test_feet_are_parts_of_their_own():
    feet = [box([0.04, 0.2, 0.02]).moved([side, 0, 0]) for side in (-0.1, 0.1)]
    table = put_together(box([0.3, 0.2, 0.018]).moved([0, 0, 0.018]), *feet)
    wood = master_from_boards(table, MDF)
    assert [part.mark for part in wood.parts] == ["master 1a", "master 1b", "master 2"]
    assert [joint.area for joint in wood.joints] == pytest.approx([0.008, 0.008])
    assert wood.volume == pytest.approx(0.3 * 0.2 * 0.018 + 2 * 0.04 * 0.2 * 0.018)


def test_fine_steps_are_sliced():
    stairs = [box([0.3 - 0.006 * n, 0.2 - 0.006 * n, 0.003 * (n + 1)]) for n in range(18)]
    wood = master_from_boards(put_together(*stairs), MDF)
    assert (wood.kind, len(wood.layers)) == ("sliced", 3)
    # five steps of 3 mm on each side within a layer of 18 mm, farthest at a corner
    assert wood.sand == pytest.approx(5 * 0.003 * 2**0.5, rel=1e-3)


@pytest.mark.parametrize("top", [0.1, 0.0])
def test_step_of_a_cone(top):
    mesh = cone(0.15, top, 0.09, SEGMENTS)
    wood = master_from_boards(mesh, MDF)
    step = BOARD * (0.15 - top) / 0.09
    assert (wood.kind, len(wood.parts)) == ("sliced", 5)
    # corners of the strips lie on the true circle, and are the farthest places
    assert [layer.sand for layer in wood.layers] == pytest.approx([step] * 5, rel=1e-3)
    assert wood.volume > wood.solid
    assert_contains(wood, mesh)


def test_oversize_moves_the_outline_of_a_slice():
    mesh = cone(0.15, 0.1, 0.036, SEGMENTS)
    plain, large = master_from_boards(mesh, MDF), master_from_boards(mesh, MDF, oversize=0.004)
    assert large.sand == pytest.approx(plain.sand + 0.004, rel=1e-2)
    assert large.parts[0].sawn == pytest.approx((0.308, 0.308), rel=1e-3)


def test_outline_of_many_corners_is_eased_outward():
    mesh = cone(0.1, 0.095, 0.018, 600)
    wood = master_from_boards(mesh, MDF)
    assert len(wood.parts[0].outlines[0]) <= 400
    # a slack of a tenth of a millimetre at most
    assert wood.sand == pytest.approx(0.005, abs=1.5e-4)
    assert_contains(wood, mesh)


def test_tube_keeps_its_hole():
    tube = cut_out(cone(0.1, 0.1, 0.036, SEGMENTS), cone(0.05, 0.05, 0.06, SEGMENTS).moved([0, 0, -0.01]))
    wood = master_from_boards(tube, MDF)
    assert wood.kind == "stacked"
    assert [len(part.outlines) for part in wood.parts] == [2, 2]
    assert wood.volume == pytest.approx(wood.solid)


def test_slices_keep_a_hole_as_wide_as_it_is_anywhere_within_them():
    tube = cut_out(cone(0.12, 0.1, 0.036, SEGMENTS), cone(0.06, 0.03, 0.036, SEGMENTS))
    wood = master_from_boards(tube, MDF)
    assert wood.kind == "sliced"
    holes = [np.array(part.outlines[1]) for part in wood.parts]
    assert [np.ptp(hole[:, 0]) for hole in holes] == pytest.approx([2 * 0.045, 2 * 0.03], rel=1e-3)
    assert_contains(wood, tube)


def test_leaning_hole_that_closes_is_measured_from_its_middle():
    """A hole gone from the sawn outline leaves wood as far from the shape as the hole's own radius."""
    slot = box([0.01, 0.01, 0.2]).transformed(
        [[1, 0, 2, -0.218], [0, 1, 0, 0], [0, 0, 1, -0.1], [0, 0, 0, 1]]
    )
    wood = master_from_boards(cut_out(cone(0.15, 0.149, 0.018, SEGMENTS), slot), MDF)
    (part,) = wood.parts
    assert len(part.outlines) == 1
    # the square hole's middle is half its side away from its rim
    assert wood.sand == pytest.approx(0.005, abs=5e-5)


def test_sphere_ends_at_tips():
    angles = np.linspace(-np.pi / 2, np.pi / 2, 13)
    ball = revolve(np.stack([np.abs(0.05 * np.cos(angles)).round(12), 0.05 * np.sin(angles)], axis=1), 24)
    wood = master_from_boards(ball, MDF)
    assert len(wood.parts) == 6
    assert wood.volume > wood.solid
    assert_contains(wood, ball)


@settings(max_examples=12, deadline=None)
@given(
    st.lists(st.tuples(st.floats(0.02, 0.1), st.floats(0.005, 0.03)), min_size=2, max_size=5),
    st.sampled_from([0.006, 0.012, 0.018]),
)
def test_sawn_wood_holds_every_turned_shape(outline, thickness):
    radii = [radius for radius, _ in outline]
    rises = np.cumsum([0.0] + [rise for _, rise in outline[1:]])
    mesh = revolve(np.stack([radii, rises], axis=1), 12)
    board = dataclasses.replace(MDF, thickness=dataclasses.replace(MDF.thickness, value=thickness))
    wood = master_from_boards(mesh, board)
    assert wood.volume >= wood.solid * (1 - 1e-6)
    assert_contains(wood, mesh)


def test_what_is_sealed():
    mesh = box([0.3, 0.2, 0.054])
    found = master_from_boards(mesh, MDF).sealing
    edges = 2 * (0.3 + 0.2) * 0.054
    assert found.area == pytest.approx(0.3 * 0.2 + edges)
    assert found.edges == pytest.approx(edges)
    # three coats, edges twice, 0.1 l/m2: common practice, no source
    assert found.amount == pytest.approx(3 * (0.3 * 0.2 + 2 * edges) * 1e-4)
    assert found.least < found.amount < found.most
    bare = master_from_boards(mesh, MDF, held="none", sealer="none").sealing
    assert (bare.coat, bare.amount) == (None, 0.0)
    assert bare.area == pytest.approx(found.area + 0.3 * 0.2)


def test_solid_wood_runs_one_way():
    plank = dataclasses.replace(MDF, solid_wood=True)
    assert {part.grain for part in master_from_boards(box([0.2, 0.3, 0.054]), plank).parts} == {"width"}


def test_part_larger_than_a_sheet_is_told():
    wood = master_from_boards(box([0.3, MDF.sheet_length.value + 0.1, 0.018]), MDF)
    assert any("larger than a sheet" in remark for remark in remarks(wood, "metric"))


def test_oversize_below_zero_is_refused():
    with pytest.raises(UserError, match="oversize"):
        master_from_boards(box([0.3, 0.2, 0.05]), MDF, oversize=-0.001)
