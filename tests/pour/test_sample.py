"""How warm a test cube gets."""

import pytest

from pourwright.materials import load_materials
from pourwright.physics.adiabatic import adiabatic_rise
from pourwright.pour.sample import sample_warms

SHOP = 295.15


@pytest.fixture(scope="module")
def stuff():
    materials = load_materials()
    return materials.resin["epoxy-slow-deep"], materials.glass["soda-lime-crushed"]


def peak(stuff, solid, edge):
    return sample_warms(*stuff, ((edge, solid),), edge, poured=SHOP, shop=SHOP).peak


def test_a_larger_cube_gets_hotter(stuff) -> None:
    assert SHOP < peak(stuff, 0.5, 0.06) < peak(stuff, 0.5, 0.12)


def test_glass_keeps_it_cool(stuff) -> None:
    assert peak(stuff, 0.55, 0.06) < peak(stuff, 0.4, 0.06) < peak(stuff, 0.0, 0.06)


def test_nothing_gets_hotter_than_without_any_loss(stuff) -> None:
    """Energy balance of the whole mix, fully cured."""
    resin, glass = stuff
    share = 0.5 * glass.density.value / (0.5 * glass.density.value + 0.5 * resin.density.value)
    rise = adiabatic_rise(
        1.0,
        resin.heat_of_reaction.value,
        resin.heat_capacity.value,
        filler_share=share,
        filler_heat_capacity=glass.heat_capacity.value,
    )
    assert peak(stuff, 0.5, 0.2) < SHOP + rise


def test_layers_lie_where_they_are_told(stuff) -> None:
    """Half neat, half glass is warmer than all glass and cooler than all neat."""
    mixed = sample_warms(*stuff, ((0.03, 0.0), (0.03, 0.55)), 0.06, poured=SHOP, shop=SHOP).peak
    assert peak(stuff, 0.55, 0.06) < mixed < peak(stuff, 0.0, 0.06)
