"""Marks and falling levels of a mold filled with water, against closed forms."""

from math import exp, pi

import numpy as np
import pytest

from pourwright.geometry import box, cone, level_volume
from pourwright.mold.seams.rubber_joints import rod_joint
from pourwright.mold.seams.water_test import STEPS, fall, mark_step, marks
from pourwright.physics.water import water_density, water_viscosity

SHOP, G = 293.15, 9.80665


def test_marks_of_a_cylinder_are_evenly_apart() -> None:
    # a polygon of 256 sides has sin(2 pi / n) n / (2 pi) of the circle's area
    can = cone(0.1, 0.1, 0.3, 256)
    area = 256 * np.sin(2 * pi / 256) / 2 * 0.1**2
    found = marks(level_volume(can), 0.001)
    assert [mark.volume for mark in found[:-1]] == pytest.approx([0.001 * n for n in range(1, 10)])
    assert [mark.height for mark in found[:-1]] == pytest.approx([0.001 * n / area for n in range(1, 10)])
    assert all(mark.area == pytest.approx(area) for mark in found)
    assert found[-1].height == pytest.approx(0.3)


def test_marks_of_a_cone_on_its_tip_rise_by_the_cube_root() -> None:
    funnel = cone(0.0, 0.1, 0.3, 256)
    levels = level_volume(funnel)
    found = marks(levels, 0.0005)
    for mark in found:
        assert mark.height == pytest.approx(0.3 * (mark.volume / levels.total) ** (1 / 3), rel=1e-9)
        # V = A z / 3
        assert mark.area == pytest.approx(3 * mark.volume / mark.height, rel=1e-9)


@pytest.mark.parametrize("unit", [1e-3, 0.946352946e-3])
@pytest.mark.parametrize("volume", [0.0003, 0.002, 0.0182, 0.05, 0.3])
def test_there_are_enough_marks_and_not_too_many(volume: float, unit: float) -> None:
    step = mark_step(volume, unit)
    assert round(step / unit, 6) in STEPS
    assert 3 <= volume / step <= 24


def test_a_straight_mold_with_a_hole_empties_as_its_head_does() -> None:
    levels = level_volume(box([0.2, 0.1, 0.3]))
    joint, gap = rod_joint(0.01, 0.02, 0.3, 1e-4), 2e-4
    # A dz/dt = -k z
    k = gap**3 * water_density(SHOP) * G / (12 * water_viscosity(SHOP)) * pi * 0.01 / 0.02
    for time in (600.0, 3600.0):
        found = fall(levels, [joint], gap, SHOP, time)
        assert found.drop == pytest.approx(0.3 * (1 - exp(-k * time / 0.02)), rel=2e-3)
        assert found.volume == pytest.approx(0.02 * found.drop, rel=1e-9)


def test_without_a_seam_nothing_is_lost() -> None:
    assert fall(level_volume(box([0.2, 0.1, 0.3])), [], 1e-4, SHOP, 600.0).volume == 0.0
