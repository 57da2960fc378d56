"""Bottles crushed and sieved. T07: common practice, no source. I08: 29 CFR 1910.1000, Table Z-1, unseen."""

import pytest

from pourwright.fill.bottles.sieving import crush_yields, sieve_test, sizes_of
from pourwright.fill.mineral_defaults import DUST
from pourwright.materials import load_materials

INCH = 0.0254


def test_two_stacked_sieves_give_two_useful_grades():
    # T07: over 1/4 in, 1/8 in to 1/4 in, fines below
    glass = load_materials().glass["soda-lime-crushed"]
    coarse, medium = glass.grade("coarse"), glass.grade("medium")
    assert coarse.sieve_from.value == medium.sieve_to.value == pytest.approx(INCH / 4, rel=0.01)
    assert medium.sieve_from.value == pytest.approx(INCH / 8, rel=0.01)
    stacked = [(coarse.sieve_from.value, 0.9), (medium.sieve_from.value, 0.6)]
    sizes = sizes_of(sieve_test(stacked, 0.5, 2.0))
    # over the top sieve 0.45 of the glass, 0.30 between the two, 0.25 fines below
    assert 1.0 - sizes.passing(coarse.sieve_from.value) == pytest.approx(0.45)
    yields = crush_yields(glass, {}, sizes)
    assert yields.shares["medium"] == pytest.approx(0.30)
    assert yields.shares["coarse"] + yields.over == pytest.approx(0.45)
    assert min(yields.shares["coarse"], yields.shares["medium"]) > 0.2


def test_limits_of_plain_dust():
    # I08
    assert (DUST["nuisance"].value, DUST["nuisance_fine"].value) == (15.0, 5.0)
    assert DUST["nuisance"].unit == DUST["nuisance_fine"].unit == "mg/m3"
