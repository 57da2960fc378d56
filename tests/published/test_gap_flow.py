"""A thickening liquid through a narrow gap.

Plane Poiseuille flow with rising viscosity is held against a quadrature of the velocity across the gap and
over time. D01: hydrostatic thrust, closed form; 1e-4. Viscosity of water: values of the usual tables, to
1 %. Young-Laplace: the pressure in a half cylinder. None of the papers was before us.
"""

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st
from scipy.integrate import dblquad, quad

from pourwright.foundation.checks import RangeError
from pourwright.physics.capillarity import gap_held_shut
from pourwright.physics.gap_flow import (
    fluidity_of_samples,
    fluidity_while_doubling,
    gap_leak,
    gap_that_stops,
    widest_gap,
)
from pourwright.physics.water import water_viscosity

GAP, PATH, PRESSURE, VISCOSITY, DOUBLING, GEL = 2e-4, 0.018, 4854.29, 18.0, 2700.0, 21600.0


def test_poiseuille_with_rising_viscosity_is_the_quadrature_of_its_velocity() -> None:
    def velocity(place: float, time: float) -> float:
        thick = VISCOSITY * 2.0 ** (time / DOUBLING)
        return PRESSURE / PATH * place * (GAP - place) / (2.0 * thick)

    expected, _ = dblquad(velocity, 0.0, GEL, 0.0, GAP, epsabs=0.0, epsrel=1e-11)
    found = gap_leak(GAP, PATH, PRESSURE, fluidity_while_doubling(VISCOSITY, DOUBLING, GEL))
    assert found == pytest.approx(expected, rel=1e-9)


def test_any_rise_of_the_viscosity_is_the_quadrature_of_its_inverse() -> None:
    def thick(time: float) -> float:
        return 0.35 / (1.0 - time / 1e5) ** 2.5

    expected, _ = quad(lambda time: 1.0 / thick(time), 0.0, 9e4, epsabs=0.0, epsrel=1e-12)
    errors = []
    for count in (51, 101, 201):
        times = np.linspace(0.0, 9e4, count)
        found = fluidity_of_samples(times, np.array([thick(time) for time in times]))
        errors.append(abs(found / expected - 1.0))
    assert errors[-1] < 1e-4
    # of second order: half the step, a quarter of the error
    assert np.log2(errors[0] / errors[1]) == pytest.approx(2.0, abs=0.1)
    assert np.log2(errors[1] / errors[2]) == pytest.approx(2.0, abs=0.1)


def test_samples_of_an_even_liquid_and_of_one_that_doubles_are_exact() -> None:
    times = np.array([0.0, 100.0, 5000.0])
    assert fluidity_of_samples(times, np.full(3, 2.0)) == pytest.approx(2500.0, rel=1e-14)
    doubling = fluidity_of_samples(times, 2.0 * 2.0 ** (times / 900.0))
    assert doubling == pytest.approx(fluidity_while_doubling(2.0, 900.0, 5000.0), rel=1e-12)


def test_samples_that_make_no_sense_are_refused() -> None:
    with pytest.raises(RangeError, match="rise"):
        fluidity_of_samples(np.array([0.0, 0.0]), np.ones(2))
    with pytest.raises(RangeError, match="viscosity"):
        fluidity_of_samples(np.array([0.0, 1.0]), np.array([1.0, 0.0]))


def test_a_wall_that_seeps_all_over_loses_by_its_thrust() -> None:
    # D01: 655.329 N on a wall of 0.45 m by 0.6 m; slits of one height all the way up leak by their pressure
    edges = np.linspace(0.0, 0.45, 91)
    middles, slit = (edges[:-1] + edges[1:]) / 2, 0.45 / 90
    found = sum(float(gap_leak(GAP, PATH, 1100.0 * 9.80665 * z, 1.0)) * slit for z in middles)
    assert found * 0.6 / (GAP**3 / (12.0 * PATH)) == pytest.approx(655.329, rel=1e-4)


@settings(max_examples=40, derandomize=True)
@given(st.floats(1e-6, 2e-3), st.floats(1e-3, 0.5), st.floats(1.0, 2e4), st.floats(1.0, 1e6))
def test_leak_grows_with_the_cube_and_the_widest_gap_gives_the_allowance_back(
    gap: float, path: float, pressure: float, fluidity: float
) -> None:
    leak = gap_leak(gap, path, pressure, fluidity)
    assert gap_leak(2.0 * gap, path, pressure, fluidity) == pytest.approx(8.0 * leak, rel=1e-12)
    assert widest_gap(leak, path, pressure, fluidity) == pytest.approx(gap, rel=1e-12)
    assert gap_leak(gap, path, 1.5 * pressure, fluidity) > leak


def test_water_stays_out_of_fine_gaps_in_silicone_until_soap_is_in_it() -> None:
    # a half cylinder of water between the sides: the pull of two edges over the area between them
    pull = 2.0 * 0.0728 * np.cos(np.radians(107.0))
    held = gap_held_shut(0.0728, 107.0, 979.0)
    assert pull + 979.0 * held == pytest.approx(0.0, abs=1e-12)
    assert gap_held_shut(0.030, 60.0, 979.0) == 0.0
    assert gap_held_shut(0.0728, 107.0, 4300.0) < held


def test_a_slurry_rests_where_its_weight_shears_less_than_it_takes() -> None:
    gap = gap_that_stops(15.0, 0.02, 4854.0)
    # forces on what fills the gap, per metre: pressure on its end against shear on both sides
    assert 4854.0 * gap == pytest.approx(2.0 * 15.0 * 0.02, rel=1e-12)


@pytest.mark.parametrize(
    ("celsius", "expected"), [(5, 1.519), (20, 1.002), (25, 0.890), (30, 0.797), (50, 0.547)]
)
def test_water_is_as_thick_as_the_tables_say(celsius: float, expected: float) -> None:
    assert 1e3 * water_viscosity(celsius + 273.15) == pytest.approx(expected, rel=1e-2)
