"""Caught air against closed forms, a boolean kernel, and a count of cubes."""

import manifold3d
import numpy as np
import pytest
import trimesh
from hypothesis import assume, given, settings, strategies as st

from pourwright.geometry import Mesh, box, cone, pockets, revolve, trapped_volume
from tests.geometry.bodies import ball, hourglass, torus
from tests.geometry.lattice import caught, cubes, sound
from tests.properties.test_geometry import random_solid

CUP = [[0.05, 0.0], [0.05, 0.1], [0.04, 0.1], [0.04, 0.02]]
RADIUS, DEEP = 0.04, 0.08
POLYGON = 128 * np.sin(2 * np.pi / 256) / np.pi
"""Area of the 256-cornered disc over that of its circle."""


def turned(mesh, degrees, axis=(1.0, 0.0, 0.0)):
    return mesh.transformed(trimesh.transformations.rotation_matrix(np.radians(degrees), axis))


def solid(*boxes):
    """Unite boxes given by their lower and upper corners."""
    whole = manifold3d.Manifold()
    for low, high in boxes:
        size = np.subtract(high, low)
        whole += manifold3d.Manifold.cube(tuple(size), False).translate(tuple(low))
    return whole


def meshed(manifold):
    raw = manifold.to_mesh64()
    return Mesh(np.asarray(raw.vert_properties)[:, :3], np.asarray(raw.tri_verts))


@pytest.mark.parametrize("body", [box([1, 1, 1]), cone(0.1, 0.0, 0.3), hourglass(), ball(), torus()])
def test_bodies_that_catch_no_air(body):
    assert pockets(body) == ()
    assert pockets(body, outside=True) == ()
    assert pockets(turned(body, 180)) == ()
    assert pockets(turned(body, 180), outside=True) == ()


def test_ring_on_edge_catches_none():
    assert pockets(turned(torus(), 90)) == ()
    assert pockets(turned(torus(), 90), outside=True) == ()


def test_cup_hung_upside_down():
    (found,) = pockets(turned(revolve(CUP), 180), outside=True)
    assert found.volume == pytest.approx(np.pi * RADIUS**2 * DEEP * POLYGON, rel=1e-9)
    assert (found.lip, found.top) == pytest.approx((-0.1, -0.02))
    assert pockets(revolve(CUP), outside=True) == ()


@pytest.mark.parametrize("degrees", [5, 20, 40])
def test_leaning_cup(degrees):
    """The level goes through the highest point of the rim: a cylinder cut askew, mean depth at its axis."""
    (found,) = pockets(turned(revolve(CUP), 180 + degrees), outside=True)
    mean = DEEP - RADIUS * np.tan(np.radians(degrees))
    assert found.volume == pytest.approx(np.pi * RADIUS**2 * mean, rel=3e-4)


def test_ball_on_a_stick_that_leaves_sideways():
    """A ball filled through a tube at its middle keeps the cap above the tube's ceiling."""
    middle = manifold3d.Manifold.sphere(50.0, 256)
    tube = manifold3d.Manifold.cube((100.0, 20.0, 20.0), False).translate((0.0, -10.0, -10.0))
    riser = manifold3d.Manifold.cube((20.0, 20.0, 100.0), False).translate((100.0, -10.0, -10.0))
    body = middle + tube + riser
    (found,) = pockets(meshed(body))
    assert found.lip == pytest.approx(10.0)
    assert found.place == pytest.approx([0.0, 0.0, 50.0], abs=0.01)
    assert found.volume == pytest.approx(np.pi * 40**2 * (3 * 50 - 40) / 3, rel=2e-3)
    kept = body.trim_by_plane((0.0, 0.0, 1.0), 10.0).trim_by_plane((-1.0, 0.0, 0.0), -90.0)
    assert found.volume == pytest.approx(kept.volume(), rel=1e-9)


def test_two_highs_that_meet_before_they_are_closed_off():
    body = solid(
        ((0, 0, 20), (50, 10, 30)), ((0, 0, 20), (20, 10, 60)), ((30, 0, 20), (50, 10, 50)),
        ((20, 0, 0), (30, 10, 20)), ((20, 0, 0), (100, 10, 10)), ((90, 0, 0), (100, 10, 90)),
    )  # fmt: skip
    (found,) = pockets(meshed(body))
    # the shaft below the chamber belongs to it down to the ceiling of the channel
    assert found.lip == pytest.approx(10)
    assert found.volume == pytest.approx(10 * (50 * 10 + 20 * 30 + 20 * 20 + 10 * 10))
    assert [(peak.lip, peak.volume) for peak in found.peaks] == [
        (pytest.approx(10), pytest.approx(found.volume)),
        (pytest.approx(30), pytest.approx(20 * 10 * 20)),
    ]
    assert [peak.place[2] for peak in found.peaks] == [60, 50]


def test_two_legs_of_one_height_both_breathe():
    table = [((0, 0, 0), (100, 100, 10)), ((0, 0, 0), (10, 10, 50)), ((90, 90, 0), (100, 100, 50))]
    assert pockets(meshed(solid(*table))) == ()
    (short,) = pockets(meshed(solid(*table, ((90, 0, 0), (100, 10, 40)))))
    assert (short.volume, short.lip) == (pytest.approx(100 * 30), pytest.approx(10))


def test_closed_hollow_is_never_left():
    hollow = meshed(solid(((0, 0, 0), (10, 10, 10))) - solid(((2, 2, 2), (8, 8, 8))))
    (found,) = pockets(hollow, outside=True)
    assert found.volume == pytest.approx(6**3)
    assert pockets(hollow) == ()


def blocks(seed):
    """Boxes of cubes put down and cut away in turn; nothing where some touch along an edge only."""
    rng = np.random.default_rng(seed)
    full = np.zeros((10, 10, 10), dtype=bool)
    for number in range(12):
        low = rng.integers(0, 8, 3)
        high = low + rng.integers(2, 7, 3)
        full[low[0] : high[0], low[1] : high[1], low[2] : high[2]] = number % 3 < 2
    if seed % 2:
        # the same as a hollow in a bell
        full = np.pad(~full, 1, constant_values=True)[:, :, 1:]
    return full if full.any() and sound(full) else None


BLOCKS = [full for full in map(blocks, range(200)) if full is not None][:40]


def test_cube_by_cube():
    """A flood fill over the lattice, which shares nothing with the tree of regions."""
    amounts = []
    for full in BLOCKS:
        mesh = cubes(full)
        top = np.zeros_like(full)
        top[:, :, int(np.nonzero(full)[2].max())] = True
        within = caught(full, top)
        assert trapped_volume(pockets(mesh)) == pytest.approx(within, abs=1e-9)
        around = np.pad(~full, 1, constant_values=True)
        sides = np.ones_like(around)
        sides[1:-1, 1:-1, :-1] = False
        about = caught(around, sides)
        assert trapped_volume(pockets(mesh, outside=True)) == pytest.approx(about, abs=1e-9)
        amounts.append((within > 0, about > 0))
    # the bodies are worth asking: some catch air inside, some outside
    assert np.array(amounts).sum(axis=0).min() >= 5


@settings(max_examples=20, deadline=None, derandomize=True)
@given(st.integers(0, 2**32 - 1), st.floats(-180, 180), st.booleans())
def test_turning_about_up_changes_nothing(seed, degrees, outside):
    _, body = random_solid(seed % 50)
    found = pockets(body, outside=outside)
    assume(found)
    again = pockets(turned(body, degrees, (0.0, 0.0, 1.0)), outside=outside)
    assert trapped_volume(again) == pytest.approx(trapped_volume(found), rel=1e-6, abs=1e-12)
    assert again[0].lip == pytest.approx(found[0].lip, abs=1e-9)


@settings(max_examples=15, deadline=None, derandomize=True)
@given(st.integers(0, 40))
def test_volume_above_the_lip_against_a_boolean_kernel(seed):
    body, mesh = random_solid(seed, parts=5)
    found = pockets(mesh)
    assume(found and len(found) == 1 and len(found[0].peaks) == 1)
    lip = found[0].lip
    parts = body.trim_by_plane((0.0, 0.0, 1.0), lip + 1e-9).decompose()
    volumes = [part.volume() for part in parts]
    assert min(abs(volume - found[0].volume) for volume in volumes) < 1e-6 * max(volumes)
