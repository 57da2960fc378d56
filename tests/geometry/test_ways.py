"""Ways up: candidates, their measures, and directions that lie askew."""

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings, strategies as st

from pourwright.foundation.errors import UserError
from pourwright.geometry import (
    box,
    cone,
    direction,
    direction_name,
    joined,
    level_volume,
    levelled,
    measure,
    measure_ways,
    pour_frame,
    revolve,
    trapped_volume,
    ways_up,
)
from pourwright.geometry.ways_up.flats import flat_faces, hull_faces
from tests.geometry.bodies import ball, hourglass
from tests.properties.test_geometry import random_solid

BOWL = revolve([[0.05, 0.0], [0.12, 0.07], [0.112, 0.07], [0.045, 0.008]], 96)
vectors = st.tuples(*[st.floats(-1, 1)] * 3).filter(lambda v: np.linalg.norm(v) > 0.1)


def turned(mesh, seed):
    rng = np.random.default_rng(seed)
    matrix = trimesh.transformations.random_rotation_matrix(rng.random(3))
    return mesh.transformed(matrix), matrix[:3, :3]


def test_directions_by_name_and_by_number():
    assert direction([0, 0, -2.0]).tolist() == direction("-z").tolist()
    assert direction_name([0, 0, -2.0]) == "-z"
    assert direction_name([1.0, 1.0, 0.0]) == "0.707107, 0.707107, 0"


@pytest.mark.parametrize("bad", ["up", [0.0, 0.0, 0.0], [1.0, 2.0], [np.nan, 0.0, 1.0]])
def test_no_direction(bad):
    with pytest.raises(UserError, match="no direction for up"):
        pour_frame(box([1, 1, 1]), bad)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(vectors, st.integers(0, 30))
def test_any_way_up_keeps_the_body(vector, seed):
    _, body = random_solid(seed)
    piece, frame = pour_frame(body, list(vector))
    unit = np.array(vector) / np.linalg.norm(vector)
    reach = body.vertices[np.unique(body.faces)] @ unit
    assert measure(piece).volume == pytest.approx(measure(body).volume, rel=1e-9)
    assert frame.height == pytest.approx(np.ptp(reach), rel=1e-9)
    assert level_volume(piece).total == pytest.approx(measure(body).volume, rel=1e-9)
    turn = frame.matrix[:3, :3]
    assert turn @ turn.T == pytest.approx(np.eye(3), abs=1e-12)
    assert np.linalg.det(turn) == pytest.approx(1.0)
    assert turn @ unit == pytest.approx([0, 0, 1], abs=1e-5)
    # the same corner, found through the frame and in the file
    corner = int(body.faces[0, 0])
    ground = body.bounds[0, 2]
    standing = frame.standing_height(piece.vertices[corner])
    assert standing == pytest.approx(body.vertices[corner, 2] - ground, abs=1e-9)


@pytest.mark.parametrize(
    ("up", "upright"), [("+z", True), ("-z", True), ("+x", False), ([0.0, 0.6, 0.8], False)]
)
def test_levels_as_poured_are_levels_as_it_stands_only_upright(up, upright):
    assert pour_frame(box([0.1, 0.2, 0.3]), up)[1].upright is upright


def test_flat_faces_of_a_turned_box():
    mesh, turn = turned(box([0.3, 0.2, 0.1]), 5)
    flats = flat_faces(mesh)
    assert [flat.area for flat in flats] == pytest.approx([0.06, 0.06, 0.03, 0.03, 0.02, 0.02])
    assert abs(flats[0].direction @ turn[:, 2]) == pytest.approx(1.0)
    assert len(ways_up(mesh)) == 12


def test_a_ball_has_no_way_of_its_own():
    assert len(ways_up(ball())) == 6


def test_legs_make_a_face_of_the_hull():
    legs = [box([0.02, 0.02, 0.4]).moved([x, y, 0]) for x in (-0.2, 0.2) for y in (-0.2, 0.2)]
    found = hull_faces(joined([*legs, box([0.42, 0.42, 0.02]).moved([0, 0, 0.4])]))
    below = next(flat for flat in found if flat.direction[2] < -0.99)
    assert below.area == pytest.approx(0.42**2)


@pytest.mark.parametrize("off", [0.0, 0.3, 0.9])
def test_a_rough_direction_is_laid_onto_the_face_it_means(off):
    mesh, turn = turned(box([0.3, 0.2, 0.1]), 3)
    rough = trimesh.transformations.rotation_matrix(np.radians(off), turn[:, 0])[:3, :3] @ turn[:, 2]
    way, angle = levelled(mesh, rough)
    assert way == pytest.approx(turn[:, 2], abs=1e-9)
    assert np.degrees(angle) == pytest.approx(off, abs=1e-6)
    far = trimesh.transformations.rotation_matrix(np.radians(3), turn[:, 0])[:3, :3] @ turn[:, 2]
    assert levelled(mesh, far)[0].tolist() == far.tolist()


def test_bowl_both_ways_up():
    rim_up, rim_down = measure_ways(BOWL, [[0, 0, 1.0], [0, 0, -1.0]])
    inside = measure(revolve([[0.045, 0.008], [0.112, 0.07]], 96)).volume
    # as it stands rubber in it would hang on nothing; upside down it is the air under a hung master
    assert rim_up.basins == pytest.approx(inside, rel=1e-6)
    assert rim_up.hung == ()
    assert trapped_volume(rim_down.hung) == pytest.approx(inside, rel=1e-6)
    assert (rim_down.screwed, rim_down.basins) == ((), 0.0)
    assert rim_down.open_area == pytest.approx(0.05**2 * 48 * np.sin(2 * np.pi / 96), rel=1e-6)


def test_stool_lies_worse_than_it_stands():
    stands, lies = measure_ways(hourglass(), [[0, 0, 1.0], [1.0, 0, 0]])
    assert stands.open_share == pytest.approx(0.15**2 / 0.16**2, rel=1e-3)
    assert lies.open_area == 0.0
    assert trapped_volume(lies.casting) > 0
    assert stands.casting == ()


@settings(max_examples=12, deadline=None, derandomize=True)
@given(st.integers(0, 2**32 - 1))
def test_turning_the_file_changes_no_measure(seed):
    mesh, turn = turned(BOWL, seed)
    before = measure_ways(BOWL, [[0, 0, -1.0]])[0]
    after = measure_ways(mesh, [turn @ np.array([0, 0, -1.0])])[0]
    for name in ("open_area", "widest", "basins", "blocked", "head"):
        assert getattr(after, name) == pytest.approx(getattr(before, name), rel=1e-5, abs=1e-9), name
    assert trapped_volume(after.hung) == pytest.approx(trapped_volume(before.hung), rel=1e-6)
    assert after.stretch.share == pytest.approx(before.stretch.share, rel=0.01)


def test_cone_on_its_point_and_on_its_base():
    point_up, point_down = measure_ways(cone(0.1, 0.0, 0.3), [[0, 0, 1.0], [0, 0, -1.0]])
    assert (point_up.open_area, point_down.blocked) == (0.0, 0.0)
    assert point_down.open_share == pytest.approx(1.0)


def test_a_direction_of_very_large_numbers():
    assert direction([1e300, 0.0, 1e300]).tolist() == pytest.approx([0.5**0.5, 0.0, 0.5**0.5])
