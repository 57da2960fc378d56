"""Bodies from a tape and from water, against closed forms, a library's integrals and a water table."""

import numpy as np
import pytest
from scipy.integrate import trapezoid
from scipy.special import beta, ellipe

from pourwright.app.shaping.tape_doubt import tape_doubt
from pourwright.app.shaping.tape_rows import TapeRow, body_of
from pourwright.geometry import measure
from pourwright.geometry.taped.cross_sections import CrossSection
from pourwright.geometry.taped.girths import (
    area_missing_in_an_oval,
    ellipse_depth,
    ellipse_perimeter,
    largest_area,
)
from pourwright.geometry.taped.measured import MeasuredBody
from pourwright.geometry.taped.superbody import FORMS, body_of_volume, superellipsoid_share
from pourwright.physics.water import water_density

# density of water at 101325 Pa [kg/m3], handbook table (CRC Handbook of Chemistry and Physics; from memory)
WATER = {0: 999.84, 4: 999.97, 10: 999.70, 15: 999.10, 20: 998.21, 25: 997.05, 30: 995.65, 40: 992.22}


def around(width, depth):
    """Perimeter of an ellipse by the complete elliptic integral of the second kind."""
    wide, slim = max(width, depth), min(width, depth)
    return 2 * wide * ellipe(1 - (slim / wide) ** 2)


@pytest.mark.parametrize(
    ("flatness", "within"), [(1.0, 1e-15), (0.7, 1e-12), (0.5, 2e-9), (0.25, 1e-6), (0.1, 5e-5)]
)
def test_perimeter_of_an_ellipse(flatness, within):
    """Ramanujan's second formula (1914) against the exact integral; low by at most 4.0e-4 at a slit."""
    assert ellipse_perimeter(0.3, 0.3 * flatness) == pytest.approx(around(0.3, 0.3 * flatness), rel=within)


@pytest.mark.parametrize("depth", [0.05, 0.15, 0.2, 0.35])
def test_depth_from_girth_and_width(depth):
    assert ellipse_depth(around(0.2, depth), 0.2) == pytest.approx(depth, rel=1e-3)


def test_no_section_of_a_girth_is_larger_than_its_circle():
    """The isoperimetric inequality, for ovals by the exact integral and for rectangles."""
    for depth in np.linspace(0.02, 0.4, 20):
        assert np.pi / 4 * 0.2 * depth <= largest_area(around(0.2, depth)) * (1 + 1e-12)
        assert 0.2 * depth < largest_area(2 * (0.2 + depth))


def test_what_a_slight_oval_lacks():
    """The exact deficit of an ellipse; the quadratic law holds to a twentieth of itself up to one in ten."""
    for uneven in (0.01, 0.05, 0.1):
        wide, slim = 1 + uneven, 1 - uneven
        missing = 1 - np.pi * wide * slim / largest_area(around(2 * wide, 2 * slim))
        assert area_missing_in_an_oval(uneven) == pytest.approx(missing, rel=0.05)


def round_sections(diameters):
    return tuple(CrossSection(each, each) for each in diameters)


def test_a_frustum_by_the_prismatoid_rule():
    """V = h/6 (A0 + 4 Am + A1), exact for a frustum (any handbook of solid geometry)."""
    low, high, tall = 0.3, 0.18, 0.4
    middle = (low + high) / 2
    exact = tall / 6 * np.pi / 4 * (low**2 + 4 * middle**2 + high**2)
    mesh = MeasuredBody(np.array([0.0, tall]), round_sections((low, high))).mesh()
    assert measure(mesh).volume == pytest.approx(exact, rel=1e-4)


def test_a_cone_and_half_a_ball():
    """A third, and two thirds, of the cylinder around them (Archimedes)."""
    for how, share in (("point", 1 / 3), ("dome", 2 / 3)):
        mesh = MeasuredBody(np.array([0.0, 0.1]), round_sections((0.2, 0.0)), (None, how)).mesh()
        assert measure(mesh).volume == pytest.approx(share * np.pi * 0.1**2 * 0.1, rel=1e-3)


def test_a_vase_by_pappus():
    """Second theorem of Pappus: area of half the outline times the way of its centroid."""
    heights = np.array([0.0, 0.09, 0.18, 0.3, 0.36])
    body = MeasuredBody(heights, round_sections(np.array([0.44, 0.64, 0.72, 0.48, 0.39]) / np.pi))
    levels = np.linspace(0.0, 0.36, 20001)
    radius = body.halves(levels)[:, 0]
    area = trapezoid(radius, levels)
    way = 2 * np.pi * trapezoid(radius**2 / 2, levels) / area
    assert measure(body.mesh()).volume == pytest.approx(area * way, rel=2e-4)


def test_a_rounded_post_by_its_section():
    """Area of a rectangle less (4 - pi) r^2, times the height."""
    section = CrossSection(0.3, 0.2, 0.04)
    mesh = MeasuredBody(np.array([0.0, 0.25, 0.5]), (section,) * 3).mesh()
    assert measure(mesh).volume == pytest.approx((0.3 * 0.2 - (4 - np.pi) * 0.04**2) * 0.5, rel=1e-9)


@pytest.mark.parametrize("halves", [(0.1, 0.1, 0.1), (0.12, 0.09, 0.16)])
def test_ball_and_ellipsoid_lie_in_their_band(halves):
    """4/3 pi a b c, from five girths (by the exact integral) and the two ends."""
    wide, deep, tall = halves
    heights = np.array([-0.8, -0.4, 0.0, 0.4, 0.8])
    shrunk = np.sqrt(1 - heights**2)
    rows = [TapeRow(0.0, closes="dome")]
    for height, share in zip(heights, shrunk, strict=True):
        girth = around(2 * wide * share, 2 * deep * share)
        rows.append(TapeRow((1 + height) * tall, girth=girth, width=2 * wide * share))
    rows.append(TapeRow(2 * tall, closes="dome"))
    body = body_of(rows)
    volume, exact = measure(body.mesh()).volume, 4 / 3 * np.pi * wide * deep * tall
    low, high = tape_doubt(rows, body, volume, 0.002).band
    assert low < exact < high
    assert volume == pytest.approx(exact, rel=0.01)


@pytest.mark.parametrize("exponent", [1.0, 1.5, 2.0, 3.0, 8.0, 40.0])
def test_share_of_a_superellipsoid(exponent):
    """Volume 2 a b c e1 e2 B(e1/2 + 1, e1) B(e2/2, e2/2) with e1 = e2 = 2/n.

    Jaklic, Leonardis and Solina, Segmentation and Recovery of Superquadrics (2000), from memory; the product
    of beta functions is another form than the gamma functions of the code.
    """
    e = 2 / exponent
    volume = 2 * e * e * beta(e / 2 + 1, e) * beta(e / 2, e / 2)
    assert superellipsoid_share(exponent) == pytest.approx(volume / 8, rel=1e-12)
    made = measure(FORMS["rounded"](exponent).mesh(np.array([0.3, 0.2, 0.1])))
    assert made.volume == pytest.approx(superellipsoid_share(exponent) * 0.006, rel=2e-3)


def test_an_egg_from_its_water():
    """An ellipsoid displaces pi/6 of its box: the same body comes back, halves and all."""
    size = np.array([0.24, 0.18, 0.13])
    mesh = body_of_volume("rounded", size, np.pi / 6 * size.prod())
    points = mesh.vertices - [0, 0, 0.065]
    assert np.abs((points / (size / 2)) ** 2 @ np.ones(3) - 1).max() < 2e-3


@pytest.mark.parametrize("celsius", WATER)
def test_density_of_water(celsius):
    assert water_density(273.15 + celsius) == pytest.approx(WATER[celsius], abs=0.015)
