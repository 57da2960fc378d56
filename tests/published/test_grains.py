"""Grains: how closely they lie, how their sizes are spread, how they sink and heap.

C01: Conway & Sloane, Sphere Packings; closed forms; 1e-6. C02: Scott & Kilgour, J. Phys. D 2 (1969) 863;
0.01. C03: Scott, Nature 188 (1960) 908 and Onoda & Liniger, Phys. Rev. Lett. 64 (1990) 2727; 0.01. C04, C05:
Furnas, Ind. Eng. Chem. 23 (1931) 1052; closed forms; 1e-6 and 1e-5. C06: McGeary, J. Am. Ceram. Soc. 44
(1961) 513, steel shot, vibrated; 0.02. C10: FHWA-RD-97-148; closed form. C12: ASTM E11. C13, C14: Rosin &
Rammler 1933; 1e-6. C15: EN 572-1. C22: Richardson & Zaki, Trans. IChemE 32 (1954) 35; 1e-5. C25: Boyle; 1e-5.
C26: geometry; 1e-5. C27: FHWA-RD-97-148 and the glass feedstock evaluation of 1993, bands. None of these
texts was before us.
"""

import tomllib
from importlib.resources import files

import numpy as np
import pytest
from scipy.stats import weibull_min

from pourwright.materials import load_materials
from pourwright.physics.heap import FRICTION, REPOSE, heap_volume
from pourwright.physics.hindered_settling import hindrance
from pourwright.physics.mixed_packing import BALLS, mixed_solid_fraction, room_taken
from pourwright.physics.packing import void_content
from pourwright.physics.size_distribution import fit_sizes, passing
from pourwright.physics.sphere_packing import ORDERED, RANDOM, furnas_coarse_share, furnas_limit
from pourwright.physics.trapped_gas import grows_under_vacuum


def test_equal_balls_in_order():
    # C01
    told = [ORDERED[name] for name in ("simple cubic", "body-centred", "face-centred")]
    assert told == pytest.approx([0.523599, 0.680175, 0.740480], abs=1e-6)


def test_equal_balls_shaken_down():
    # C02
    found = RANDOM["shaken"]
    assert found.value == pytest.approx(0.637, abs=0.01)
    assert (found.low, found.high) == (0.634, 0.640)


def test_equal_balls_poured():
    # C03
    assert RANDOM["poured"].value == pytest.approx(0.60, abs=0.01)
    assert RANDOM["loosest"].value == pytest.approx(0.555, abs=0.01)


def test_sizes_far_apart():
    # C04; and the mixing model in that limit, each size in its best share
    expected = [0.64, 0.8704, 0.953344, 0.983204]
    assert [furnas_limit(0.64, n) for n in (1, 2, 3, 4)] == pytest.approx(expected, abs=1e-6)
    shares = [0.36**n for n in range(4)]
    far = mixed_solid_fraction([1, 1e-7, 1e-14, 1e-21], np.divide(shares, sum(shares)), [0.64] * 4, BALLS)
    assert far == pytest.approx(expected[3], abs=1e-5)


def test_coarse_share_of_two_sizes_far_apart():
    # C05; and where the mixing model finds its closest bed
    assert furnas_coarse_share(0.64) == pytest.approx(0.735294, abs=1e-5)
    shares = np.linspace(0.5, 0.95, 4501)
    found = [mixed_solid_fraction([1, 1e-9], [y, 1 - y], [0.64] * 2, BALLS) for y in shares]
    assert shares[int(np.argmax(found))] == pytest.approx(0.735294, abs=1e-4)


@pytest.mark.parametrize(
    ("sizes", "measured"),
    [
        ((1.0,), 0.625),
        ((316.0, 1.0), 0.86),
        ((316.0, 38.0, 7.0), 0.90),
        ((316.0, 38.0, 7.0, 1.0), 0.951),
    ],
)
def test_steel_shot_of_one_to_four_sizes(sizes, measured):
    """C06; each size alone as shaken balls lie (C02), in the shares that pack closest (four: as measured).

    Which two of the four sizes the measured 0.86 belongs to was not before us: it is taken for the farthest
    apart. Of neighbours, 316 and 38, the model makes 0.815, which no band of 0.02 would hold.
    """
    alone = [RANDOM["shaken"].value] * len(sizes)
    if len(sizes) == 4:
        tried = [np.array([60.7, 23.0, 10.2, 6.1]) / 100]
    else:
        grid = np.linspace(0, 1, 101)
        tried = {1: [np.ones(1)], 2: [np.array([y, 1 - y]) for y in grid]}.get(len(sizes)) or [
            np.array([y, z, 1 - y - z]) for y in grid for z in grid if y + z <= 1
        ]
    needed = np.array([np.max(room_taken(sizes, alone, BALLS) @ shares) for shares in tried])
    assert 1 / needed.min() == pytest.approx(measured, abs=0.02)


def test_voids_of_crushed_glass_from_its_bulk():
    # C10: loose, rodded and tapped container glass of 2500 kg/m3
    found = [void_content(bulk, 2.5, water_density=1000.0) for bulk in (1120.0, 1350.0, 1500.0)]
    assert found == pytest.approx([0.552, 0.46, 0.40], abs=1e-9)
    low, high = min(found), max(found)
    for grade in load_materials().glass["soda-lime-crushed"].grades:
        assert low - 0.02 <= grade.void_fraction.value <= high


def test_an_eighth_of_an_inch_is_no_sieve():
    # C12
    text = files("pourwright").joinpath("data", "sieves.toml").read_text("utf8")
    openings = sorted(float(row["opening"].removesuffix(" mm")) for row in tomllib.loads(text)["sieve"])
    assert 3.175 not in openings
    assert 2.8 in openings
    assert 3.35 in openings


def test_passing_in_the_form_of_a_mill():
    # C13: 1 - exp(-200 x 0.05^2), as 1 - exp(-(d / d')^2) with d' = 200^-1/2
    assert passing(0.05, 200**-0.5, 2.0) == pytest.approx(0.393469, abs=1e-6)


def test_passing_by_a_size():
    # C14; and the Weibull distribution of a statistics library
    found = [passing(d, 4.0, 1.4) for d in (1.0, 4.0, 8.0)]
    assert found == pytest.approx([0.133755, 0.632121, 0.928568], abs=1e-6)
    assert found == pytest.approx(list(weibull_min.cdf([1.0, 4.0, 8.0], 1.4, scale=4.0)), abs=1e-12)


def test_sizes_from_many_sieves():
    # a line through points of one law gives that law back
    openings = [0.001, 0.002, 0.004, 0.008]
    found = fit_sizes(openings, [passing(d, 0.0035, 1.1) for d in openings])
    assert found == pytest.approx((0.0035, 1.1), rel=1e-9)


def test_soda_lime_glass():
    # C15: 2500 kg/m3 to 1 %, 1.0 W/(m K) to 10 %, 720 to 840 J/(kg K), 70 GPa, 0.2, 9e-6 1/K
    glass = load_materials().glass["soda-lime-crushed"]
    assert glass.density.value == pytest.approx(2500.0, rel=0.01)
    assert glass.conductivity.value == pytest.approx(1.0, rel=0.10)
    assert 720.0 <= glass.heat_capacity.value <= 840.0
    assert glass.modulus.value == pytest.approx(70e9, rel=0.05)
    assert glass.poisson_ratio.value == pytest.approx(0.2, abs=0.03)
    assert glass.expansion.value == pytest.approx(9e-6, rel=0.05)


def test_grains_that_sink_side_by_side():
    # C22
    assert hindrance(0.3) == pytest.approx(0.190417, abs=1e-5)
    assert hindrance(0.0) == 1.0


def test_a_bubble_under_vacuum():
    # C25
    assert grows_under_vacuum(101.325e3, 3.0e3) == pytest.approx(33.775, rel=1e-5)


def test_a_heap():
    # C26
    assert heap_volume(0.2, 35.0) == pytest.approx(0.00586604, rel=1e-5)


def test_the_slope_that_crushed_glass_keeps():
    # C27
    assert (REPOSE.low, REPOSE.high) == (30.0, 40.0)
    assert 30.0 <= REPOSE.value <= 40.0
    assert (FRICTION.low, FRICTION.high) == (48.0, 53.0)
    assert 48.0 <= FRICTION.value <= 53.0
