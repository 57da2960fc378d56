"""Glass lots, batches, dip stick, wetted faces, casting materials mixed with water."""

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.fill import BandChoice, dip_stick, mix_mineral, sifted_void_fraction, wetted_area
from pourwright.geometry import Mesh, box, revolve
from pourwright.materials.batches import Tools, largest_batch, most_within, split_batches

BANDS = (
    BandChoice(to=0.1, grade="coarse", colour="green"),
    BandChoice(to=0.2, grade="fine", colour="green"),
    BandChoice(to=0.3, grade="coarse", colour="green"),
    BandChoice(to=None, grade="coarse", colour="brown"),
)


def test_lots_by_grade_and_colour(fill, prism, glass):
    piece = fill(prism, *BANDS, neat_cover=0.0, bottle_mass=0.5, crush_yield={"coarse": 0.4, "fine": 0.1})
    assert [(lot.grade, lot.colour) for lot in piece.glass] == [
        ("coarse", "green"), ("fine", "green"), ("coarse", "brown")
    ]  # fmt: skip
    layers = [0.006 * (1 - band.void_fraction) * glass.density.value for band in piece.bands]
    masses = [layers[0] + layers[2], layers[1], layers[3]]
    assert [lot.mass for lot in piece.glass] == pytest.approx(masses)
    # about 8.25 kg a layer: 82.5 bottles of fine at 50 g each, which yield the green coarse too
    bottles = [math.ceil(mass / 0.5 / share) for mass, share in zip(masses, (0.4, 0.1, 0.4), strict=True)]
    assert [lot.bottles for lot in piece.glass] == bottles
    assert piece.bottles_by_colour == (("green", bottles[1]), ("brown", bottles[2]))


def test_the_record_gives_bottles_and_yields_where_nothing_is_said(fill, prism, glass):
    lot = fill(prism, BandChoice(grade="coarse"), neat_cover=0.0).glass[0]
    grade = glass.grade("coarse")
    assert lot.colour == "any"
    assert (lot.bottles - 1) * glass.bottle_mass.value * grade.crush_yield.value < lot.mass
    assert lot.bottles * glass.bottle_mass.value * grade.crush_yield.value >= lot.mass


@settings(max_examples=200, deadline=None)
@given(
    st.floats(0.001, 80.0),
    st.sampled_from([(100.0, 50.0), (100.0, 40.0), (1.0, 1.0), (100.0, 3.0), (100.0, 27.3)]),
    st.floats(0.5, 10.0),
    st.sampled_from([0.0001, 0.001, 0.005, 0.01]),
)
def test_batches_hold_the_mass_and_nearly_the_ratio(mass, parts, largest, step):
    batches = split_batches(mass, parts, largest, step)
    total = sum(batch.mass for batch in batches)
    assert mass * (1 - 1e-9) <= total <= mass + 3 * step * len(batches)
    for batch in batches:
        assert batch.mass <= largest + 3 * step
        assert batch.part_a / step == pytest.approx(round(batch.part_a / step), abs=1e-4)
        assert batch.part_b / step == pytest.approx(round(batch.part_b / step), abs=1e-4)
        assert batch.ratio_error == pytest.approx(
            batch.part_b / batch.part_a / (parts[1] / parts[0]) - 1, abs=1e-9
        )
        # B is off by at most half a step, or by one where there is nearly nothing to weigh
        assert abs(batch.part_b - batch.part_a * parts[1] / parts[0]) <= 1.5 * step + 1e-9


def test_no_mass_needs_no_batch():
    assert split_batches(0.0, (1.0, 1.0), 1.0, 0.001) == ()


def test_pail_scale_and_working_time_each_limit_a_batch():
    wide = Tools(pail=0.1, scale_capacity=100.0)
    assert largest_batch(1100.0, Tools(pail=0.01, scale_capacity=100.0)) == pytest.approx(8.25)
    assert largest_batch(1100.0, Tools(pail=0.1, scale_capacity=5.0)) == pytest.approx(4.5)
    assert largest_batch(1100.0, wide, working_time=15 * 60.0) == pytest.approx(10.0)
    assert most_within(60.0) == pytest.approx(0.5)


def test_dip_stick_by_hand(fill, prism):
    piece = fill(prism, BandChoice(grade="coarse"), neat_cover=0.015)
    rows = dip_stick(piece, rim=0.42, standing=lambda z: 0.4 - z, step=0.1)
    assert [row.height for row in rows] == pytest.approx([0, 0.1, 0.2, 0.3, 0.385, 0.4])
    assert [row.height_standing for row in rows] == pytest.approx([0.4, 0.3, 0.2, 0.1, 0.015, 0.0])
    assert [row.dip for row in rows] == pytest.approx([0.42, 0.32, 0.22, 0.12, 0.035, 0.02])
    assert rows[1].cavity == pytest.approx(0.006)
    voids = piece.bands[0].void_fraction
    assert rows[1].liquid == pytest.approx(0.006 * voids)
    assert rows[-1].liquid == pytest.approx(0.385 * 0.06 * voids + 0.015 * 0.06)


def test_dip_stick_rises(fill, hourglass):
    rows = dip_stick(fill(hourglass, *BANDS), rim=0.4, standing=lambda z: z)
    for name in ("height", "cavity", "liquid"):
        assert (np.diff([getattr(row, name) for row in rows]) > 0).all()
    assert rows[-1].dip == 0.0


def test_wetted_area_of_a_cone_by_hand():
    # truncated cone: lateral area pi (r + R) s up to any height, plus the floor
    area = wetted_area(revolve([[0.1, 0.0], [0.2, 0.3]], 512))
    for height in (0.05, 0.15, 0.3):
        upper = 0.1 + height / 3
        slant = np.hypot(height, upper - 0.1)
        expected = np.pi * 0.1**2 + np.pi * (0.1 + upper) * slant
        assert area.below(height) == pytest.approx(expected, rel=1e-4)
    assert area.below(0.0) == 0.0
    assert area.below(1.0) - area.below(0.3) == pytest.approx(np.pi * 0.2**2, rel=1e-4)


@settings(max_examples=50, deadline=None)
@given(st.lists(st.floats(0.0, 0.4), min_size=2, max_size=2))
def test_wetted_area_of_a_box(heights):
    low, high = sorted(heights)
    area = wetted_area(box([0.3, 0.2, 0.4]))
    floor = 0.06 if low == 0 < high else 0.0
    assert area.between(low, high) == pytest.approx((high - low) * 1.0 + floor, abs=1e-12)


@settings(max_examples=30, deadline=None)
@given(st.integers(0, 1000), st.floats(-0.1, 1.1))
def test_wetted_area_of_loose_triangles_is_that_of_each_cut_alone(seed, height):
    # heights rounded, so that many triangles have corners at one height and some lie level
    draws = np.random.default_rng(seed)
    corners = np.round(draws.random((40, 3, 3)), 1)
    area = wetted_area(Mesh(corners.reshape(-1, 3), np.arange(120).reshape(-1, 3)))
    assert area.below(height) == pytest.approx(sum(cut_below(each, height) for each in corners), abs=1e-12)


def cut_below(triangle, height):
    """Area of a triangle below a height: its corners that lie there, and where its sides cross the plane."""
    kept = []
    for one, other in zip(triangle, np.roll(triangle, -1, axis=0), strict=True):
        if one[2] < height:
            kept.append(one)
        if (one[2] < height) != (other[2] < height):
            kept.append(one + (height - one[2]) / (other[2] - one[2]) * (other - one))
    fan = [np.cross(one - kept[0], other - kept[0]) for one, other in pairwise(kept[1:])]
    return float(np.linalg.norm(np.sum(fan, axis=0)) / 2) if fan else 0.0


def test_gypsum_and_concrete(materials):
    for name in ("gypsum-casting", "concrete-fine"):
        record = materials.mineral[name]
        mix = mix_mineral(0.010, record, 0.05)
        assert mix.piece_mass == pytest.approx(0.010 * record.density.value)
        assert mix.powder + mix.water == pytest.approx(mix.mixed)
        assert mix.mixed == pytest.approx(0.0105 * record.wet_density.value)
        assert mix.water / mix.powder == pytest.approx(record.water_ratio.value)
        assert "data sheet" in mix.warnings[0]


def test_unequal_grades_pack_closer_than_equal_ones(glass):
    fine, medium, coarse = (glass.grade(name) for name in ("fine", "medium", "coarse"))
    assert sifted_void_fraction(coarse, fine).value < sifted_void_fraction(coarse, medium).value
    for one, other in ((coarse, medium), (coarse, fine), (medium, fine)):
        voids = sifted_void_fraction(one, other)
        assert voids.low < voids.value < voids.high
