"""Lift at every level against closed forms, and the level at which it is worst."""

import math

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.geometry import Mesh, box, cone, level_volume, revolve
from pourwright.mold.hold.lift import buoyancy, floats_from, levels_of, sealed_push, worst_of, worst_tight
from pourwright.mold.rubber import RubberPour

G, RUBBER, BASE, SIDES = 9.80665, 1100.0, 0.019, 64
POLYGON = SIDES / 2 * math.sin(2 * math.pi / SIDES)
"""Area of a regular polygon with its corners on a circle of radius 1: what a round mesh really is."""


def pour_of(mesh: Mesh, method: str = "hung") -> RubberPour:
    return RubberPour(level_volume(mesh), method, BASE, 1.0)


def frustum(low: float, high: float, height: float) -> float:
    """Volume between two similar polygons."""
    return POLYGON * height * (low**2 + low * high + high**2) / 3


def onion() -> tuple[Mesh, float, float]:
    """Foot of 50 mm, wide at 60 mm up, narrower than its foot at the top; its worst level, displaced volume.

    Between 60 and 260 mm the radius falls from 150 to 30 mm. It is 50 mm, as the foot is, at 5/6 of that.
    """
    foot, wide, tip, rise, fall = 0.05, 0.15, 0.03, 0.06, 0.2
    standing = revolve([[foot, 0.0], [wide, rise], [tip, rise + fall]], SIDES)
    cast = Mesh(standing.vertices * [1, -1, -1] + [0, 0, rise + fall], standing.faces)
    part = (wide - foot) / (wide - tip) * fall
    return cast, rise + part, frustum(foot, wide, rise) + frustum(wide, foot, part)


@pytest.mark.parametrize("depth", [0.0, 0.013, 0.1, 0.25, 0.3])
def test_a_box(depth: float) -> None:
    lift = buoyancy(pour_of(box([0.2, 0.1, 0.3])), BASE + depth, RUBBER)
    assert lift == pytest.approx(RUBBER * G * 0.2 * 0.1 * depth, rel=1e-9)


@pytest.mark.parametrize("depth", [0.001, 0.1, 0.2, 0.31])
def test_a_cylinder(depth: float) -> None:
    lift = buoyancy(pour_of(cone(0.12, 0.12, 0.3, SIDES)), BASE + depth, RUBBER)
    assert lift == pytest.approx(RUBBER * G * POLYGON * 0.12**2 * min(depth, 0.3), rel=1e-9)


@pytest.mark.parametrize("depth", [0.001, 0.1, 0.2, 0.3])
def test_a_cone_both_ways(depth: float) -> None:
    point_down = buoyancy(pour_of(cone(0.0, 0.12, 0.3, SIDES)), BASE + depth, RUBBER)
    assert point_down == pytest.approx(RUBBER * G * frustum(0.0, 0.12 * depth / 0.3, depth), rel=1e-9)
    point_up = buoyancy(pour_of(cone(0.12, 0.0, 0.3, SIDES)), BASE + depth, RUBBER)
    left = frustum(0.12 * (1 - depth / 0.3), 0.0, 0.3 - depth)
    assert point_up == pytest.approx(RUBBER * G * (frustum(0.12, 0.0, 0.3) - left), rel=1e-9)


def test_a_screwed_cone_is_the_hung_one_turned_over() -> None:
    hung, screwed = pour_of(cone(0.0, 0.12, 0.3, SIDES)), pour_of(cone(0.12, 0.0, 0.3, SIDES), "screwed")
    depths = np.linspace(0.0, 0.3, 7)
    lifts = buoyancy(hung, BASE + depths, RUBBER)
    assert buoyancy(screwed, depths, RUBBER) == pytest.approx(lifts, rel=1e-9)


def sphere(radius: float, rings: int) -> Mesh:
    turns = np.linspace(-math.pi / 2, math.pi / 2, rings + 1)
    points = [[radius * math.cos(t), radius + radius * math.sin(t)] for t in turns]
    points[0][0] = points[-1][0] = 0.0
    return revolve(points, 4 * rings)


@pytest.mark.parametrize("depth", [0.03, 0.1, 0.17])
def test_a_ball_by_the_volume_of_a_cap(depth: float) -> None:
    exact = RUBBER * G * math.pi * depth**2 * (3 * 0.1 - depth) / 3
    errors = [
        abs(float(buoyancy(pour_of(sphere(0.1, rings)), BASE + depth, RUBBER)) / exact - 1)
        for rings in (24, 48)
    ]
    # the mesh lies inside the ball by a share that falls with the square of its fineness
    assert errors[1] < 0.003
    assert errors[1] < 0.3 * errors[0]


def test_the_worst_is_half_way_where_the_piece_is_as_narrow_as_its_foot() -> None:
    mesh, level, displaced = onion()
    worst = worst_tight(pour_of(mesh, "screwed"), RUBBER)
    assert worst.level == pytest.approx(level, abs=1e-6)
    assert worst.force == pytest.approx(RUBBER * G * (displaced - POLYGON * 0.05**2 * level), rel=1e-9)
    assert worst.level < 0.9 * 0.26
    # higher up the rubber presses it down again
    assert sealed_push(pour_of(mesh, "screwed"), 0.279, RUBBER) < worst.force


def test_a_hung_master_is_worst_when_it_is_drowned() -> None:
    pour = pour_of(onion()[0])
    assert worst_tight(pour, RUBBER).level == pytest.approx(BASE + 0.26, rel=1e-12)


def test_of_equal_pushes_the_lowest_level_counts() -> None:
    found = worst_of(lambda level: np.minimum(np.asarray(level), 0.2), np.linspace(0.0, 1.0, 11))
    assert found.level == pytest.approx(0.2, rel=1e-12)


def test_a_ledge_is_among_the_levels(mushroom: Mesh) -> None:
    assert np.abs(levels_of(pour_of(mushroom)) - (BASE + 0.2)).min() < 1e-12


@settings(max_examples=25, deadline=None)
@given(share=st.floats(0.05, 0.95), method=st.sampled_from(["hung", "screwed"]))
def test_it_is_lifted_off_where_the_rubber_it_displaces_weighs_as_much(share: float, method: str) -> None:
    pour = pour_of(onion()[0], method)
    mass = share * RUBBER * pour.levels.total
    level = floats_from(pour, mass, RUBBER)
    assert level is not None
    assert buoyancy(pour, level, RUBBER) == pytest.approx(mass * G, rel=1e-9)


def test_a_heavy_one_is_never_lifted_off() -> None:
    pour = pour_of(box([0.1, 0.1, 0.1]))
    assert floats_from(pour, 1.101, RUBBER) is None
