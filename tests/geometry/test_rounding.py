"""Rounding by a ball on a lattice against the exact rounding of a box, and what it refuses."""

import numpy as np
import pytest

from pourwright.foundation.errors import UserError
from pourwright.geometry import box, cone, find_faults, measure
from pourwright.geometry.drawn.joining import Joining
from pourwright.geometry.drawn.outlines_corners import NoRoomError
from pourwright.geometry.drawn.rounding import rounded_box, rounded_outline
from pourwright.geometry.drawn.rounding_bodies import rounded_body
from pourwright.geometry.sections import outline_area
from tests.geometry.bodies import turned

SIZE, RADIUS = np.array([0.05, 0.04, 0.03]), 0.006
ELL = np.array([[0, 0], [0.2, 0], [0.2, 0.1], [0.1, 0.1], [0.1, 0.2], [0, 0.2]])


def test_outer_and_inner_corners_of_an_outline():
    """Five outer corners lose (1 - pi/4) r^2 each, the inner one gains it."""
    loops = rounded_outline([ELL], 0.02, 0.03)
    corner = 1 - np.pi / 4
    assert outline_area(loops[0]) == pytest.approx(0.03 - 5 * corner * 0.02**2 + corner * 0.03**2, rel=2e-4)


@pytest.mark.parametrize(("radius", "inner", "most"), [(0.06, 0.0, 0.05), (0.0, 0.02, 0.01)])
def test_an_outline_with_too_narrow_a_wall_or_gap(radius, inner, most):
    """The bar is 100 mm wide; a gap of 20 mm is cut into the second outline."""
    bar = np.array([[0, 0], [0.8, 0], [0.8, 0.1], [0, 0.1]])
    gap = np.array(
        [[0, 0], [0.2, 0], [0.2, 0.2], [0.11, 0.2], [0.11, 0.05], [0.09, 0.05], [0.09, 0.2], [0, 0.2]]
    )
    with pytest.raises(NoRoomError) as refused:
        rounded_outline([gap if inner else bar], radius, inner)
    assert refused.value.largest == pytest.approx(most, rel=0.02)


@pytest.mark.parametrize("seed", [0, 1])
def test_a_box_turned_anyhow_comes_within_the_stated_tolerance_of_the_exact_rounding(seed):
    body = turned(box(SIZE).moved([0, 0, -SIZE[2] / 2]), seed)
    found, tolerance = rounded_body(body, RADIUS)
    assert find_faults(found) == ()
    assert measure(found).volume == pytest.approx(measure(rounded_box(SIZE, RADIUS)).volume, rel=3e-3)
    back = measure(body).inertia
    axes = np.linalg.eigh(back)[1]
    # the largest side turns about the axis of least inertia
    places = np.abs(found.vertices @ axes) - (SIZE / 2 - RADIUS)
    off = np.linalg.norm(np.maximum(places, 0), axis=1) + np.minimum(places.max(axis=1), 0) - RADIUS
    assert np.abs(off).max() <= tolerance
    assert tolerance < RADIUS / 10


def test_inner_edges_are_filled_and_everything_else_stays():
    """Two boxes make an L: its inner edge gains (1 - pi/4) r^2 along its length, less at its ends."""
    joining = Joining()
    joining.add(box([0.06, 0.03, 0.02]))
    joining.add(box([0.02, 0.03, 0.05]).moved([-0.02, 0, 0]))
    ell = joining.body()
    found, _ = rounded_body(ell, 0.0, 0.008)
    gained = measure(found).volume - measure(ell).volume
    assert gained == pytest.approx((1 - np.pi / 4) * 0.008**2 * 0.03, rel=0.1)
    assert find_faults(found) == ()
    assert found.bounds == pytest.approx(ell.bounds, abs=1e-9)


def test_both_at_once_on_a_joint():
    joining = Joining()
    joining.add(box([0.05, 0.05, 0.02]))
    joining.add(cone(0.012, 0.012, 0.05, 48))
    body = joining.body()
    found, tolerance = rounded_body(body, 0.004, 0.004)
    assert find_faults(found) == ()
    assert tolerance == pytest.approx(0.3 * 0.001)
    # no corner of the joint stays sharp: the top of the pin has a flat of 8 mm radius only
    top = found.vertices[found.vertices[:, 2] > 0.05 - 1e-6]
    assert np.hypot(*top[:, :2].T).max() == pytest.approx(0.008, abs=1e-3)


def test_a_wall_that_a_radius_swallows():
    """The rim of the tray is 10 mm wide and its floor 12 mm thick, so 5 mm is the largest."""
    joining = Joining()
    joining.add(box([0.1, 0.08, 0.04]))
    joining.cut(box([0.08, 0.06, 0.04]).moved([0, 0, 0.012]))
    with pytest.raises(NoRoomError, match="6 mm does not fit") as refused:
        rounded_body(joining.body(), 0.006)
    assert 0.004 <= refused.value.largest <= 0.005


def test_a_radius_too_fine_for_the_body():
    with pytest.raises(UserError, match=r"too fine for a body of this size; allowed: 31\.9 mm or more"):
        rounded_body(box([2.0, 2.0, 2.0]), 0.001)
