"""What the trade knows about masters, rubber and glass, and the packing of two sizes.

C08: linear packing model of de Larrard 1999, chapter 1 (citation from memory), limits in closed
form; the last printed digit. D03: Archimedes, 1e-5. T01, T05, T06: common practice, no source.
"""

import dataclasses

import pytest

from pourwright.fill import BandChoice, FillChoices, design_fill, sifted_void_fraction
from pourwright.geometry import box, level_volume
from pourwright.materials.loading import load_materials
from pourwright.mold import DEFAULTS, MoldChoices, design_mold
from pourwright.physics.mixed_packing import binary_solid_fraction

INCH = 0.0254
MATERIALS = load_materials()


def test_two_sizes_in_the_limits():
    # C08
    assert binary_solid_fraction(0.3, 0.0, 0.6, 0.6) == pytest.approx(0.83333, abs=5e-6)
    assert binary_solid_fraction(0.3, 1.0, 0.6, 0.6) == pytest.approx(0.6, abs=5e-6)


def test_voids_of_two_grades_sifted_together():
    # T01: the finer, roughly 3 to 6 mm, sifted into the coarser, over 6 mm: 0.28 to 0.45
    glass = MATERIALS.glass["soda-lime-crushed"]
    voids = sifted_void_fraction(glass.grade("coarse"), glass.grade("medium"))
    assert 0.28 <= voids.low < voids.value < voids.high <= 0.45
    # 3 in of resin in 9 in of glass, as the trade tells it, is within what the model allows
    assert voids.low <= 0.33 <= voids.high


def test_one_poured_grade():
    # T01: a single poured grade is 0.40 to 0.55, and the default stays 0.45
    mesh = box([0.2, 0.2, 0.2])
    choices = FillChoices(
        resin=MATERIALS.resin["epoxy-slow-deep"],
        glass=MATERIALS.glass["soda-lime-crushed"],
        bands=(BandChoice(grade="coarse"),),
    )
    band = design_fill(mesh, level_volume(mesh), choices).bands[0]
    assert band.void_in_bucket == 0.45
    assert 0.40 <= band.void_low < band.void_high <= 0.55


def mold_of_two_boards(method):
    """A sealed master of 3/4 in MDF, doubled, 12 by 12 in."""
    size = (12 * INCH, 12 * INCH, 1.5 * INCH)
    choices = MoldChoices(
        rubber=MATERIALS.rubber["silicone-platinum-a25"],
        board=MATERIALS.board["mdf"],
        method=method,
        casting_density=1100.0,
    )
    return design_mold(size, level_volume(box(size)), choices)


@pytest.mark.parametrize("method", ["hung", "screwed"])
def test_an_mdf_master_floats_in_liquid_silicone(method):
    # T05: the net force is upward, so it must be held down
    held = mold_of_two_boards(method).hold_down
    assert held.net_force > 0
    assert held.weight_needed > 0


def test_every_silicone_floats_mdf_and_plywood():
    # T05
    for rubber in MATERIALS.rubber.values():
        for name in ("mdf", "plywood", "pine"):
            assert rubber.density.value > MATERIALS.board[name].density.value


def test_gap_under_the_hanging_master():
    # T06: 3/4 in, between 1/2 in and 1 in
    assert 0.5 * INCH <= DEFAULTS["base"].value <= 1.0 * INCH
    assert mold_of_two_boards("hung").base == pytest.approx(0.75 * INCH, rel=1e-12)


def test_hold_down_of_a_light_core():
    # D03 through the mold: 12 litres of 35 kg/m3 in a liquid of 1870 kg/m3 need 215.942 N
    rubber = MATERIALS.rubber["silicone-platinum-a25"]
    heavy = dataclasses.replace(rubber, density=dataclasses.replace(rubber.density, value=1870.0))
    choices = MoldChoices(
        rubber=heavy, board=MATERIALS.board["mdf"], master_density=35.0, casting_density=1100.0
    )
    size = (0.2, 0.2, 0.3)
    held = design_mold(size, level_volume(box(size)), choices).hold_down
    assert held.net_force == pytest.approx(215.942, rel=1e-5)
