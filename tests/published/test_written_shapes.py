"""Written shapes against closed forms: Pappus and Guldin, Archimedes, Steiner (all from memory).

A body turned in n flat strips has (n / 2 pi) sin(2 pi / n) of the volume of the round one, exactly, so what
is left to compare is the profile.
"""

import numpy as np
import pytest

from pourwright.geometry import find_faults, measure
from pourwright.geometry.drawn.outlines import Step, closed_outline, flattened
from pourwright.geometry.drawn.outlines_nesting import nested
from pourwright.geometry.drawn.outlines_prism import extruded
from pourwright.geometry.drawn.profiles import FEWEST_AROUND, half_section, spun
from pourwright.geometry.drawn.rounding import rounded_box, rounded_section

STRIPS = FEWEST_AROUND / (2 * np.pi) * np.sin(2 * np.pi / FEWEST_AROUND)
CORNER = (10 - 3 * np.pi) / (3 * (4 - np.pi))
"""How far the centroid of what a rounding takes off a square corner lies from the sides, in radii."""


def turned(steps, tolerance=5e-5):
    mesh = spun(half_section(steps, tolerance), tolerance)
    assert find_faults(mesh) == ()
    return measure(mesh)


def ball(tolerance=5e-5):
    return turned([Step((0.0, 0.0)), Step((0.0, 0.2), (0.1, 0.1))], tolerance)


def test_ball():
    """Archimedes: 4/3 pi r^3 and 4 pi r^2; its width and height are exact."""
    found = ball()
    assert found.volume / STRIPS == pytest.approx(4 / 3 * np.pi * 1e-3, rel=2e-5)
    assert found.area == pytest.approx(4 * np.pi * 1e-2, rel=5e-4)
    assert found.size == pytest.approx([0.2, 0.2, 0.2], rel=1e-12)


def test_cap_of_a_ball():
    """Archimedes: pi h^2 (3 R - h) / 3 for R = 0.1, h = 0.03, drawn through a point between rim and pole."""
    rim = np.sqrt(0.1**2 - 0.07**2)
    between = (0.1 * np.sin(0.4), 0.1 * np.cos(0.4) - 0.07)
    found = turned([Step((rim, 0.0)), Step((0.0, 0.03), between)])
    assert found.volume / STRIPS == pytest.approx(np.pi * 0.03**2 * (0.3 - 0.03) / 3, rel=5e-5)


def test_ring_of_round_section():
    """Pappus: 2 pi^2 R r^2 and 4 pi^2 R r; no chord of the section costs any of its area."""
    R, r = 0.12, 0.02
    way = [Step((R - r, r)), Step((R + r, r), (R, 0.0)), Step((R - r, r), (R, 2 * r))]
    found = turned(way)
    assert found.volume / STRIPS == pytest.approx(2 * np.pi**2 * R * r**2, rel=1e-9)
    assert found.area == pytest.approx(4 * np.pi**2 * R * r, rel=2e-3)
    assert found.size == pytest.approx([2 * (R + r), 2 * (R + r), 2 * r], rel=1e-12)


@pytest.mark.parametrize("rounded_by", ["step", "whole"])
def test_rim_of_a_cylinder(rounded_by):
    """Pappus for what the rounding takes off, whose centroid is known; area by Pappus for the quarter arc."""
    R, H, r = 0.1, 0.15, 0.012
    if rounded_by == "step":
        section = half_section([Step((R, 0.0), radius=r), Step((R, H), radius=r)])
    else:
        section = rounded_section(half_section([Step((R, 0.0)), Step((R, H))]), r)
    found = measure(spun(section))
    off = 2 * np.pi * (R - CORNER * r) * (1 - np.pi / 4) * r**2
    assert found.volume / STRIPS == pytest.approx(np.pi * R**2 * H - 2 * off, rel=5e-5)
    quarter = 2 * np.pi * (R - r + 2 * r / np.pi) * np.pi / 2 * r
    area = 2 * np.pi * (R - r) ** 2 + 2 * np.pi * R * (H - 2 * r) + 2 * quarter
    assert found.area == pytest.approx(area, rel=3e-4)


def test_tip_of_a_cone_rounded_by_a_ball():
    """What a ball leaves of a tip: without the cone above its tangent circle, but with its cap."""
    R, H, r = 0.1, 0.1, 0.02
    section = rounded_section(half_section([Step((R, 0.0)), Step((0.0, H))]), r)
    half = np.arctan(R / H)
    circle, high = r * np.cos(half), r * np.cos(half) / np.tan(half)
    cap = r - r * np.sin(half)
    off = np.pi * circle**2 * high / 3 - np.pi * cap**2 * (3 * r - cap) / 3
    assert section[:, 1].max() == pytest.approx(H - (r / np.sin(half) - r), abs=2e-5)
    foot = half_section([Step((R, 0.0)), Step((0.0, H))])
    sharp, found = (measure(spun(each)).volume / STRIPS for each in (foot, section))
    assert sharp == pytest.approx(np.pi * R**2 * H / 3, rel=1e-9)
    assert sharp - found == pytest.approx(off + off_an_edge(np.pi / 4, R, r), rel=4e-3)


def off_an_edge(angle, R, r):
    """What rounding takes off an outer edge of some angle, its bisector that much off the ground (Pappus)."""
    half = angle / 2
    tangent, centre, beta = r / np.tan(half), r / np.sin(half), (np.pi - angle) / 2
    kite, sector = tangent * r, beta * r**2
    along = kite * (tangent * np.cos(half) + centre) / 3
    along -= sector * (centre - 2 * r * np.sin(beta) / (3 * beta))
    area = kite - sector
    return 2 * np.pi * (R - along / area * np.cos(half)) * area


@pytest.mark.parametrize("size", [(0.2, 0.1, 0.05), (0.06, 0.06, 0.06)])
def test_box_rounded_on_all_edges(size):
    """Steiner: volume and area of a box grown by r."""
    r = 0.01
    a, b, c = (side - 2 * r for side in size)
    faces, edges = 2 * (a * b + b * c + c * a), a + b + c
    found = measure(rounded_box(size, r))
    assert found.volume == pytest.approx(
        a * b * c + faces * r + np.pi * edges * r**2 + 4 / 3 * np.pi * r**3, rel=1e-5
    )
    assert found.area == pytest.approx(faces + 2 * np.pi * edges * r + 4 * np.pi * r**2, rel=1e-3)
    assert found.size == pytest.approx(size, rel=1e-9)


def test_slot_with_half_round_ends_drawn_up():
    """Area of a rectangle and a circle, by the height."""
    long, r, height = 0.1, 0.02, 0.03
    left = Step((0.0, -r), (-r, 0.0))
    right = Step((long, r), (long + r, 0.0))
    loops = nested([flattened(closed_outline([left, Step((long, -r)), right, Step((0.0, r))]))])
    found = measure(extruded(loops, height))
    assert found.volume == pytest.approx((2 * r * long + np.pi * r**2) * height, rel=1e-12)
    assert found.size == pytest.approx([long + 2 * r, 2 * r, height], rel=1e-12)


def test_plate_with_a_hole_and_a_rounded_top():
    """Prism less hole, less what the roundings take off around both rims (Pappus)."""
    R, hole, H, r = 0.1, 0.03, 0.04, 0.008

    def circle(radius):
        return flattened(
            closed_outline([Step((-radius, 0.0), (0.0, radius)), Step((radius, 0.0), (0.0, -radius))])
        )

    loops = nested([circle(R), circle(hole)])
    off = 2 * np.pi * ((R - CORNER * r) + (hole + CORNER * r)) * (1 - np.pi / 4) * r**2
    found = measure(extruded(loops, H, 0.0, r))
    assert found.volume == pytest.approx(np.pi * (R**2 - hole**2) * H - off, rel=2e-5)


def test_volume_converges_with_the_chords():
    """Corners that keep the area make up for what chords cut off: better than second order."""
    exact = 4 / 3 * np.pi * 1e-3
    tolerances = [8e-4, 2e-4, 5e-5]
    errors = [abs(ball(tolerance).volume / STRIPS / exact - 1) for tolerance in tolerances]
    # a quarter of the tolerance is half the chord
    assert errors[1] < errors[0] / 4
    assert errors[2] < errors[1] / 4
    assert errors[2] < 2e-5
