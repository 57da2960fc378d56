"""Nicks and tongues, both with their margins."""

from dataclasses import replace
from math import pi

import numpy as np
import pytest

from pourwright.geometry import ThinPart
from pourwright.mold.way_out.defaults import WAY_OUT
from pourwright.mold.way_out.soft import bears, least_tearing_energy, stiffness, tongues
from pourwright.physics.tear import notch_energy


@pytest.fixture
def rubber(materials):
    return materials.rubber["silicone-platinum-a25"]


def slot(thickness, stands, width=np.inf):
    ahead = np.array([1.0, 0.0, 0.0])
    return ThinPart(thickness, thickness, np.zeros(3), ahead, width, stands)


def test_a_nick_grows_where_its_energy_is_that_of_tearing(rubber):
    soft, stiffest = bears(rubber), stiffness(rubber).high
    energy = notch_energy(stiffest, 1.0 + soft.notch_strain, WAY_OUT["nick"].value)
    assert energy == pytest.approx(least_tearing_energy(rubber), rel=1e-6)
    assert 0.1 < soft.notch_strain < soft.elongation


def test_tear_strength_of_the_sheet_is_taken_as_trousers(rubber):
    low = rubber.tear_strength.low or rubber.tear_strength.value
    assert least_tearing_energy(rubber) == pytest.approx(2 * WAY_OUT["trousers_share"].low * low)


def test_harder_rubber_is_stiffer(rubber):
    def of(shore):
        hardness = replace(rubber.hardness_shore_a, value=shore, low=None, high=None)
        return stiffness(replace(rubber, hardness_shore_a=hardness))

    soft, hard = of(15.0), of(40.0)
    assert soft.low < soft.likely < soft.high
    assert soft.likely < hard.likely


def test_a_tongue_is_held_by_both_its_sides_and_a_pin_all_round(rubber):
    found = tongues([(slot(0.005, 0.03), 4), (slot(0.005, 0.03, width=0.005), 1)], rubber)
    grip = WAY_OUT["grip"].value
    pin, flat = found
    assert pin.part.pin
    assert (pin.count, flat.count) == (1, 4)
    assert flat.stress == pytest.approx(2 * grip * 0.03 / 0.005)
    assert flat.force == pytest.approx(2 * grip * 0.03)
    assert pin.force == pytest.approx(grip * pi * 0.005 * 0.03)
    assert pin.margin == pytest.approx(flat.margin / 2)


def test_a_deeper_slot_has_less_margin_and_one_that_stands_nowhere_none(rubber):
    found = tongues([(slot(0.004, 0.01), 1), (slot(0.004, 0.08), 1), (slot(0.02, None), 1)], rubber)
    assert [tongue.part.stands for tongue in found] == [0.08, 0.01]
    assert found[1].margin == pytest.approx(8 * found[0].margin)
