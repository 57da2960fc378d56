"""What the two ways of filling are made of, and the fact of the trade that they must agree with.

T08: common practice, no source: resin over dry glass traps more bubbles than glass mixed into resin first,
for fine grades and thick resin. Morrow & Songkran 1981: the two ends of their range. Krieger & Dougherty
1959: Einstein's slope 2.5 for balls, closed form. Thiem 1906, Jeffreys 1930: their differential equations,
integrated. C19, C20: bubbles and grains against drag laws of a public library (``fluids``); 1 %. None of
these papers was before us.
"""

from importlib import import_module

import numpy as np
import pytest
from scipy.integrate import quad

from pourwright.physics.bubbles import stokes_velocity
from pourwright.physics.draining_film import film_that_stays
from pourwright.physics.radial_seepage import flow_needed_from_a_tube
from pourwright.physics.residual_gas import bond_number, held_by_grains
from pourwright.physics.suspension import most_solid, times_as_thick
from tests.fill.two_ways import both_ways

GRAVITY = 9.80665


@pytest.mark.parametrize("resin", ["epoxy-slow-deep", "epoxy-medium", "epoxy-fast"])
@pytest.mark.parametrize("thick", [0.6, 2.0, 6.0])
def test_resin_over_fine_dry_glass_traps_more_air_than_glass_stirred_in(resin: str, thick: float) -> None:
    # T08
    band = both_ways(grade="fine", resin=resin, thick=thick)
    assert band.dry.air > band.stirred.air


def test_so_does_thick_resin_that_sets_fast_over_a_coarser_grade() -> None:
    # T08
    thin, thick = (both_ways(grade="medium", resin="epoxy-fast", thick=mu) for mu in (0.6, 10.0))
    assert thin.dry.air < thin.stirred.air
    assert thick.dry.air > thick.stirred.air


def test_gas_that_packed_balls_hold() -> None:
    # Morrow & Songkran: 14.3 % below a Bond number of 0.00667, near zero above 0.35
    assert held_by_grains(0.005) == pytest.approx(0.143)
    assert held_by_grains(0.4) == 0.0
    # balls of 2 mm in water: 998 x 9.80665 x 0.001^2 / 0.0728
    assert bond_number(998.0, 0.002, 0.0728) == pytest.approx(0.13444, rel=1e-4)


def test_few_grains_thicken_as_einstein_says() -> None:
    # exponent 2.5 phi_m: the slope at nothing is 2.5
    packed = 0.64
    found = (times_as_thick(1e-6, packed, exponent=2.5 * packed) - 1.0) / 1e-6
    assert found == pytest.approx(2.5, rel=1e-4)
    assert times_as_thick(packed, packed) == np.inf


def test_the_most_glass_makes_the_mix_just_as_thick_as_it_may_be() -> None:
    share = most_solid(60.0, 0.55)
    assert times_as_thick(share, 0.55) == pytest.approx(60.0)


def test_a_tube_in_a_bed_by_adding_up_rings() -> None:
    # Darcy through rings in series: dp = Q mu / (2 pi r b k) dr
    permeability, thick, head, density = 3e-9, 0.08, 0.1, 1100.0
    resistance = quad(lambda r: 1.0 / (2.0 * np.pi * r * thick * permeability), 0.01, 0.2)[0]
    expected = 0.004 * resistance / (density * GRAVITY * head)
    found = flow_needed_from_a_tube(0.004, permeability, thick, head, density, 0.2, 0.01)
    assert found == pytest.approx(expected, rel=1e-6)


def test_a_film_runs_down_as_its_own_equation_says() -> None:
    # d(delta)/dt + rho g delta^2 / mu d(delta)/dz = 0, checked by differences around one place and time
    def film(place: float, flowed: float) -> float:
        return film_that_stays(place, 1100.0, flowed)

    place, flowed, step = 0.2, 5000.0, 1e-4
    in_time = (film(place, flowed * (1 + step)) - film(place, flowed * (1 - step))) / (2 * step * flowed)
    along = (film(place * (1 + step), flowed) - film(place * (1 - step), flowed)) / (2 * step * place)
    speed = 1100.0 * GRAVITY * film(place, flowed) ** 2
    assert in_time == pytest.approx(-speed * along, rel=1e-6)


@pytest.mark.parametrize(("size", "heavy", "thick"), [(0.001, 2500.0, 0.6), (0.0019, 2500.0, 2.0)])
def test_grains_sink_as_a_public_library_says(size: float, heavy: float, thick: float) -> None:
    # C20
    fluids = import_module("fluids")
    told = fluids.v_terminal(D=size, rhop=heavy, rho=1100.0, mu=thick)
    assert stokes_velocity(size, heavy - 1100.0, thick) == pytest.approx(told, rel=0.01)


@pytest.mark.parametrize(("size", "thick"), [(0.001, 0.6), (0.0002, 0.3)])
def test_bubbles_rise_as_a_public_library_says(size: float, thick: float) -> None:
    # C19: a ball lighter than the liquid rises as one as much heavier sinks
    fluids = import_module("fluids")
    told = fluids.v_terminal(D=size, rhop=1100.0 + 1098.8, rho=1100.0, mu=thick)
    assert stokes_velocity(size, 1098.8, thick) == pytest.approx(told, rel=0.01)
