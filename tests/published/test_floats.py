"""What floats in a mold, held against the outside.

D03, D04: Archimedes, closed forms; 1e-5 and 1e-6. D31, D32: Wood Handbook GTR-190/282 chapter 8, formulas
from memory; 0.1 % and 0.2 %. T05: common practice, no source. Beam: Roark Table 8.1, partial even load.
Share that a screw may bear: Hicks, Civil Engineering Formulas, eq. 6.37 and 6.38, read on a secondary page.
"""

import pytest

from pourwright.geometry import box, level_volume
from pourwright.materials.loading import load_materials
from pourwright.mold import MoldChoices, design_mold
from pourwright.mold.hold.floats import mold_floats
from pourwright.mold.hold.lift import buoyancy, floats_from, worst_tight
from pourwright.mold.hold.screws import Screw, pull_of
from pourwright.mold.rubber import RubberPour
from pourwright.mold.screw_hold import SCREWS, Wood
from pourwright.physics.beams import evenly_loaded, loaded_around_the_middle, loaded_in_the_middle

G, INCH = 9.80665, 0.0254


def test_hold_down_of_a_light_core_at_its_worst_level():
    # D03: 12 litres of 35 kg/m3 in a liquid of 1870 kg/m3
    pour = RubberPour(level_volume(box([0.2, 0.2, 0.3])), "hung", 0.019, 0.09)
    worst = worst_tight(pour, 1870.0)
    assert worst.force - 0.012 * 35.0 * G == pytest.approx(215.942, rel=1e-5)
    assert worst.level == pytest.approx(0.319, rel=1e-12)


@pytest.mark.parametrize(("method", "floor"), [("hung", 0.019), ("screwed", 0.0)])
def test_level_from_which_a_block_floats(method, floor):
    # D04: 600 kg/m3 in 1100 kg/m3, 100 mm high, sinks in by 54.5455 mm
    pour = RubberPour(level_volume(box([0.3, 0.2, 0.1])), method, 0.019, 0.2)
    level = floats_from(pour, 600.0 * 0.006, 1100.0)
    assert level - floor == pytest.approx(0.0545455, abs=1e-6)
    assert buoyancy(pour, level, 1100.0) == pytest.approx(600.0 * 0.006 * G, rel=1e-9)


def test_a_sealed_mdf_master_floats_and_is_held():
    # T05: 3/4 in MDF doubled, 12 by 12 in, in silicone: lifted off before it is drowned; weight is asked for
    materials = load_materials()
    size = (12 * INCH, 12 * INCH, 1.5 * INCH)
    choices = MoldChoices(
        rubber=materials.rubber["silicone-platinum-a25"], board=materials.board["mdf"], casting_density=1100.0
    )
    mold = design_mold(size, level_volume(box(size)), choices)
    found = mold_floats(mold)
    assert found.from_level < mold.hold_down.worst_level
    assert found.bars.drowned.force > 0
    assert mold.hold_down.weight_needed > 0


def test_screws_by_the_handbook():
    share, screw = SCREWS["share"].value, Screw(diameter=0.0042, length=0.05, depth=0.025)
    # D31: specific gravity 0.5 when dry
    wood = Wood(density=500.0 * (1 + SCREWS["damp"].value), solid=True)
    assert pull_of(wood, screw, weak=False) / share == pytest.approx(2841.56, rel=1e-3)
    # D32: specific gravity 0.7, 14 mm deep, face and edge
    board = Wood(density=700.0 * (1 + SCREWS["damp"].value))
    shallow = Screw(diameter=0.0042, length=0.03, depth=0.014)
    assert pull_of(board, shallow, weak=False) / share == pytest.approx(979.774, rel=2e-3)
    assert pull_of(board, shallow) / share == pytest.approx(758.073, rel=2e-3)


def test_share_of_what_draws_a_screw_out():
    # 2,850 allowed for good, of 15,700 that draw it out
    assert SCREWS["share"].value == pytest.approx(2850 / 15700, rel=0.01)


def test_beam_loaded_around_its_middle():
    force, span, stiffness = 300.0, 0.8, 5000.0
    point = loaded_in_the_middle(force, span, stiffness)
    narrow = loaded_around_the_middle(force, 0.0, span, stiffness)
    assert (narrow.deflection, narrow.moment) == pytest.approx((point.deflection, point.moment), rel=1e-12)
    even = evenly_loaded(force / span, span, stiffness)
    wide = loaded_around_the_middle(force, span, span, stiffness)
    assert (wide.deflection, wide.moment) == pytest.approx((even.deflection, even.moment), rel=1e-12)


def test_beam_loaded_around_its_middle_by_adding_up_single_forces():
    # Roark Table 8.1, case 1e: a force at a from the nearer end bends the middle by
    # F a (3 L^2 - 4 a^2) / (48 EI)
    span, spread, count = 0.8, 0.3, 2000
    places = [(span - spread) / 2 + spread * (n + 0.5) / count for n in range(count)]
    near = [min(place, span - place) for place in places]
    added = sum(a * (3 * span**2 - 4 * a**2) / 48 for a in near) / count
    assert loaded_around_the_middle(1.0, spread, span, 1.0).deflection == pytest.approx(added, rel=1e-6)
