"""Equivalent weights, ratios, and the heat that goes with them.

B06 to B11: definition phr = 100 AHEW / EEW with EEW 190 g/eq; molar masses by the library chemicals
1.5.2, recomputed here from standard atomic weights (IUPAC 2021, abridged; from memory); 0.1 %.
B12: definition; 0.01 %. B13: "Characterization of diglycidyl ether of bisphenol A / aliphatic
polyamines systems", Polimeros (SciELO), read in its abstract: 14.7 parts within 0.5 %, 486 J/g and
106.6 kJ/eq within 5 % of each other. B15, B16: closed form, 0.1 %.
"""

import re

import pytest

from pourwright.physics.adiabatic import adiabatic_rise
from pourwright.physics.stoichiometry import (
    equivalent_weight,
    heat_per_mass,
    parts_per_hundred,
    ratio_reached,
)

ATOMS = {"C": 12.011, "H": 1.008, "N": 14.007, "O": 15.999}
AMINES = [
    pytest.param("C4H13N3", 5, 103.1661, 20.633, 10.86, id="B06 diethylenetriamine"),
    pytest.param("C6H18N4", 6, 146.2339, 24.372, 12.828, id="B07 triethylenetetramine"),
    pytest.param("C10H22N2", 4, 170.2951, 42.574, 22.407, id="B08 isophorone diamine"),
    pytest.param("C6H8N2", 4, 108.1411, 27.035, 14.229, id="B09 m-phenylenediamine"),
    pytest.param("C13H14N2", 4, 198.2637, 49.566, 26.087, id="B10 4,4'-methylenedianiline"),
    pytest.param("C8H12N2", 4, 136.1943, 34.049, 17.92, id="B11 1,3-bis(aminomethyl)benzene"),
]


def molar_mass(formula):
    """Molar mass of a molecule [kg/mol]."""
    counts = re.findall(r"([A-Z])(\d*)", formula)
    return sum(ATOMS[atom] * int(count or 1) for atom, count in counts) / 1000


@pytest.mark.parametrize(("formula", "hydrogens", "mass", "equivalent", "parts"), AMINES)
def test_parts_of_an_amine(formula, hydrogens, mass, equivalent, parts):
    assert molar_mass(formula) * 1000 == pytest.approx(mass, rel=1e-4)
    found = equivalent_weight(molar_mass(formula), hydrogens)
    assert found * 1000 == pytest.approx(equivalent, rel=1e-3)
    assert parts_per_hundred(found, 0.190) == pytest.approx(parts, rel=1e-3)


def test_epoxide_equivalent_of_pure_resin():
    # B12: diglycidyl ether of bisphenol A, C21H24O4, two rings
    assert equivalent_weight(molar_mass("C21H24O4"), 2) * 1000 == pytest.approx(170.206, rel=1e-4)


def test_a_measured_system():
    # B13: EEW 187, AHEW 27.5
    assert parts_per_hundred(0.0275, 0.187) == pytest.approx(14.7, rel=5e-3)
    assert heat_per_mass(106.6e3, 0.187, 0.0275) / 1000 == pytest.approx(486.0, rel=0.05)


def test_heat_per_gram_from_heat_per_mole():
    # B15
    assert heat_per_mass(100e3, 0.190, 0.0206332) / 1000 == pytest.approx(474.759, rel=1e-3)


@pytest.mark.parametrize(("glass", "rise"), [(0.0, 250.0), (0.7, 119.681)])
def test_adiabatic_rise_neat_and_filled(glass, rise):
    # B16
    found = adiabatic_rise(1.0, 450e3, 1800.0, filler_share=glass, filler_heat_capacity=840.0)
    assert found == pytest.approx(rise, rel=1e-3)


@pytest.mark.parametrize(("dosed", "ratio"), [(291.0, 0.97), (309.0, 1.03)])
def test_hardener_error_that_moves_the_ratio(dosed, ratio):
    # E14: 1000 g of resin at 100 : 30; closed form, 1e-6
    assert ratio_reached(dosed, 300.0) == pytest.approx(ratio, rel=1e-6)
