import numpy as np
import pytest

from pourwright.foundation.errors import UserError
from pourwright.geometry import Mesh, box, cone, find_faults, joined, refuse_faults, winding_range
from tests.geometry.bodies import ball, hourglass, torus, turned

CUBE = box([0.2, 0.2, 0.2])


def kinds(mesh):
    return [fault.kind for fault in find_faults(mesh)]


def without_faces(mesh, *dropped):
    return Mesh(mesh.vertices, np.delete(mesh.faces, dropped, axis=0))


def with_flipped(mesh, *turned_faces):
    faces = mesh.faces.copy()
    faces[list(turned_faces)] = faces[list(turned_faces)][:, ::-1]
    return Mesh(mesh.vertices, faces)


def soup(mesh):
    """Give every triangle its own corners, as STL does."""
    return Mesh(mesh.triangles.reshape(-1, 3), np.arange(3 * len(mesh.faces)).reshape(-1, 3))


@pytest.mark.parametrize(
    "mesh",
    [CUBE, torus(), hourglass(), cone(0.1, 0.0, 0.2), turned(hourglass(), 2), ball(), soup(torus()),
     ball().moved([50.0, -80.0, 30.0])],
)  # fmt: skip
def test_sound_bodies(mesh):
    assert kinds(mesh) == []
    refuse_faults(mesh, "sound")


def test_cavity_is_sound():
    assert kinds(joined([CUBE, ball(0.05, center=(0, 0, 0.1)).reversed()])) == []


def test_open():
    (fault,) = find_faults(without_faces(CUBE, 2))
    assert fault.kind == "open"
    assert fault.count == 3
    assert fault.place == pytest.approx([0.0, -0.1, 0.2], abs=0.11)
    assert "3 edges are not closed" in fault.message


def test_one_missing_triangle_is_placed_at_its_rim():
    mesh = ball(0.1)
    (fault,) = find_faults(without_faces(mesh, 77))
    assert np.linalg.norm(fault.place - mesh.triangles[77].mean(axis=0)) < 0.02


def test_inverted():
    assert kinds(torus().reversed()) == ["inverted"]


def test_one_of_two_bodies_inverted():
    assert "inverted" in kinds(joined([CUBE, CUBE.moved([0.5, 0, 0]).reversed()]))


def test_flipped_faces():
    mesh = ball(0.1)
    (fault,) = find_faults(with_flipped(mesh, 10))
    assert (fault.kind, fault.count) == ("flipped", 3)
    assert np.linalg.norm(fault.place - mesh.triangles[10].mean(axis=0)) < 0.02


def test_overlapping_bodies():
    mesh = joined([CUBE, CUBE.moved([0.15, 0.15, 0.15])])
    faults = find_faults(mesh)
    assert [fault.kind for fault in faults] == ["overlapping", "bodies"]
    assert (faults[0].place > 0.05).all()
    assert "2 times" in faults[0].message


def test_body_that_crosses_itself():
    profile_turned_inside_out = hourglass().vertices.copy()
    knot = Mesh(profile_turned_inside_out, hourglass().faces)
    twisted = knot.vertices.copy()
    twisted[:, 2] = np.where(twisted[:, 2] > 0.3, twisted[:, 2] - 0.25, twisted[:, 2])
    assert {"overlapping", "inverted"} & set(kinds(Mesh(twisted, knot.faces)))


@pytest.mark.parametrize("axis", range(3))
def test_overlap_is_seen_along_every_axis(axis):
    found = winding_range(joined([CUBE, CUBE.moved([0.15, 0.15, 0.15])]), axis)
    assert (found.lowest, found.highest, found.unclosed) == (0, 2, 0)
    assert (found.highest_place > [0.05, 0.05, 0.15]).all()
    assert (found.highest_place < [0.1, 0.1, 0.2]).all()


def test_open_surface_leaves_columns_unclosed():
    assert winding_range(without_faces(CUBE, 2)).unclosed > 0


def test_doubled_body():
    faults = find_faults(joined([CUBE, CUBE]))
    assert faults[0].kind == "doubled"
    assert faults[0].count == 12


def test_bodies_that_share_a_wall():
    assert kinds(joined([CUBE, CUBE.moved([0.2, 0, 0])]))[0] == "doubled"


def test_separate_bodies():
    (fault,) = find_faults(joined([CUBE, ball(0.05, center=(0.5, 0.0, 0.1))]))
    assert (fault.kind, fault.count) == ("bodies", 2)
    assert fault.place == pytest.approx([0.5, 0.0, 0.1], abs=1e-9)


def test_non_manifold_edge():
    mesh = joined([CUBE, CUBE.moved([0.2, 0.2, 0.0])])
    fault = find_faults(mesh)[0]
    assert (fault.kind, fault.count) == ("non-manifold", 1)
    assert fault.place == pytest.approx([0.1, 0.1, 0.1], abs=1e-12)


def test_triangle_without_area_does_no_harm():
    mesh = box([0.2, 0.2, 0.2])
    first = mesh.faces[0]
    middle = len(mesh.vertices)
    vertices = np.concatenate([mesh.vertices, mesh.vertices[first[:2]].mean(axis=0, keepdims=True)])
    split = [[first[0], middle, first[2]], [middle, first[1], first[2]], [first[0], first[1], middle]]
    (fault,) = find_faults(Mesh(vertices, np.concatenate([mesh.faces[1:], split])))
    assert (fault.kind, fault.count, fault.refused) == ("degenerate", 1, False)


def test_flat():
    assert "flat" in kinds(  # two sheets
        Mesh([[0, 0, 0], [1, 0, 0], [0, 1, 0], [1, 1, 0]], [[0, 1, 2], [1, 3, 2], [0, 2, 3], [0, 3, 1]])
    )


def test_not_numbers():
    vertices = CUBE.vertices.copy()
    vertices[3, 1] = np.nan
    (fault,) = find_faults(Mesh(vertices, CUBE.faces))
    assert fault.kind == "nan"
    assert "corner number 4" in fault.message


def test_empty():
    assert kinds(Mesh(np.empty((0, 3)), np.empty((0, 3)))) == ["empty"]


@pytest.mark.parametrize(("factor", "words"), [(1e-3, "only 0.2 mm"), (200.0, "40 m large")])
def test_absurd_sizes_point_at_the_unit(factor, words):
    mesh = CUBE.transformed(np.diag([factor, factor, factor, 1.0]))
    with pytest.raises(UserError, match="unit") as refused:
        refuse_faults(mesh, "part.stl")
    assert words in str(refused.value)


@pytest.mark.parametrize(
    ("unit", "words"), [("mm", "x = 500, y = 0, z = 100 mm"), ("in", "z = 3.937 in"), (None, "mm")]
)
def test_place_in_the_makers_unit(unit, words):
    with pytest.raises(UserError, match="2 separate bodies") as refused:
        refuse_faults(joined([CUBE, ball(0.05, center=(0.5, 0.0, 0.1))]), "part.stl", unit)
    line = str(refused.value)
    assert line.startswith("part.stl: ")
    assert words in line
    assert "\n" not in line


def test_a_foil_is_nothing_to_cast():
    (fault,) = find_faults(box([0.2, 0.2, 1e-4]))
    assert fault.kind == "size"
    assert fault.message == "the shape is only 0.1 mm thick"
