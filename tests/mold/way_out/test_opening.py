"""How the rubber is opened, and what it must stretch for it."""

from math import asin, pi, sqrt

import numpy as np
import pytest
from hypothesis import given, strategies as st

from pourwright.geometry import box, cone, revolve
from pourwright.geometry.drawn.joining import as_manifold, as_mesh
from pourwright.mold.way_out.pull import lifting_energy
from pourwright.physics.sleeve import folding_moment, widening_energy

TURNED = np.array([[0, 0], [60, 0], [120, 80], [112, 80], [55, 8], [0, 8]]) / 1000


@pytest.mark.parametrize("mesh", [cone(0.06, 0.10, 0.2), cone(0.06, 0.06, 0.3), box([0.1, 0.2, 0.1])])
def test_what_narrows_nowhere_comes_straight_out(out_of, mesh):
    out = out_of(mesh)
    assert out.opening == "straight"
    assert out.cuts == out.held == out.tongues == ()
    assert (out.pull.strain, out.pull.force, out.pull.margin, out.hinge) == (0.0, 0.0, None, None)


def test_a_neck_lengthens_by_the_ratio_of_the_girths(out_of, dumbbell, waist):
    # exact for the dumbbell; of the waist the nearest levels are half of 3.1 mm off, at a slope of 1 to 5
    assert out_of(dumbbell).pull.strain == pytest.approx(1.0, rel=1e-3)
    assert out_of(waist).pull.strain == pytest.approx(
        (0.06 - 0.2 * 0.3 / 192) / (0.03 + 0.2 * 0.3 / 192) - 1, abs=1e-3
    )


def test_the_margin_is_elongation_by_stretch(out_of, dumbbell, materials):
    rubber = materials.rubber["silicone-platinum-a25"]
    out = out_of(dumbbell)
    assert out.pull.margin == pytest.approx(rubber.elongation_at_break.value / out.pull.strain)
    assert out.hinge.margin == pytest.approx(rubber.elongation_at_break.value / out.hinge.strain)


def test_a_shoulder_pulls_with_the_energy_of_the_sleeve_it_widens(out_of, dumbbell):
    out = out_of(dumbbell, wall=0.03)
    # round the neck the box leaves 50 mm on its sides and more toward its corners: between both
    ends = [widening_energy(0.02, wall, 0.04, out.modulus.likely) for wall in (0.05, 0.07 * sqrt(2) - 0.02)]
    assert ends[0] < out.pull.force < ends[1]


def test_rings_of_one_thickness_are_exact():
    neck = np.array([2, 2, 1, 1, 2, 2.0]) * 0.02
    energy = lifting_energy(neck, np.full(6, 0.03), 1e6)
    one = widening_energy(0.02, 0.03, 0.04, 1e6)
    # the lower disc enters the neck level by level, and leaves it the same way
    assert energy / one == pytest.approx([0, 1, 2, 1, 0, 0])


@given(
    inner=st.floats(0.005, 0.2),
    wall=st.floats(0.005, 0.2),
    grows=st.floats(1.01, 4.0),
    more=st.floats(1.01, 2.0),
)
def test_widening_takes_more_for_more(inner, wall, grows, more):
    least = widening_energy(inner, wall, inner * grows, 1e6)
    assert least > 0.0
    assert widening_energy(inner, wall, inner * grows * more, 1e6) > least
    assert widening_energy(inner, wall * more, inner * grows, 1e6) > least
    # thick rubber is bounded by that without end
    k = inner**2 * (grows**2 - 1)
    assert least < pi / 6 * 1e6 * k * 2 * np.log(grows)


def test_rubber_that_hardly_stretches_is_pulled_over(out_of):
    out = out_of(revolve([[0.05, 0.0], [0.05, 0.1], [0.048, 0.12]]))
    assert out.opening == "stretch"
    assert out.pull.strain == pytest.approx(0.05 / 0.048 - 1, rel=0.05)


def test_a_book_folds_at_its_back(out_of, dumbbell):
    out = out_of(dumbbell, wall=0.02)
    # the fold: 109 mm long, 20 mm thick beside the discs and 40 mm beside the neck
    width, low = 0.08, 0.03 - 0.019
    opens = 2 * asin(width / (2 * (width + 0.02)))
    thin, thick = (folding_moment(opens, each, out.modulus.likely) for each in (0.02, 0.04))
    turning = thin * (0.08 - low) + thick * 0.04
    assert out.opening == "one cut"
    assert out.hinge.opens == pytest.approx(opens, rel=1e-3)
    assert out.hinge.force == pytest.approx(turning / (width + 0.02), rel=0.02)
    assert out.hinge.strain == pytest.approx(opens / 4, rel=1e-3)


def test_thick_rubber_is_cut_on_two_sides_and_leans_out_of_the_waist(out_of):
    out = out_of(revolve([[0.18, 0.0], [0.11, 0.2], [0.18, 0.44]]), wall=0.03)
    assert out.book.force > 250.0
    assert out.opening == "two cuts"
    # 70 mm at 200 mm of height, about the middle of a floor of 30 mm that ends 11 mm up
    lean = asin(0.07 / (0.2 - 0.011 + 0.015))
    assert out.hinge.opens / 2 == pytest.approx(lean, rel=0.03)
    assert out.hinge.strain == pytest.approx(lean / 4, rel=0.03)
    assert [round(float(np.degrees(cut.angle))) for cut in out.cuts] == [0, 180]


def test_a_ring_on_edge_wants_two_parts(out_of):
    outer, inner = (as_manifold(cone(r, r, 0.04, 48)) for r in (0.09, 0.05))
    ring = as_mesh((outer - inner).rotate((90.0, 0.0, 0.0)).translate((0.0, 0.02, 0.09)))
    out = out_of(ring)
    assert out.holes == 1
    assert out.opening == "two parts"


def test_a_tube_is_no_ring_round_the_pull(out_of):
    outer, inner = (as_manifold(cone(r, r, 0.1, 48)) for r in (0.06, 0.03))
    out = out_of(as_mesh(outer - inner))
    assert out.holes == 1
    assert out.opening == "straight"


def test_rubber_in_a_bowl_comes_out_with_it(out_of):
    out = out_of(revolve(TURNED))
    assert out.opening == "straight"
    assert len(out.plugs) == 1
    assert out.held == ()
    assert out.drafts.undercut == 0.0
    # the air presses on bowl and rubber alike
    assert out.suction.area == pytest.approx(pi * 0.12**2, rel=1e-3)
