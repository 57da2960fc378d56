"""Faces moved each by its own amount, against closed forms."""

import manifold3d
import numpy as np
import pytest
from hypothesis import assume, given, settings, strategies as st
from scipy.spatial import ConvexHull

from pourwright.geometry import Mesh, box, cone, find_faults, measure, revolve, welded
from pourwright.geometry.face_offset import facing, offset_body, offset_faces

UP, DOWN = (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)
# 256 flat strips take 2 pi^2 / (3 256^2) of a round body's volume, whatever its radius
STRIPS = 2 * np.pi**2 / (3 * 256**2)


def amounts(mesh: Mesh, top: float, floor: float, sides: float) -> np.ndarray:
    return np.where(facing(mesh, UP), top, np.where(facing(mesh, DOWN), floor, sides))


def hull(seed: int) -> Mesh:
    """A convex body of flat faces with corners on a ball of 0.1 m."""
    random = np.random.default_rng(seed)
    points = random.normal(size=(int(random.integers(5, 40)), 3))
    points *= 0.1 / np.linalg.norm(points, axis=1)[:, None]
    found = ConvexHull(points)
    first, second, third = (points[found.simplices[:, i]] for i in range(3))
    outward = (np.cross(second - first, third - first) * found.equations[:, :3]).sum(axis=1) > 0
    return Mesh(points, np.where(outward[:, None], found.simplices, found.simplices[:, ::-1]))


def test_a_box_is_exact_face_by_face() -> None:
    body = box([0.3, 0.2, 0.44])
    depths = amounts(body, 0.0015, 0.0007, 0.0005)
    depths[facing(body, (1.0, 0.0, 0.0))] = 0.004
    lower, upper = offset_faces(body, depths).bounds
    assert upper == pytest.approx([0.154, 0.1005, 0.4415], abs=1e-12)
    assert lower == pytest.approx([-0.1505, -0.1005, -0.0007], abs=1e-12)


def test_a_cylinder_grows_to_r_and_h() -> None:
    body = cone(0.15, 0.15, 0.44)
    grown, faults = offset_body(body, amounts(body, 0.0015, 0.003, 0.0005))
    exact = np.pi * 0.1505**2 * (0.44 + 0.0015 + 0.003)
    assert measure(grown).volume == pytest.approx(exact * (1 - STRIPS), rel=2e-6)
    assert faults == ()


def test_the_side_of_a_cut_cone_moves_along_its_normal() -> None:
    bottom, top, height, side, ends = 0.2, 0.1, 0.3, 0.004, 0.002
    body = cone(bottom, top, height)
    slope = (bottom - top) / height
    # the side's line r = R - slope z moves out by side * sqrt(1 + slope^2) along r
    out = side * np.hypot(1, slope)
    low, high = (bottom - slope * z + out for z in (-ends, height + ends))
    exact = np.pi / 3 * (height + 2 * ends) * (low**2 + low * high + high**2)
    grown = offset_faces(body, amounts(body, ends, ends, side))
    assert measure(grown).volume == pytest.approx(exact * (1 - STRIPS), rel=1e-5)


def test_the_tip_of_a_cone_moves_by_the_sine_of_its_half_angle() -> None:
    body = cone(0.2, 0.0, 0.3)
    grown = offset_faces(body, 0.004)
    # faces of 256 strips stand a little nearer to the axis than the cone
    assert grown.bounds[1, 2] - 0.3 == pytest.approx(0.004 / np.sin(np.arctan(0.2 / 0.3)), rel=2e-4)


@pytest.mark.parametrize("depth", [0.005, -0.005])
def test_a_ball_stays_a_ball(depth: float) -> None:
    angles = np.linspace(-np.pi / 2, np.pi / 2, 65)
    outline = np.stack([0.1 * np.cos(angles), 0.1 * np.sin(angles)], axis=1)
    outline[[0, -1], 0] = 0.0
    body = revolve(outline)
    grown, faults = offset_body(body, depth)
    factor = (0.1 + depth) / 0.1
    assert measure(grown).volume == pytest.approx(measure(body).volume * factor**3, rel=2e-4)
    assert faults == ()


def test_steiner_on_a_body_with_round_edges() -> None:
    # a cylinder with quarter rounds grows to one with larger rounds: Steiner's body of a flat cylinder
    flat, radius, height, depth = 0.08, 0.02, 0.1, 0.003
    turn = np.linspace(0, np.pi / 2, 49)
    low = np.stack([flat + radius * np.sin(turn), radius - radius * np.cos(turn)], axis=1)
    high = np.stack([flat + radius * np.cos(turn), height - radius + radius * np.sin(turn)], axis=1)
    body = revolve(np.concatenate([[[0, 0]], low, high, [[0, height]]]), 512)

    def exact(r: float) -> float:
        """Volume by Pappus: a cylinder, a ring around it, and the half disc that its round edges make."""
        straight = height - 2 * radius
        rim = np.pi * flat**2 * (straight + 2 * r) + np.pi * ((flat + r) ** 2 - flat**2) * straight
        ring = 2 * np.pi * (np.pi * r**2 / 2 * flat + 2 * r**3 / 3)
        return rim + ring

    grown = offset_faces(body, depth)
    assert measure(body).volume == pytest.approx(exact(radius), rel=2e-4)
    assert measure(grown).volume == pytest.approx(exact(radius + depth), rel=2e-4)


def test_a_concave_corner_stays_sharp() -> None:
    # an L of 100 mm with arms of 40 mm, 50 mm deep
    corners = np.array([(0, 0), (0.1, 0), (0.1, 0.04), (0.04, 0.04), (0.04, 0.1), (0, 0.1)])
    bottom, top = (np.column_stack([corners, np.full(6, z)]) for z in (0.0, 0.05))
    sides = [f for i in range(6) for f in ((i, (i + 1) % 6, 6 + (i + 1) % 6), (i, 6 + (i + 1) % 6, 6 + i))]
    lids = [(0, 1, 2), (0, 2, 3), (0, 3, 4), (0, 4, 5)]
    faces = sides + [(6 + a, 6 + b, 6 + c) for a, b, c in lids] + [(a, c, b) for a, b, c in lids]
    body = Mesh(np.concatenate([bottom, top]), faces)
    assert find_faults(body) == ()
    d = 0.003
    grown = offset_faces(body, d)
    area = (0.1 + 2 * d) ** 2 - 0.06**2
    assert measure(grown).volume == pytest.approx(area * (0.05 + 2 * d), rel=1e-12)


def test_two_amounts_on_one_round_surface_blend() -> None:
    body = cone(0.1, 0.1, 0.2, segments=64)
    depths = np.where(facing(body, (1.0, 0.0, 0.0)), 0.002, 0.0005)
    grown, faults = offset_body(body, depths)
    assert faults == ()
    radii = np.hypot(*grown.vertices[np.abs(grown.vertices[:, :2]).max(axis=1) > 0.01, :2].T)
    assert radii.min() > 0.1
    assert radii.max() < 0.1025
    assert grown.bounds[1, 0] == pytest.approx(0.102, abs=1e-5)


def test_a_knife_edge_moves_as_far_as_its_planes_meet() -> None:
    half = np.radians(5.0)
    wide, deep = 0.1, 0.05
    thick = wide * np.tan(half)
    points = [(x, y, z) for z in (0, deep) for x, y in ((0, 0), (wide, -thick), (wide, thick))]
    faces = [(0, 2, 1), (3, 4, 5), (0, 1, 4), (0, 4, 3), (1, 2, 5), (1, 5, 4), (2, 0, 3), (2, 3, 5)]
    body = Mesh(points, faces)
    assert find_faults(body) == ()
    grown = offset_faces(body, 0.0002)
    assert grown.bounds[0, 0] == pytest.approx(-0.0002 / np.sin(half), rel=1e-9)


def test_a_slot_that_closes_is_told_with_its_place() -> None:
    outline = [(0, 0), (50, 0), (50, 20), (30, 20), (30, 10), (26, 10), (26, 20), (0, 20)]
    body = revolve(1e-3 * np.array(outline), 64)
    assert offset_body(body, 0.0015)[1] == ()
    (fault,) = offset_body(body, 0.0025)[1]
    assert fault.kind == "folded"
    assert fault.place is not None
    # the bottom of the slot, between radius 26 and 30 mm at height 10 mm, as far as it could be moved
    assert 0.01 - 1e-9 <= fault.place[2] <= 0.0125
    assert 0.026 <= np.hypot(*fault.place[:2]) <= 0.03


def test_a_wall_between_two_moved_faces_does_not_pass_through_itself() -> None:
    # a wall of 3 mm sanded by 2 mm on both sides is gone
    outline = [(0, 0), (50, 0), (50, 50), (47, 50), (47, 5), (0, 5)]
    body = revolve(1e-3 * np.array(outline), 64)
    assert offset_body(body, -0.001)[1] == ()
    assert offset_body(body, -0.002)[1] != ()


@settings(max_examples=40, deadline=None)
@given(
    sides=st.tuples(*[st.floats(0.02, 0.5)] * 3),
    depths=st.tuples(*[st.floats(-0.004, 0.02)] * 3),
)
def test_out_and_back_gives_the_box_back(sides: tuple[float, ...], depths: tuple[float, ...]) -> None:
    body = box(sides)
    moved = offset_faces(body, amounts(body, *depths))
    back = offset_faces(moved, -amounts(moved, *depths))
    assert back.vertices == pytest.approx(body.vertices, abs=1e-12)


@settings(max_examples=30, deadline=None)
@given(
    radii=st.lists(st.floats(0.05, 0.2), min_size=3, max_size=8),
    depth=st.floats(-0.001, 0.004),
)
def test_out_and_back_gives_a_turned_body_back(radii: list[float], depth: float) -> None:
    outline = np.column_stack([radii, 0.05 * np.arange(len(radii))])
    body = revolve(outline, 96)
    back = offset_faces(offset_faces(body, depth), -depth)
    assert measure(back).volume == pytest.approx(measure(body).volume, rel=1e-5)


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 10_000), depth=st.floats(1e-4, 1e-3))
def test_a_convex_body_grows_by_its_area_at_first(seed: int, depth: float) -> None:
    body = welded(hull(seed))
    before = measure(body)
    # a splinter some millimetres thick has corners sharper than anything that is cast
    assume(before.volume > 0.006 * before.area)
    grown, faults = offset_body(body, depth)
    more = measure(grown).volume - before.volume
    # Steiner: area times depth, and more by the mean curvature of sharp edges; less only by what the least
    # squares give away at corners where more than three planes meet
    assert faults == ()
    assert more >= 0.85 * before.area * depth
    assert measure(offset_faces(grown, -depth)).volume == pytest.approx(before.volume, rel=0.01)


def joined_bodies() -> dict[str, manifold3d.Manifold]:
    """Bodies with the small triangles that booleans leave, and slim ones across their flat faces."""
    solid = manifold3d.Manifold
    seat = solid.cube([0.3, 0.3, 0.04], True).translate([0, 0, 0.42])
    feet = [
        solid.cylinder(0.4, 0.02, 0.03, 64).translate([x, y, 0]) for x in (-0.11, 0.11) for y in (-0.11, 0.11)
    ]
    pipe = solid.cylinder(0.3, 0.05, 0.05, 128, True)
    ring = solid.cylinder(0.1, 0.1, 0.1, 128) - solid.cylinder(0.3, 0.07, 0.07, 128).translate([0, 0, -0.1])
    bitten = solid.cube([0.2, 0.2, 0.2], True) - solid.sphere(0.08, 96).translate([0.1, 0.1, 0.1])
    return {
        "stool": manifold3d.Manifold.batch_boolean([seat, *feet], manifold3d.OpType.Add),
        "pipes": pipe + pipe.rotate([90, 0, 0]),
        "ring": ring,
        "bitten": bitten,
    }


@pytest.mark.parametrize("name", ["stool", "pipes", "ring", "bitten"])
@pytest.mark.parametrize("depth", [0.001, -0.001])
def test_bodies_joined_by_booleans_are_moved_whole(name: str, depth: float) -> None:
    found = joined_bodies()[name].to_mesh64()
    body = welded(Mesh(np.asarray(found.vert_properties)[:, :3], np.asarray(found.tri_verts)))
    before = measure(body)
    grown, faults = offset_body(body, depth)
    assert faults == ()
    # to second order the volume grows by area times depth
    assert measure(grown).volume - before.volume == pytest.approx(before.area * depth, rel=0.02)
    # where the surface was flat and level it still is, and the outer sizes are moved by the depth
    assert grown.bounds - body.bounds == pytest.approx(np.array([[-depth] * 3, [depth] * 3]), abs=2e-6)


def test_a_flat_part_with_holes_is_parted_anew() -> None:
    # a plate with a hole 0.4 mm from its edge: the slim triangles between them turn over
    plate = manifold3d.Manifold.cube([0.1, 0.1, 0.01])
    hole = manifold3d.Manifold.cylinder(0.03, 0.02, 0.02, 64).translate([0.0204, 0.05, -0.01])
    found = (plate - hole).to_mesh64()
    body = welded(Mesh(np.asarray(found.vert_properties)[:, :3], np.asarray(found.tri_verts)))
    grown, faults = offset_body(body, 0.001)
    assert faults == ()
    circle = 32 * np.sin(2 * np.pi / 64)
    # the hole's strips move along their own normals: its corners by 1 mm over the cosine of half a strip
    radius = 0.02 - 0.001 / np.cos(np.pi / 64)
    exact = (0.102**2 - circle * radius**2) * 0.012
    assert measure(grown).volume == pytest.approx(exact, rel=1e-6)
