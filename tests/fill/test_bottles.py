"""From bottles to crushed glass: sizes by sieve, yields, bottles, work, water films, trays."""

from math import ceil, exp, pi

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.fill import BandChoice, GlassLot
from pourwright.fill.bottles.collecting import collected, refuse_hardly_any
from pourwright.fill.bottles.defaults import BOTTLES, DRYING
from pourwright.fill.bottles.sieving import CrushYields, crush_yields, sieve_test, sizes_of
from pourwright.fill.bottles.sorting import sorting_list
from pourwright.fill.bottles.wet import trays, wet_grade
from pourwright.fill.bottles.work import Pace, Worth, work_at
from pourwright.foundation.errors import UserError
from pourwright.physics.size_distribution import passing

SIZES, SPREADS = st.floats(0.002, 0.012), st.floats(0.7, 2.5)
PACE = Pace(60.0, 180.0, 120.0, 120.0, 60.0, 900.0)


def weighed_by(size, spread, openings, total=1.0):
    """What stays on each sieve, by the law itself: 1 - exp(-(d / size)^spread) passes."""
    wider = [1.0, *(1.0 - exp(-((d / size) ** spread)) for d in openings)]
    return [(d, total * (above - below)) for d, above, below in zip(openings, wider, wider[1:], strict=False)]


@given(SIZES, SPREADS, st.integers(2, 5))
def test_the_law_that_made_the_weighings_is_found_again(size, spread, count):
    openings = [0.0125, 0.0063, 0.00315, 0.0018, 0.0009][:count]
    test = sieve_test(weighed_by(size, spread, openings), None, 1.0, in_shares=True)
    if sum(0.0 < share < 1.0 for share in test.passed) < 2 or min(1 - share for share in test.passed) < 1e-9:
        return
    found = sizes_of(test)
    assert found.law.size == pytest.approx(size, rel=1e-4)
    assert found.law.spread == pytest.approx(spread, rel=1e-4)
    assert found.residual < 1e-6


@given(SIZES, SPREADS)
def test_the_yield_of_a_grade_is_what_lies_between_its_sieves(glass, size, spread):
    test = sieve_test(weighed_by(size, spread, [0.008, 0.002]), None, 1.0, in_shares=True)
    if not 1e-6 < test.passed[1] < test.passed[0] < 1 - 1e-6:
        return
    yields = crush_yields(glass, {}, sizes_of(test))
    law = {
        grade.id: exp(-((grade.sieve_from.value / size) ** spread))
        - exp(-((grade.sieve_to.value / size) ** spread))
        for grade in glass.grades
    }
    assert yields.shares == pytest.approx(law, abs=1e-6)
    assert set(yields.by.values()) == {"fitted"}
    assert yields.over == pytest.approx(exp(-((0.0125 / size) ** spread)), abs=1e-6)


@settings(max_examples=60)
@given(st.lists(st.floats(0.0, 1.0), min_size=3, max_size=6), st.floats(0.01, 1.0))
def test_yields_of_any_weighings_sum_to_one_bottle_at_most(glass, masses, pan):
    """Whatever was weighed, well or badly: never negative, never more than was crushed."""
    openings = [0.016, 0.0125, 0.0063, 0.004, 0.00315, 0.0018][: len(masses)]
    test = sieve_test(list(zip(openings, masses, strict=True)), pan, None)
    try:
        sizes = sizes_of(test)
    except UserError:
        return
    yields = crush_yields(glass, {}, sizes)
    assert min(yields.shares.values()) >= -1e-12
    assert sum(yields.shares.values()) + yields.over + yields.rest == pytest.approx(1.0)


def test_a_grade_between_two_weighed_sieves_is_as_weighed(glass):
    """Three sieves that no law fits: the shares on the grades' own sieves are taken as they are."""
    test = sieve_test([(0.0125, 0.1), (0.0063, 0.5), (0.00315, 0.1)], 0.3, None)
    yields = crush_yields(glass, {}, sizes_of(test))
    assert yields.sizes.residual > 0.03
    assert yields.shares["coarse"] == pytest.approx(0.5)
    assert yields.shares["medium"] == pytest.approx(0.1)
    assert yields.by == {"coarse": "weighed", "medium": "weighed", "fine": "fitted"}
    assert yields.over == pytest.approx(0.1)
    assert 0.0 < yields.shares["fine"] < 0.3


def test_dust_that_is_lost_is_borne_and_more_is_told_by_how_much():
    test = sieve_test([(0.0063, 1.0), (0.00315, 0.5)], 0.48, 2.0)
    assert test.off == pytest.approx(0.01)
    assert sum(test.stayed) == pytest.approx(1.5 / 1.98)
    with pytest.raises(UserError, match=r"hold 1.80 kg of 2.00 kg crushed: 200 g \(10 %\) are missing"):
        sieve_test([(0.0063, 1.0), (0.00315, 0.5)], 0.3, 2.0)
    with pytest.raises(UserError, match=r"hold 2.20 kg of 2.00 kg crushed: 200 g \(10 %\) are too much"):
        sieve_test([(0.0063, 1.2), (0.00315, 1.0)], None, 2.0)
    with pytest.raises(UserError, match="hold 110 % of 100 % crushed: 10 %"):
        sieve_test([(0.0063, 0.6), (0.00315, 0.5)], None, 1.0, in_shares=True)


@pytest.mark.parametrize(
    ("weighed", "pan", "crushed", "told"),
    [
        ([(0.0063, 1.0), (0.0063, 0.5)], 0.5, None, "a sieve named twice"),
        ([(0.0063, 1.0), (0.00315, 0.5)], None, None, "neither pan nor crushed"),
        ([(0.0063, 0.0), (0.00315, 0.0)], 0.0, None, "nothing was weighed"),
    ],
)
def test_weighings_that_tell_nothing_are_refused(weighed, pan, crushed, told):
    with pytest.raises(UserError, match=told):
        sieve_test(weighed, pan, crushed)


def test_one_useful_sieve_is_too_few():
    with pytest.raises(UserError, match="fewer than two sieves"):
        sizes_of(sieve_test([(0.0125, 0.0), (0.0063, 1.0)], 1.0, None))


def test_the_shops_own_record_leaves_the_rest_to_the_others(glass):
    usual = crush_yields(glass, {})
    assert usual.shares == {grade.id: grade.crush_yield.value for grade in glass.grades}
    own = crush_yields(glass, {"coarse": 0.74})
    # 0.26 are left for what usually are 0.52: half of each
    assert own.shares == pytest.approx({"coarse": 0.74, "medium": 0.15, "fine": 0.11})
    assert own.by == {"coarse": "own record", "medium": "usual", "fine": "usual"}
    assert own.rest == pytest.approx(0.0, abs=1e-12)


USUAL = CrushYields({"coarse": 0.33, "medium": 0.30, "fine": 0.22}, {})


@given(
    st.dictionaries(st.sampled_from(["coarse", "medium", "fine"]), st.floats(0.001, 80.0), min_size=1),
    st.floats(0.15, 0.9),
)
def test_bottles_give_what_is_wanted_and_no_bottle_less_does(wanted, bottle):
    found = collected("green", wanted, USUAL, bottle)
    assert all(need.made >= need.wanted * (1 - 1e-9) for need in found.needs)
    short = (found.bottles - 1) * bottle
    assert any(short * USUAL.shares[grade] < mass for grade, mass in wanted.items())
    parts = sum(need.wanted + need.left for need in found.needs) + found.over + found.rest
    assert parts == pytest.approx(found.crushed)


@given(st.floats(0.01, 40.0), st.floats(0.01, 40.0), st.floats(1.0, 3.0))
def test_twice_the_glass_never_takes_fewer_bottles(coarse, fine, times):
    once = collected("green", {"coarse": coarse, "fine": fine}, USUAL, 0.45)
    more = collected("green", {"coarse": times * coarse, "fine": times * fine}, USUAL, 0.45)
    assert more.bottles >= once.bottles
    assert more.again >= once.again
    assert work_at(more, PACE).total >= work_at(once, PACE).total
    assert once.again <= once.bottles


def test_crushing_what_is_too_coarse_again():
    """10 kg of medium at 30 %: 33.3 kg go through the crusher; a third of that has been through before."""
    found = collected("amber", {"medium": 10.0}, USUAL, 0.45)
    assert found.bottles == ceil(10.0 / 0.3 / 0.45)
    assert found.again == ceil(10.0 / 0.3 * (1 - 0.33) / 0.45)
    # nothing is coarser than coarse: no bottle is saved
    coarse = collected("amber", {"coarse": 10.0}, USUAL, 0.45)
    assert coarse.again == coarse.bottles


def test_a_grade_that_crushing_does_not_give_is_refused_with_its_line():
    with pytest.raises(UserError, match=r"job.toml:9: crushing gives 0.1 % of fine glass"):
        refuse_hardly_any("fine", CrushYields({"fine": 0.001}, {}), "job.toml:9")


def test_hours_by_kilogram_and_bottle():
    found = collected("green", {"coarse": 6.6}, USUAL, 0.5)
    work = work_at(found, PACE)
    # 40 bottles, 20 kg; 6.6 kg wanted
    assert found.bottles == 40
    assert (work.labels, work.crushing, work.sieving) == (40 * 60, 20 * 180 + 900, 20 * 120)
    assert (work.washing, work.drying) == pytest.approx((6.6 * 120, 6.6 * 60))
    assert work.total == pytest.approx(2400 + 4500 + 2400 + 792 + 396)


def test_what_to_take_turns_at_the_price_of_an_hour():
    turns = Worth(3600.0 * 8, 12.0, None).turns_at
    assert turns * 3600 == pytest.approx(1.5)
    assert Worth(28800.0, 12.0, 1.4 / 3600).buy is False
    assert Worth(28800.0, 12.0, 1.6 / 3600).buy is True
    assert Worth(28800.0, None, 1.6 / 3600).buy is None


def test_water_on_a_ball_is_its_shell(glass):
    """One size of ball: shell of 30 um around it, over the mass of the ball."""
    d, film = 0.004, 30e-6
    wet = wet_grade(d, d, 2500.0, film, void_fraction=0.5, resin=1000.0)
    assert wet.water == pytest.approx(pi * d**2 * film * 998.0 / (pi * d**3 / 6 * 2500.0))
    # half grains, half resin: 2500 kg of glass to 1000 kg of resin
    assert wet.of_resin == pytest.approx(2.5 * wet.water)
    # twice as fine holds twice as much
    finer = wet_grade(d / 2, d / 2, 2500.0, film, void_fraction=0.5, resin=1000.0)
    assert finer.water == pytest.approx(2 * wet.water)


def test_trays_hold_the_lots_and_nothing_is_mixed():
    lots = [
        GlassLot(grade="coarse", colour="green", mass=6.1, bottles=1, sieve_from=0.0063, sieve_to=0.0125),
        GlassLot(grade="fine", colour="green", mass=2.0, bottles=1, sieve_from=0.001, sieve_to=0.003),
    ]
    found = trays(lots, 2.0)
    assert [tray.number for tray in found] == [1, 2, 3, 4, 5]
    assert [tray.grade for tray in found] == ["coarse"] * 4 + ["fine"]
    assert sum(tray.mass for tray in found) == pytest.approx(8.1)
    assert max(tray.mass for tray in found) <= 2.0


def test_bought_colours_count_no_bottles(fill, prism):
    bands = (
        BandChoice(to=0.2, grade="coarse", colour="green"),
        BandChoice(to=None, grade="coarse", colour="blue"),
    )
    piece = fill(prism, *bands, neat_cover=0.0, bought=frozenset({"blue"}), bottle_masses={"green": 0.9})
    green, blue = piece.glass
    assert blue.bottles is None
    assert [colour for colour, _ in piece.bottles_by_colour] == ["green"]
    alone = fill(prism, *bands, neat_cover=0.0, bottle_mass=0.45).glass[0].bottles
    assert green.bottles in {alone // 2, (alone + 1) // 2}


def test_lead_crystal_is_sorted_out_for_its_weight(glass):
    listed = {each.what: each for each in sorting_list(glass.expansion.value, glass.density.value)}
    assert "do not crush" in listed["crystal"].do
    assert "18 % heavier" in listed["crystal"].why
    # borosilicate 3.3 against 9 millionths per kelvin
    assert "37 %" in next(each.why for what, each in listed.items() if "heat-proof" in what)


def test_warmer_dries_sooner():
    times = [DRYING[way].value for way in ("room", "warm air", "oven")]
    assert times == sorted(times, reverse=True)
    assert BOTTLES["constant"].value == 0.001


def test_the_law_of_the_sieves_is_the_one_in_physics(glass):
    sizes = sizes_of(sieve_test([(0.0063, 0.4), (0.00315, 0.3)], 0.3, None))
    assert sizes.passing(0.002) == pytest.approx(passing(0.002, *sizes.law))
    assert sizes.passing(0.0063) == pytest.approx(0.6)
