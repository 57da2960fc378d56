"""Inner corners: found where a surface folds inward, and nowhere else."""

import numpy as np
import pytest

from pourwright.geometry import box, cone, revolve
from pourwright.geometry.thin.creases import inner_creases

STEPPED = np.array([[0.0, 0.0], [0.1, 0.0], [0.1, 0.05], [0.04, 0.05], [0.04, 0.12], [0.0, 0.12]])


def test_a_step_has_one_ring_of_inner_corners():
    found = inner_creases(revolve(STEPPED))
    assert len(found.angles) > 10
    # the foot of the narrower part: radius 40 mm, 50 mm up, a right angle
    np.testing.assert_allclose(np.hypot(*found.ends[:, 0, :2].T), 0.04, rtol=1e-9)
    np.testing.assert_allclose(found.middles[:, 2], 0.05, rtol=1e-9)
    np.testing.assert_allclose(found.angles, np.pi / 2, atol=0.01)


def test_turned_over_it_keeps_its_corners():
    mesh = revolve(STEPPED)
    turned = mesh.transformed(np.diag([1.0, -1.0, -1.0, 1.0]))
    assert len(inner_creases(turned).angles) == len(inner_creases(mesh).angles)


@pytest.mark.parametrize("mesh", [box([0.1, 0.2, 0.3]), cone(0.1, 0.05, 0.2, 32)], ids=["box", "cone"])
def test_bodies_without_a_hollow_have_none(mesh):
    assert len(inner_creases(mesh).angles) == 0


def test_a_waist_in_small_steps_is_no_corner():
    height = np.linspace(0.0, 0.4, 41)
    radius = 0.08 + 0.06 * (2 * height / 0.4 - 1) ** 2
    profile = np.column_stack([[0.0, *radius, 0.0], [0.0, *height, 0.4]])
    assert len(inner_creases(revolve(profile)).angles) == 0
