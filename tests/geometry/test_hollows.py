"""Hollows that the space around a body does not reach."""

import manifold3d
import numpy as np
import pytest

from pourwright.geometry import Mesh, box, cone, hollows, joined, revolve
from tests.geometry.bodies import ball, hourglass, torus

POT = [[0.0, 0.0], [0.06, 0.0], [0.06, 0.1], [0.05, 0.1], [0.05, 0.01], [0.0, 0.01]]
UPSIDE_DOWN = [[radius, 0.1 - height] for radius, height in reversed(POT)]


@pytest.mark.parametrize(
    "mesh", [box([0.2, 0.1, 0.3]), cone(0.2, 0.0, 0.3), ball(), torus(), hourglass()], ids=str
)
def test_bodies_that_are_reached_all_round_have_none(mesh):
    assert hollows(mesh) == ()


def test_a_pot_with_its_mouth_up_holds_what_is_in_it():
    (found,) = hollows(revolve(POT, 256))
    assert found.open_above
    # pi r^2 h of the room inside
    assert found.volume == pytest.approx(np.pi * 0.05**2 * 0.09, rel=1e-3)
    assert found.place == pytest.approx([0.0, 0.0, 0.055], abs=1e-3)


def test_the_same_pot_turned_over_is_reached_from_below():
    assert hollows(revolve(UPSIDE_DOWN, 256)) == ()


def test_a_pot_with_a_drain_is_reached_through_it():
    pot = manifold3d.Manifold.cylinder(100.0, 60.0, 60.0, 64) - manifold3d.Manifold.cylinder(
        100.0, 50.0, 50.0, 64
    ).translate((0.0, 0.0, 10.0))
    drained = (pot - manifold3d.Manifold.cylinder(10.0, 1.0, 1.0, 16)).to_mesh64()
    assert hollows(Mesh(np.asarray(drained.vert_properties)[:, :3], np.asarray(drained.tri_verts))) == ()
    raw = pot.to_mesh64()
    assert len(hollows(Mesh(np.asarray(raw.vert_properties)[:, :3], np.asarray(raw.tri_verts)))) == 1


@pytest.mark.parametrize("wall", [1e-2, 1e-3, 1e-4])
def test_walls_may_be_as_thin_as_they_like(wall):
    room = 0.1 - 2 * wall
    sealed = joined([box([0.1, 0.1, 0.1]), box([room] * 3).moved([0, 0, wall]).reversed()])
    (found,) = hollows(sealed)
    assert not found.open_above
    assert found.volume == pytest.approx(room**3, rel=1e-9)


def test_closed_hollows_come_largest_first():
    small, large = box([0.02, 0.02, 0.02]), box([0.05, 0.05, 0.05])
    block = joined(
        [
            box([0.3, 0.2, 0.1]),
            small.moved([-0.1, 0.0, 0.04]).reversed(),
            large.moved([0.1, 0.0, 0.025]).reversed(),
        ]
    )
    found = hollows(block)
    assert [hollow.open_above for hollow in found] == [False, False]
    assert [hollow.volume for hollow in found] == pytest.approx([125e-6, 8e-6], rel=1e-9)
    assert found[0].place == pytest.approx([0.1, 0.0, 0.05], abs=2e-3)
