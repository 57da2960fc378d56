"""Bands beside their weights: stock, tapping, soft borders, shells."""

from dataclasses import replace
from math import pi

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.fill import BandChoice, FillChoices, design_fill
from pourwright.fill.choices import ShellChoice, Stock
from pourwright.fill.shells import core_between
from pourwright.fill.stock import allotted
from pourwright.fill.tapping import tapping_of
from pourwright.foundation.errors import UserError
from pourwright.geometry import box, level_volume, revolve
from pourwright.materials.blends import blend_name, with_blends

GREEN = BandChoice(to=0.2, grade="coarse", colour="green")
CLEAR = BandChoice(grade="coarse", colour="clear")


def used(made):
    return allotted(made.bands, made.levels, made.choices)


def test_a_stock_that_reaches_leaves_nothing_missing(fill, prism) -> None:
    stock = (Stock("coarse", "green", 90.0), Stock("coarse", "clear", 90.0))
    made = fill(prism, GREEN, CLEAR, stock=stock)
    found = used(made)
    assert found.missing == ()
    assert sum(mass for _, _, mass in found.left) == pytest.approx(180.0 - made.glass_mass)


def test_a_band_ends_where_its_glass_does(fill, prism) -> None:
    """In a prism a tenth less glass is a tenth less height."""
    wanted = fill(prism, GREEN, CLEAR).bands[0].glass_mass
    stock = (Stock("coarse", "green", 0.9 * wanted), Stock("coarse", "clear", 100.0))
    (one,) = used(fill(prism, GREEN, CLEAR, stock=stock)).missing
    assert one.ends_at == pytest.approx(0.18)
    assert one.missing == pytest.approx(0.1 * wanted)
    assert one.share == pytest.approx(0.1)
    assert one.mix_in == "clear"


def test_what_upper_bands_need_is_not_mixed_in(fill, prism) -> None:
    plain = fill(prism, GREEN, CLEAR)
    green, clear = plain.bands[0].glass_mass, plain.bands[1].glass_mass
    for spare, mixed in ((0.09, None), (0.11, "clear")):
        stock = (Stock("coarse", "green", 0.9 * green), Stock("coarse", "clear", clear + spare * green))
        (one,) = used(fill(prism, GREEN, CLEAR, stock=stock)).missing
        assert one.mix_in == mixed


def test_a_mixture_ends_with_the_first_of_its_grades(prism, glass, resin) -> None:
    blend = (("coarse", 0.6), ("medium", 0.4))
    band = BandChoice(grade=blend_name(blend), blend=blend, colour="green")
    levels, mixed = level_volume(prism), with_blends(glass, [blend])
    plain = FillChoices(resin=resin, glass=mixed, bands=(band,), neat_cover=0.0)
    mass = design_fill(prism, levels, plain).glass_mass
    stock = (Stock("coarse", "green", 0.3 * mass), Stock("medium", "green", mass))
    (one,) = used(design_fill(prism, levels, replace(plain, stock=stock))).missing
    assert one.grade == "coarse"
    assert one.ends_at == pytest.approx(0.2)  # half of its coarse share is there, the prism is 0.4 m high


def test_a_colour_not_in_stock_is_refused_with_what_there_is(fill, prism) -> None:
    stock = (Stock("coarse", "green", 5.0), Stock("coarse", "blue", 5.0))
    with pytest.raises(UserError, match="no clear glass lies in stock; allowed: green, blue"):
        fill(prism, GREEN, CLEAR, stock=stock)
    fill(prism, GREEN, CLEAR, stock=stock, bought=frozenset({"clear"}))


@settings(max_examples=30, deadline=None)
@given(st.lists(st.floats(0.01, 40.0), min_size=2, max_size=2), st.floats(0.08, 0.3))
def test_stock_is_used_or_left(fill, prism, masses, border) -> None:
    stock = tuple(Stock("coarse", name, mass) for name, mass in zip(("green", "clear"), masses, strict=True))
    made = fill(prism, BandChoice(to=border, grade="coarse", colour="green"), CLEAR, stock=stock)
    found = used(made)
    taken = made.glass_mass - sum(one.missing for one in found.missing)
    assert taken + sum(mass for _, _, mass in found.left) == pytest.approx(sum(masses), abs=1e-5)


def test_tapped_glass_sinks_by_its_voids(fill, prism) -> None:
    """In a prism: 0.45 to 0.405 voids is 0.55/0.595 of the height."""
    made = fill(prism, GREEN, CLEAR)
    first, second = tapping_of(made.bands, made.levels, made.choices)
    solid = 1 - first.band.void_fraction
    assert first.sinks == pytest.approx(0.2 * (1 - 0.55 / 0.595))
    assert first.more_glass == pytest.approx(0.3 * 0.2 * 0.2 * solid * (0.595 / 0.55 - 1) * 2500, rel=0.02)
    assert first.sinks_least < first.sinks < first.sinks_most
    depth = second.band.upper - second.band.lower
    assert second.border == pytest.approx((0.2 + depth) * 0.55 / 0.595)


def test_a_tapped_band_moves_no_more(fill, prism) -> None:
    made = fill(prism, BandChoice(grade="coarse", colour="green", tapped=True))
    (one,) = tapping_of(made.bands, made.levels, made.choices)
    assert one.already
    assert (one.sinks, one.more_glass) == (0.0, 0.0)


def test_a_soft_border_in_a_prism_is_centred(fill, prism) -> None:
    soft = BandChoice(to=0.2, grade="coarse", colour="green", soft=0.04)
    made = fill(prism, soft, CLEAR)
    (zone,) = made.soft
    assert (zone.lower, zone.upper) == pytest.approx((0.18, 0.22))
    assert zone.glass_below == pytest.approx(made.bands[0].glass_mass / 10)
    assert zone.closes == 0.0
    assert any("goes over into band 2 from 180 mm to 220 mm" in text for text in made.warnings)


@settings(max_examples=25, deadline=None)
@given(st.floats(0.005, 0.08), st.floats(0.17, 0.22))
def test_half_of_a_soft_border_is_each_glass(fill, hourglass, depth, border) -> None:
    soft = BandChoice(to=border, grade="coarse", colour="green", soft=depth)
    made = fill(hourglass, soft, CLEAR)
    (zone,) = made.soft
    volume = made.levels.volume
    assert zone.upper - zone.lower == pytest.approx(depth)
    assert volume(border) - volume(zone.lower) == pytest.approx(zone.volume / 2, rel=1e-6)
    assert volume(zone.upper) - volume(border) == pytest.approx(zone.volume / 2, rel=1e-6)
    held = zone.glass_below / (1 - made.bands[0].void_fraction)
    held += zone.glass_above / (1 - made.bands[1].void_fraction)
    assert held == pytest.approx(zone.volume * made.choices.glass.density.value)


def test_two_grades_lie_closer_in_a_soft_border(fill, prism) -> None:
    soft = BandChoice(to=0.2, grade="coarse", colour="green", soft=0.06)
    (zone,) = fill(prism, soft, BandChoice(grade="fine", colour="clear")).soft
    assert 0.0 < zone.closes < 0.02


@pytest.mark.parametrize(
    ("upper", "depth", "said"),
    [
        (CLEAR, 0.12, "a soft border of 120 mm on band 1"),
        (BandChoice(), 0.02, "against neat resin"),
        (BandChoice(grade="coarse", colour="clear", soft=0.02), 0.02, "against neat resin"),
    ],
)
def test_a_soft_border_that_cannot_be_is_refused(fill, prism, upper, depth, said) -> None:
    with pytest.raises(UserError, match=said):
        fill(prism, BandChoice(to=0.2, grade="coarse", colour="green", soft=depth), upper)


def shelled(thickness, to=None, grade="medium"):
    return BandChoice(to=to, grade=grade, colour="clear", shell=ShellChoice("green", thickness, "job:7"))


def test_a_shell_in_a_cylinder(fill) -> None:
    """Core: radius and, on the floor, depth less the thickness; the open face is no wall."""
    radius, thick = 0.1, 0.02
    can = revolve([[radius, 0.0], [radius, 0.4]], 256)
    made = fill(can, shelled(thick, to=0.2), BandChoice(grade="medium", colour="clear"), neat_cover=0.0)
    core = pi * (radius - thick) ** 2 * (0.2 - thick)
    band = made.bands[0]
    assert band.volume - band.shell.volume == pytest.approx(core, rel=2e-3)
    upper = core_between(can, thick, 0.2, 0.4)
    assert upper == pytest.approx(pi * (radius - thick) ** 2 * 0.2, rel=2e-3)


@settings(max_examples=6, deadline=None)
@given(st.floats(0.019, 0.035))
def test_shell_and_core_are_the_band(fill, thick) -> None:
    mesh = box([0.2, 0.15, 0.2])
    made = fill(mesh, shelled(thick), neat_cover=0.0)
    (band,) = made.bands
    core = (0.2 - 2 * thick) * (0.15 - 2 * thick) * (0.2 - thick)
    assert band.shell.volume == pytest.approx(band.volume - core, rel=4e-3)
    assert sum(mass for _, mass in band.colours) == pytest.approx(band.glass_mass)
    lots = {lot.colour: lot.mass for lot in made.glass}
    assert lots["green"] == pytest.approx(band.shell_mass)
    assert lots["green"] + lots["clear"] == pytest.approx(made.glass_mass)


@pytest.mark.parametrize(
    ("thick", "said"),
    [
        (0.018, "a shell of 18 mm .*; allowed: 18.9 mm or more|a shell of 18 mm .*; allowed: 19 mm or more"),
        (0.07, r"job:7: a shell of 70 mm leaves no core in band 1, .*; allowed: up to 6\d"),
    ],
)
def test_a_shell_that_cannot_be_is_refused(fill, thick, said) -> None:
    """Largest grain 6.3 mm; half of the box is 75 mm, of which a core of three grains keeps 9.5 mm."""
    with pytest.raises(UserError, match=said):
        fill(box([0.3, 0.15, 0.3]), shelled(thick), neat_cover=0.0)
