"""Voids near walls, in mixtures, tapped, and by a bucket filled up with water."""

from math import pi

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.fill import BandChoice, BucketTest
from pourwright.fill.defaults import DEFAULTS
from pourwright.fill.voids import bucket_walls, void_fraction_of
from pourwright.foundation.errors import UserError
from pourwright.geometry import box, cone
from pourwright.materials.blends import blend_name, with_blends
from pourwright.physics.permeability import mean_grain
from pourwright.physics.wall_layer import disturbed_share, looser_at_walls

MIX = (("coarse", 0.6), ("fine", 0.4))


def test_a_tube_is_disturbed_by_the_share_that_geometry_says():
    # 1 - (1 - d / D)^2, closed form; walls only
    width, grain = 0.10, 0.009
    found = disturbed_share(pi * width, pi * width**2 / 4, grain)
    assert found == pytest.approx(1 - (1 - grain / width) ** 2, rel=1e-12)


def test_a_slot_of_one_grain_is_all_wall():
    assert disturbed_share(2.0, 0.009, 0.009) == pytest.approx(0.75, abs=1e-12)
    assert disturbed_share(4.0, 0.009, 0.009) == 1.0
    # crushed grains against a wall: de Larrard 1999, 0.73 of what they fill elsewhere, from memory
    assert looser_at_walls(0.55, 1.0) == pytest.approx(0.55 * 0.73)


def test_walls_of_a_bucket_as_high_as_wide():
    volume = 0.010
    width = (4 * volume / pi) ** (1 / 3)
    assert bucket_walls(volume) == pytest.approx(pi * width * width + pi * width**2 / 4)


def test_the_same_bucket_as_a_mold_has_the_same_voids(fill, glass):
    """A tube as wide and high as the bucket: what was measured is what goes in."""
    volume = DEFAULTS["reference_bucket"].value
    width = (4 * volume / pi) ** (1 / 3)
    piece = fill(cone(width / 2, width / 2, width), BandChoice(grade="coarse"), neat_cover=0.0)
    assert piece.bands[0].void_fraction == pytest.approx(0.45, abs=1e-4)


@settings(max_examples=40, deadline=None)
@given(st.floats(0.02, 0.6), st.floats(1.1, 3.0))
def test_glass_lies_looser_in_a_narrower_wall(fill, wide, narrower):
    loose = [
        fill(box([width, 0.5, 0.5]), BandChoice(grade="coarse"), neat_cover=0.0).bands[0].void_fraction
        for width in (wide, wide / narrower)
    ]
    assert 0.35 < loose[0] < loose[1] <= 0.70


def test_two_ways_to_measure_one_bucket(glass):
    by_mass = void_fraction_of(BandChoice(grade="coarse", bucket_test=BucketTest(0.005, mass=6.85)), glass)
    water = 0.005 - 6.85 / glass.density.value
    by_water = void_fraction_of(BandChoice(grade="coarse", bucket_test=BucketTest(0.005, water=water)), glass)
    assert by_water.value == pytest.approx(by_mass.value, rel=1e-12)
    # air stays between the grains: the water says it less surely
    assert by_water.high - by_water.low > by_mass.high - by_mass.low


def test_a_bucket_that_took_no_water_is_refused(glass):
    band = BandChoice(grade="coarse", bucket_test=BucketTest(0.010, water=0.001), where="j:7")
    with pytest.raises(UserError, match="gives a void fraction"):
        void_fraction_of(band, glass)


def test_tapped_glass_lies_closer(glass):
    poured = void_fraction_of(BandChoice(grade="coarse"), glass)
    tapped = void_fraction_of(BandChoice(grade="coarse", tapped=True), glass)
    # 0.38 to 0.43 from memory
    assert (tapped.low, tapped.high) == (0.38, 0.43)
    assert tapped.value < poured.low


def test_a_mixture_leaves_less_room_than_either_grade(fill, glass, prism):
    mixed = with_blends(glass, [MIX])
    name = blend_name(MIX)
    voids = mixed.grade(name).void_fraction
    # T01: two grades together leave 0.28 to 0.45
    assert 0.28 <= voids.low < voids.value < 0.45
    assert voids.high >= 0.45
    assert mixed.grade(name).sieve_to.value == glass.grade("coarse").sieve_to.value
    assert mixed.grade(name).sieve_from.value == glass.grade("fine").sieve_from.value


def test_the_parts_of_a_mixture_are_had_ready_each_by_its_share(fill, glass, prism):
    from pourwright.fill import FillChoices, design_fill
    from pourwright.geometry import level_volume
    from pourwright.materials import load_materials

    band = BandChoice(grade=blend_name(MIX), blend=MIX, colour="green")
    choices = FillChoices(
        resin=load_materials().resin["epoxy-slow-deep"],
        glass=with_blends(glass, [MIX]),
        bands=(band,),
        neat_cover=0.0,
    )
    piece = design_fill(prism, level_volume(prism), choices)
    assert {lot.grade: lot.mass for lot in piece.glass} == pytest.approx(
        {"coarse": 0.6 * piece.glass_mass, "fine": 0.4 * piece.glass_mass}
    )


@given(st.floats(0.05, 0.95))
def test_no_share_of_two_grades_leaves_more_room_than_they_do_apart(share):
    from pourwright.materials import load_materials

    glass = load_materials().glass["soda-lime-crushed"]
    blend = (("coarse", share), ("medium", 1 - share))
    voids = with_blends(glass, [blend]).grade(blend_name(blend)).void_fraction
    assert voids.low <= voids.value <= 0.45 + 1e-12
    coarse, medium = (glass.grade(name) for name in ("coarse", "medium"))
    assert mean_grain(coarse.sieve_from.value, coarse.sieve_to.value) > mean_grain(
        medium.sieve_from.value, medium.sieve_to.value
    )


def test_an_unknown_grade_in_a_mixture_is_told(glass):
    with pytest.raises(UserError, match="no grade called 'gravel'"):
        with_blends(glass, [(("coarse", 0.5), ("gravel", 0.5))])
