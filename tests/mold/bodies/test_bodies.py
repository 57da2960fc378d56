"""Rubber, space blocks, master and air fill the box, each measured on its own mesh."""

import dataclasses
from itertools import combinations
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.geometry import box, find_faults, level_volume, measure, read_mesh, revolve
from pourwright.geometry.drawn.joining import Joining
from pourwright.materials.loading import load_materials
from pourwright.mold import MoldChoices, design_mold
from pourwright.mold.bodies.apart import apart
from pourwright.mold.bodies.making import letter, mold_bodies
from pourwright.mold.space_block import SpaceBlock

STOOL = Path(__file__).parents[3] / "examples" / "hourglass-stool" / "stool.stl"
BALANCE = 1e-6
METHODS = ("hung", "screwed")


def designed(mesh, **changes):
    materials = load_materials()
    given = MoldChoices(
        rubber=materials.rubber["silicone-platinum-a25"], board=materials.board["mdf"], casting_density=1100.0
    )
    size = tuple(float(edge) for edge in mesh.bounds[1] - mesh.bounds[0])
    return design_mold(size, level_volume(mesh), dataclasses.replace(given, **changes))


def standing(mesh):
    low, high = mesh.bounds
    return mesh.moved([*(-(low + high) / 2)[:2], -low[2]])


def corner_blocks(mold, deep):
    """A block in each upright corner of the box, and one on the base where there is room."""
    x, y = mold.inside[0] / 2, mold.inside[1] / 2
    for side, wall in ((-1, "left"), (1, "right")):
        for face in (-1, 1):
            xs, ys = sorted((side * x, side * (x - deep))), sorted((face * y, face * (y - deep)))
            yield SpaceBlock((xs[0], ys[0], 0.01), (xs[1], ys[1], 0.04), wall)


@pytest.mark.parametrize("method", METHODS)
@pytest.mark.parametrize("freeboard", [0.0, 0.03])
def test_the_stool_and_its_rubber_fill_the_box(method, freeboard):
    stool = standing(read_mesh(STOOL, "mm"))
    mold = designed(stool, method=method, freeboard=freeboard)
    bodies = mold_bodies(mold, stool)
    assert abs(bodies.missing) < BALANCE
    x, y, z = mold.inside
    assert bodies.box_volume == pytest.approx(x * y * (z + freeboard), rel=1e-12)
    assert bodies.air_volume == pytest.approx(x * y * freeboard, rel=1e-9, abs=1e-12)
    # the rubber is weighed out from the levels of the piece, its body comes from a boolean
    assert bodies.rubber.volume == pytest.approx(mold.rubber.volume, rel=1e-6)
    assert find_faults(bodies.rubber.mesh) == ()


radii = st.lists(st.floats(0.02, 0.12), min_size=3, max_size=7)


@settings(max_examples=12, deadline=None)
@given(
    radii=radii, height=st.floats(0.05, 0.4), method=st.sampled_from(METHODS), freeboard=st.floats(0.0, 0.05),
    deep=st.none() | st.floats(0.002, 0.012),
)  # fmt: skip
def test_turned_pieces_with_and_without_blocks(radii, height, method, freeboard, deep):
    piece = revolve(np.column_stack([radii, np.linspace(0.0, height, len(radii))]), 40)
    mold = designed(piece, method=method, freeboard=freeboard)
    if deep is not None:
        mold = dataclasses.replace(mold, blocks=tuple(corner_blocks(mold, deep)))
    bodies = mold_bodies(mold, piece)
    assert abs(bodies.missing) < BALANCE
    assert bodies.wood_volume == pytest.approx(0.0 if deep is None else 4 * 0.03 * deep**2, rel=1e-9)
    total = measure(bodies.rubber.mesh).volume + bodies.wood_volume + bodies.master.volume
    assert total == pytest.approx(np.prod(mold.inside), rel=BALANCE)


@settings(max_examples=8, deadline=None)
@given(
    places=st.lists(st.tuples(*[st.floats(-0.04, 0.04)] * 3), min_size=1, max_size=3),
    turn=st.floats(0, np.pi), method=st.sampled_from(METHODS),
)  # fmt: skip
def test_joined_and_turned_boxes(places, turn, method):
    joining = Joining()
    joining.add(box([0.1, 0.1, 0.1]))
    rotation = np.eye(4)
    rotation[:2, :2] = [[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]]
    for place in places:
        joining.add(box([0.09, 0.08, 0.07]).transformed(rotation).moved(place))
    piece = standing(joining.body())
    assert abs(mold_bodies(designed(piece, method=method), piece).missing) < BALANCE


def test_a_master_larger_than_its_cavity_stands_on_its_board_or_hangs_above_the_floor():
    cavity = box([0.2, 0.2, 0.3])
    master = box([0.201, 0.201, 0.3015])
    screwed = mold_bodies(designed(cavity, method="screwed"), master)
    assert screwed.master.mesh.bounds[:, 2] == pytest.approx([-0.0015, 0.3])
    hung = mold_bodies(designed(cavity, method="hung"), master)
    assert hung.master.mesh.bounds[0, 2] == pytest.approx(0.0)
    for bodies in (screwed, hung):
        assert abs(bodies.missing) < BALANCE
        assert bodies.rubber.volume < designed(cavity).rubber.volume


def test_the_mouth_is_open():
    mesh = mold_bodies(designed(box([0.2, 0.2, 0.3])), box([0.2, 0.2, 0.3])).rubber.mesh
    top = mesh.vertices[mesh.faces][:, :, 2].min(axis=1) > 0.3 - 1e-9
    opening = np.linalg.norm(mesh.area_vectors[top], axis=1).sum()
    assert opening == pytest.approx(0.24**2 - 0.2**2, rel=1e-9)


def test_a_mouth_that_is_level_but_for_round_off_is_open_too():
    piece = box([0.2, 0.2, 0.3])
    points = piece.vertices.copy()
    points[-1, 2] -= 2e-10
    bodies = mold_bodies(designed(piece), type(piece)(points, piece.faces))
    assert len(bodies.rubber.mesh.faces) < 40
    assert abs(bodies.missing) < BALANCE


@pytest.mark.parametrize("method", METHODS)
def test_the_panels_close_the_box_and_do_not_overlap(method):
    piece = box([0.2, 0.15, 0.3])
    mold = designed(piece, method=method, freeboard=0.02)
    bodies = mold_bodies(mold, piece)
    upright = [body for body in bodies.panels if body.place in {"left", "right", "front", "back"}]
    t, (x, y, z) = mold.choices.thickness, mold.inside
    ring = ((x + 2 * t) * (y + 2 * t) - x * y) * (z + 0.02)
    assert sum(body.volume for body in upright) == pytest.approx(ring, rel=1e-9)
    for one, other in combinations(bodies.panels, 2):
        low = np.maximum(one.mesh.bounds[0], other.mesh.bounds[0])
        high = np.minimum(one.mesh.bounds[1], other.mesh.bounds[1])
        # cuboids along the axes: they share no more than a face
        assert np.maximum(high - low, 0.0).prod() < 1e-12
    names = {(body.name, body.place) for body in bodies.panels if body not in upright}
    both = {("base", "above"), ("floor for casting", "below")}
    assert names == ({("base", "below")} if method == "hung" else both)


def test_bodies_moved_apart_keep_clear_of_one_another():
    piece = revolve([[0.08, 0.0], [0.05, 0.1], [0.09, 0.2]], 32)
    mold = designed(piece, method="screwed")
    mold = dataclasses.replace(mold, blocks=tuple(corner_blocks(mold, 0.01)))
    bounds = [body.mesh.moved(shift).bounds for body, shift in apart(mold_bodies(mold, piece))]
    for number, (low, high) in enumerate(bounds):
        for other_low, other_high in bounds[number + 1 :]:
            assert (high <= other_low + 1e-9).any() or (other_high <= low + 1e-9).any()


def test_letters_go_on_after_z():
    assert [letter(number) for number in (0, 25, 26, 51, 52)] == ["A", "Z", "AA", "AZ", "BA"]
