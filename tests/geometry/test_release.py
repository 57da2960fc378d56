import numpy as np
import pytest

from pourwright.foundation.errors import UserError
from pourwright.geometry import box, cone, open_face, undercut
from tests.geometry.bodies import ball, hourglass, torus


def test_open_face_of_an_hourglass():
    found = open_face(hourglass(256))
    assert found.height == 0.42
    assert found.area == pytest.approx(np.pi * 0.15**2, rel=2e-4)
    assert found.upper == pytest.approx([0.15, 0.15], rel=1e-12)


def test_dome_has_no_open_face():
    assert open_face(ball()).area == 0.0


def test_straight_and_tapered_bodies_come_out():
    straight = undercut(box([0.2, 0.3, 0.1]))
    assert (straight.blocked_share, straight.parted_share, straight.deepest) == (0.0, 0.0, 0.0)
    assert straight.least_draft == pytest.approx(0.0, abs=1e-12)
    tapered = undercut(cone(0.1, 0.2, 0.4))
    assert tapered.least_draft == pytest.approx(np.arctan2(0.1, 0.4), abs=1e-4)
    assert undercut(cone(0.2, 0.1, 0.4), "-z").blocked_share == 0.0


def test_taper_the_wrong_way():
    found = undercut(cone(0.2, 0.1, 0.4, 512))
    side = np.pi * 0.3 * np.hypot(0.1, 0.4)
    assert found.blocked_share == pytest.approx(side / (side + np.pi * (0.04 + 0.01)), rel=1e-3)
    assert found.least_draft == pytest.approx(-np.arctan2(0.1, 0.4), abs=1e-4)
    assert found.deepest == 0.0


def test_waist_is_found_with_its_depth_and_place():
    found = undercut(hourglass(128), count=200)
    assert 0.1 < found.parted_share < 0.9
    assert np.hypot(*found.place[:2]) == pytest.approx(0.15, abs=0.01)
    assert found.deepest == pytest.approx(0.42 - 0.05, abs=0.02)
    assert 0.1 < found.place[2] < 0.35


def test_ring_on_edge():
    found = undercut(torus(0.2, 0.05), "+x")
    assert found.deepest == pytest.approx(2 * 0.2, rel=0.02)
    assert np.abs(found.place) == pytest.approx([0.0, 0.0, 0.05], abs=0.01)


def test_unknown_pull():
    with pytest.raises(UserError, match="no direction to pull"):
        undercut(ball(), "up")
