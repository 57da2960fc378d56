import numpy as np
import pytest

from pourwright.foundation.checks import RangeError
from pourwright.foundation.errors import UserError
from pourwright.geometry import UP, Grid, Mesh, box, cone, graded_axis, measure, pour_frame, revolve
from tests.geometry.bodies import hourglass


def test_mesh_cannot_be_written_to():
    source = np.zeros((3, 3))
    mesh = Mesh(source, [[0, 1, 2]])
    source[0, 0] = 1.0
    assert mesh.vertices[0, 0] == 0.0
    with pytest.raises(ValueError, match="read-only"):
        mesh.vertices[0, 0] = 1.0


def test_mesh_refuses_a_face_without_vertex():
    with pytest.raises(ValueError, match="vertex that is not there"):
        Mesh(np.zeros((3, 3)), [[0, 1, 3]])


def test_mirror_image_keeps_its_outside():
    mirrored = hourglass().transformed(np.diag([-1.0, 1.0, 1.0, 1.0]))
    assert measure(mirrored).volume == pytest.approx(measure(hourglass()).volume, rel=1e-12)


@pytest.mark.parametrize("up", UP)
def test_every_way_up(up):
    mesh = box([0.2, 0.3, 0.5]).moved([1.0, 2.0, 3.0])
    piece, frame = pour_frame(mesh, up)
    assert frame.height == pytest.approx({"x": 0.2, "y": 0.3, "z": 0.5}[up[1]], rel=1e-12)
    lower, upper = piece.bounds
    assert lower[2] == 0.0
    assert lower[:2] == pytest.approx(-upper[:2], abs=1e-15)
    assert measure(piece).volume == pytest.approx(0.03, rel=1e-12)
    direction = np.zeros(3)
    direction["xyz".index(up[1])] = 1.0 if up[0] == "+" else -1.0
    assert (frame.matrix[:3, :3] @ direction).tolist() == [0.0, 0.0, 1.0]
    assert frame.flipped == (up == "-z")


def test_both_readings_of_a_height():
    frame = pour_frame(cone(0.2, 0.1, 0.4), "-z")[1]
    assert frame.as_standing(0.1) == pytest.approx(0.3, rel=1e-12)
    assert frame.as_poured(frame.as_standing(0.07)) == pytest.approx(0.07, rel=1e-12)
    sideways = pour_frame(cone(0.2, 0.1, 0.4), "+x")[1]
    assert sideways.as_standing(0.1) == 0.1


def test_unknown_way_up():
    with pytest.raises(UserError, match=r"'up'.*allowed: \+z, -z"):
        pour_frame(box([1, 1, 1]), "up")


def test_cone_deficit_is_as_stated():
    for segments in (32, 256):
        share = 1 - measure(cone(0.1, 0.1, 0.4, segments)).volume / (np.pi * 0.01 * 0.4)
        assert share == pytest.approx(2 * np.pi**2 / (3 * segments**2), rel=1e-2)


@pytest.mark.parametrize("profile", [[[0.1, 0.0], [0.2, 0.3]], [[0.2, 0.3], [0.1, 0.0]]])
def test_outline_either_way_round_faces_outward(profile):
    assert measure(revolve(profile)).volume > 0


def test_pointed_cones():
    for radii in ((0.0, 0.2), (0.2, 0.0)):
        assert measure(cone(*radii, 0.3, 512)).volume == pytest.approx(np.pi * 0.04 * 0.3 / 3, rel=1e-4)


@pytest.mark.parametrize(
    ("profile", "reason"),
    [
        ([[0.1, 0.0]], "two or more"),
        ([[-0.1, 0.0], [0.1, 0.1]], "below zero"),
        ([[0.1, float("nan")], [0.1, 0.1]], "no number"),
        ([[0.0, 0.0], [0.0, 0.1]], "one line"),
        ([[0.1, 0.0], [0.0, 0.1], [0.1, 0.2]], "touches the axis"),
        ([[0.1, 0.0], [0.2, 0.2], [0.2, 0.0], [0.1, 0.2]], "crosses itself"),
        ([[0.1, 0.0], [0.2, 0.2], [0.3, 0.2], [0.05, 0.1]], "crosses itself"),
    ],
)
def test_outline_that_makes_no_body(profile, reason):
    with pytest.raises(UserError, match=reason):
        revolve(profile)


@pytest.mark.parametrize("size", [[1, 1], [1, 1, 0], [1, -1, 1], [1, 1, float("inf")]])
def test_box_without_size(size):
    with pytest.raises(UserError, match="three sizes"):
        box(size)


def test_axis_hits_every_line():
    lines = [0.3, 0.0, 0.1, 0.1234567, 0.29]
    edges = graded_axis(lines, 0.008)
    assert set(lines) <= set(edges.tolist())
    assert np.diff(edges).max() <= 0.008 * (1 + 1e-9)
    assert np.diff(edges).min() > 0


def test_axis_merges_lines_that_are_nearly_one():
    edges = graded_axis([0.0, 0.1, 0.1 + 1e-12, 0.2 - 1e-12, 0.2], 0.1)
    assert edges.tolist() == [0.0, 0.1, 0.2]
    assert graded_axis([0.0, 0.1, 0.101, 0.2], 0.1, merge=0.002).tolist() == [0.0, 0.1, 0.2]


def test_axis_without_extent_or_spacing():
    with pytest.raises(ValueError, match="two different"):
        graded_axis([0.1, 0.1], 0.01)
    with pytest.raises(RangeError):
        graded_axis([0.0, 0.1], 0.0)


def test_grid_refuses_edges_that_do_not_rise():
    with pytest.raises(ValueError, match="along y"):
        Grid([0, 1], [0, 0], [0, 1])
