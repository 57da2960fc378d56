"""What cools and shrinks unevenly: published solutions, each against an independent reckoning.

No citation was before us; each equation is checked against the theory it comes from, worked out here
another way, and against the values that the papers are known for (from memory).
"""

import numpy as np
import pytest
from scipy.integrate import solve_bvp

from pourwright.physics.bimaterial import strain_at_border, strip_curvature
from pourwright.physics.cooling import cooling
from pourwright.physics.filled_stiffness import least_stiffness
from pourwright.physics.misfit import rigid_grain_concentration, selsing_pressure, strain_around_grain
from pourwright.physics.shrinkage import shrinkage_between
from pourwright.physics.thermal_stress import (
    cooling_difference,
    core_strain,
    notch_concentration,
    skin_strain,
    steepest_cooling,
)


def test_alike_layers_bend_by_three_halves():
    # Timoshenko 1925: layers of one thickness and one stiffness bend by 3/2 of the misfit over the height
    assert strip_curvature(0.001, 0.004, 0.004, 3e9, 3e9) == pytest.approx(1.5 * 0.001 / 0.008, rel=1e-12)
    # and half of the misfit is left at the border
    assert strain_at_border(0.001, 0.004, 0.004, 3e9, 3e9) == pytest.approx(0.0005, rel=1e-12)


@pytest.mark.parametrize(("stiffness", "by_hand"), [(0.5, 24 / 16.5), (2.0, 24 / 16.5), (3.0, 24 * 3 / 52)])
def test_curvature_hardly_depends_on_stiffness(stiffness, by_hand):
    # Timoshenko 1925 for equal layers, by hand: 24/(14 + n + 1/n) of the misfit over the height
    found = strip_curvature(0.001, 0.004, 0.004, 3e9 * stiffness, 3e9)
    assert found == pytest.approx(by_hand * 0.001 / 0.008, rel=1e-12)


def test_strip_against_the_least_energy_of_its_layers():
    # the strip takes the stretch and curvature of least energy: solved here as two linear equations
    a1, a2, e1, e2, misfit = 0.006, 0.02, 2.8e9, 8.9e9, 0.003
    # first layer from 0 to a1 wants -misfit, second below it wants 0; strain is s + k z
    terms = [(e1, 0.0, a1, -misfit), (e2, -a2, 0.0, 0.0)]
    matrix, right = np.zeros((2, 2)), np.zeros(2)
    for modulus, low, high, wish in terms:
        area, moment, second = (modulus * (high**n - low**n) / n for n in (1, 2, 3))
        matrix += np.array([[area, moment], [moment, second]])
        right += wish * np.array([area, moment])
    stretch, curvature = np.linalg.solve(matrix, right)
    assert strip_curvature(misfit, a1, a2, e1, e2) == pytest.approx(abs(curvature), rel=1e-9)
    assert strain_at_border(misfit, a1, a2, e1, e2) == pytest.approx(stretch + misfit, rel=1e-9)


def test_grain_against_the_equations_of_a_sphere():
    # Selsing 1961; here the displacement in a large ball of matrix around the grain is solved numerically
    e, nu, grain, grain_nu, misfit, reach = 2.8e9, 0.37, 70e9, 0.2, 0.004, 60.0
    bulk_grain = grain / (3 * (1 - 2 * grain_nu))
    c = e / ((1 + nu) * (1 - 2 * nu))

    def radial(r, u, du):
        return c * ((1 - nu) * (du + misfit) + 2 * nu * (u / r + misfit))

    def ends(start, end):
        pressed = radial(1.0, start[0], start[1]) - 3 * bulk_grain * start[0]
        return np.array([pressed, radial(reach, end[0], end[1])])

    found = solve_bvp(
        lambda r, y: np.vstack([y[1], 2 * y[0] / r**2 - 2 * y[1] / r]),
        ends,
        np.geomspace(1.0, reach, 400),
        np.zeros((2, 400)),
        tol=1e-8,
        max_nodes=100000,
    )
    assert found.success
    # a ball of matrix 60 grains wide is not endless: one part in 60^3
    pressure = -radial(1.0, found.y[0, 0], found.y[1, 0])
    assert selsing_pressure(misfit, e, nu, grain, grain_nu) == pytest.approx(pressure, rel=1e-4)
    around = found.y[0, 0] + misfit
    assert strain_around_grain(misfit, e, nu, grain, grain_nu) == pytest.approx(around, rel=1e-4)


def test_pull_at_a_rigid_grain():
    # Goodier 1933; rubber-like matrix: twice (Gent, from memory); here by its even and its shearing part
    assert rigid_grain_concentration(0.4999) == pytest.approx(2.0, abs=1e-3)
    for nu in (0.2, 0.3, 0.37, 0.45):
        even = 3 * (1 - nu) / (1 + nu) / 3
        shearing = 15 * (1 - nu) / (2 * (4 - 5 * nu)) * 2 / 3
        assert rigid_grain_concentration(nu) == pytest.approx(even + shearing, rel=1e-12)


def test_steady_cooling_is_the_late_part_of_the_series():
    # faces that fall steadily, as the sum of small steps of the exact series with a very good film
    rate, half, diffusivity, end = 2.0 / 3600, 0.03, 1.1e-7, 6 * 3600.0
    steps = np.arange(0.0, end, 60.0) + 30.0
    left = cooling(diffusivity * (end - steps) / half**2, 0.0, 1e6, "wall")
    assert cooling_difference(rate, half, diffusivity) == pytest.approx(rate * 60.0 * left.sum(), rel=5e-3)


def test_steepest_cooling_is_its_inverse():
    assert steepest_cooling(float(cooling_difference(3e-4, 0.05, 2e-7)), 0.05, 2e-7) == pytest.approx(
        3e-4, rel=1e-12
    )


def test_two_thirds_and_one_third_of_a_parabola():
    # textbook: strain held back is that of the mean less its own; Simpson is exact for a parabola
    place = np.linspace(-1.0, 1.0, 2001)
    warmth = 12.0 * (1.0 - place**2)
    mean = np.trapezoid(warmth, place) / 2.0
    assert skin_strain(12.0, 65e-6) == pytest.approx(65e-6 * (mean - warmth[0]), rel=1e-5)
    assert core_strain(12.0, 65e-6) == pytest.approx(65e-6 * (warmth[1000] - mean), rel=1e-5)


def test_notch():
    # Inglis 1913: a round hole concentrates three times, so does half of one in an edge
    assert notch_concentration(0.01, 0.01) == 3.0
    assert notch_concentration(0.0, 0.01) == 1.0


def test_filled_resin_is_stiffer_than_resin_and_than_the_series():
    # Hashin and Shtrikman 1963 lies above Reuss and below Voigt
    for share in (0.1, 0.3, 0.55):
        found = least_stiffness(share, 2.8e9, 0.37, 70e9, 0.2)
        assert 1 / ((1 - share) / 2.8e9 + share / 70e9) < found < (1 - share) * 2.8e9 + share * 70e9
    assert least_stiffness(0.0, 2.8e9, 0.37, 70e9, 0.2) == pytest.approx(2.8e9, rel=1e-12)


def test_shrinkage_before_and_after_gel_is_all_of_it():
    before, after = shrinkage_between(0.025, 0.0, 0.577), shrinkage_between(0.025, 0.577, 1.0)
    assert before + after == pytest.approx(0.025, rel=1e-12)
    # by hand: 2.5 % of 0.577 is 1.4425 %
    assert before == pytest.approx(0.014425, rel=1e-9)
