"""What is measured of a piece, against closed forms."""

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.geometry import box, cone, revolve
from pourwright.mold.ways.facts import facts_of, outline_length, skin_volume
from tests.mold.ways.conftest import moved

SIDES = st.floats(0.05, 0.4)


@settings(max_examples=6, deadline=None)
@given(SIDES, SIDES, SIDES, st.floats(0.008, 0.012))
def test_a_skin_around_a_box_is_its_walls_floor_and_rounded_edges(x, y, z, t):
    """Steiner's formula for a box, cut at the open face: five faces, quarter rods, four eighths of a ball."""
    faces = (x * y + 2 * x * z + 2 * y * z) * t
    edges = np.pi * t**2 / 4 * (4 * z + 2 * x + 2 * y)
    corners = 4 * (4 * np.pi * t**3 / 3) / 8
    # cubes of two fifths of the thickness; the error falls with their square
    assert skin_volume(box([x, y, z]), t) == pytest.approx(faces + edges + corners, rel=5e-3)


def test_a_skin_around_a_cylinder():
    """Wall, floor and a quarter of a ring around the floor's edge (Pappus)."""
    radius, height, t = 0.1, 0.2, 0.01
    wall = np.pi * ((radius + t) ** 2 - radius**2) * height
    ring = 2 * np.pi * (radius + 4 * t / (3 * np.pi)) * np.pi * t**2 / 4
    found = skin_volume(cone(radius, radius, height), t)
    assert found == pytest.approx(wall + np.pi * radius**2 * t + ring, rel=3e-3)


def test_the_outline_leaves_the_open_face_out():
    assert outline_length(box([0.2, 0.1, 0.3]), "y") == pytest.approx(0.2 + 2 * 0.3)
    assert outline_length(box([0.2, 0.1, 0.3]), "x") == pytest.approx(0.1 + 2 * 0.3)


def test_the_parting_halves_what_is_symmetrical_and_not_what_is_moved():
    found = facts_of(box([0.2, 0.1, 0.3]))
    assert found.halves == pytest.approx((0.003, 0.003))
    low, high = facts_of(moved(box([0.2, 0.1, 0.3]), [0.02, 0.02, 0.0])).halves
    assert low + high == pytest.approx(0.006)
    assert low < high


def test_a_waist_is_stretched_and_covered_and_a_cone_is_not():
    waist = facts_of(revolve([[0.10, 0.0], [0.05, 0.1], [0.10, 0.2]]))
    # the neck is half as wide as what has to pass it; levels are sampled
    assert waist.stretch == pytest.approx(1.0, abs=0.05)
    assert waist.blocked > 0.2
    free = facts_of(cone(0.1, 0.2, 0.4))
    assert (free.stretch, free.blocked, free.through) == (0.0, 0.0, 0)
    assert free.locked == pytest.approx(0.0, abs=0.01)


def test_the_mouth_is_measured():
    found = facts_of(box([0.2, 0.1, 0.3]))
    assert found.mouth_width == pytest.approx(0.1)
    assert found.mouth_girth == pytest.approx(0.6)
    assert found.flat == pytest.approx(0.06)
    assert found.area == pytest.approx(2 * 0.06 + 2 * 0.03 + 0.02)
