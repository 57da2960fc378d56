"""What lifts the master and what holds it."""

import numpy as np
import pytest

from pourwright.geometry import box
from pourwright.mold.hold.lift import buoyancy, contact_area, sealed_push
from pourwright.mold.hold.screws import screws_for
from pourwright.physics.screws import EDGE

G = 9.80665


def test_a_hung_block_by_hand(design, block, choices):
    held = design(block, master_density=700.0).hold_down
    rubber = choices.rubber.density.value
    # Archimedes: drowned volume 24 litres
    assert held.buoyancy == pytest.approx(0.024 * rubber * G, rel=1e-9)
    assert held.master_mass == pytest.approx(16.8, rel=1e-9)
    assert held.net_force == pytest.approx(0.024 * (rubber - 700) * G, rel=1e-9)
    assert held.weight_needed == pytest.approx(1.5 * 0.024 * (rubber - 700), rel=1e-9)
    assert held.worst_level == pytest.approx(0.419, rel=1e-12)
    assert held.screws_needed is None
    assert held.bar_load == pytest.approx(16.8 * G, rel=1e-9)


def test_a_heavy_master_needs_no_weight(design, block):
    held = design(block, master_density=2400.0).hold_down
    assert held.net_force == 0
    assert held.weight_needed == 0
    assert held.bar_load > held.buoyancy


def test_a_weighed_master_wins_over_its_density(design, block):
    assert design(block, master_density=2400.0, master_mass=9.0).hold_down.master_mass == 9.0


def test_a_screwed_block_is_pressed_down_while_it_is_tight(design, block, choices):
    mold = design(block, method="screwed", master_density=700.0)
    held = mold.hold_down
    assert held.worst_level == pytest.approx(0.40, rel=1e-12)
    # straight sides give the rubber no hold: nothing lifts it, its top is pressed
    assert held.sealed_force == pytest.approx(0.0, abs=1e-6)
    rubber = choices.rubber.density.value
    top = float(sealed_push(mold.pour, 0.419, rubber))
    assert top == pytest.approx(-rubber * G * 0.06 * 0.019, rel=1e-9)
    # and if rubber creeps under it, all of Archimedes
    assert held.buoyancy == pytest.approx(0.024 * rubber * G, rel=1e-9)
    # Wood Handbook, edge of board, 4 mm screw 22 mm deep through 18 mm, 2,850 of 15,700 of what draws it out
    gravity = 0.700 / 1.08
    each = 1 / 5.5 * EDGE * 4.0**0.5 * (22.0 - 4.0 / 3.0) ** 1.25 * gravity**2
    assert held.screws_needed == max(4, int(np.ceil(1.5 * held.net_force / each)))


def test_a_tight_master_wider_above_is_lifted_half_way(design, mushroom, choices):
    import numpy as np

    from pourwright.geometry import Mesh

    # turned over, so that the narrow end is the mouth on the base board
    flipped = Mesh(mushroom.vertices * [1, -1, -1] + [0, 0, 0.3], mushroom.faces)
    mold = design(flipped, method="screwed")
    assert contact_area(mold.pour) == pytest.approx(np.pi * 0.05**2, rel=0.002)
    levels = np.linspace(0, mold.pour.level_wanted, 2001)
    push = sealed_push(mold.pour, levels, choices.rubber.density.value)
    highest = levels[np.argmax(push)]
    assert push.max() > 0
    assert mold.hold_down.sealed_force == pytest.approx(push.max(), rel=1e-3)
    # the cap is lifted most when it is just drowned, below the final level
    assert highest == pytest.approx(0.3, abs=1e-3)
    assert highest < mold.pour.level_wanted


def test_buoyancy_never_falls_while_the_rubber_rises(design, mushroom, choices):
    for method in ("hung", "screwed"):
        pour = design(mushroom, method=method).pour
        lift = buoyancy(pour, np.linspace(0, 0.4, 200), choices.rubber.density.value)
        assert (np.diff(lift) >= -1e-9).all()


def test_screws_are_never_fewer_than_four():
    assert screws_for(0.0, 250.0) == 4
    assert screws_for(250.0 * 5 + 0.1, 250.0) == 6


def test_the_board_of_the_master_counts_not_that_of_the_box(design, materials):
    held = design(box([0.2, 0.2, 0.2]), master_board=materials.board["pine"]).hold_down
    assert held.master_mass == pytest.approx(0.008 * materials.board["pine"].density.value, rel=1e-9)
