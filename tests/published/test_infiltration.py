"""Resin in a bed of grains: permeability, front, bubbles, capillaries.

C16: Ergun, Chem. Eng. Prog. 48 (1952) 89; evaluated by a public library of fluid mechanics; 0.1 %. C17:
Carman 1937, closed form; 0.1 %. C18: Green & Ampt 1911, closed form; 1e-4. C19: Stokes 1851, Hadamard and
Rybczynski 1911, closed forms; 0.1 %. C20: Stokes' law, closed form, and a drag law by a public library;
0.5 %. C23: Jurin 1718, closed form; 0.1 %. C24: Young-Laplace; 1e-6. Washburn, Phys. Rev. 17 (1921) 273:
closed form without weight. None of these papers was before us.
"""

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from pourwright.physics.bubbles import (
    hadamard_rybczynski_velocity,
    smallest_that_rises,
    stokes_velocity,
)
from pourwright.physics.capillarity import capillary_rise, laplace_pressure, pore_radius
from pourwright.physics.infiltration import Layer, flow_needed, flow_through, reached_after
from pourwright.physics.permeability import (
    PERMEABILITIES,
    ergun_permeability,
    ergun_pressure_drop,
    kozeny_carman,
    mean_grain,
)

GRAVITY = 9.80665


def test_pressure_that_drives_resin_through_a_bed():
    # C16
    found = ergun_pressure_drop(0.001, 0.05, 0.003, 0.45, 1100.0, 0.6)
    assert found == pytest.approx(1660.0, rel=1e-3)
    creeping = 0.6 * 0.001 * 0.05 / ergun_permeability(0.003, 0.45)
    assert creeping == pytest.approx(1659.808, rel=1e-6)


def test_permeability_of_spheres():
    # C17
    assert kozeny_carman(0.003, 0.45) == pytest.approx(1.5062e-08, rel=1e-4)
    # by definition of the two constants, 180 and 150
    assert PERMEABILITIES["ergun"](0.003, 0.45) / PERMEABILITIES["kozeny-carman"](0.003, 0.45) == (
        pytest.approx(1.2)
    )


def test_front_through_a_dry_bed_under_a_pond():
    # C18
    found = 0.6 * flow_needed(0.05, 1.5062e-08, 1100.0, 0.45, head=0.02)
    assert found == pytest.approx(41.4522, rel=1e-4)


def test_bubble_with_a_rigid_and_with_a_mobile_skin():
    # C19
    rigid, mobile = (law(0.001, 1098.8, 0.6) for law in (stokes_velocity, hadamard_rybczynski_velocity))
    assert rigid == pytest.approx(0.000997736, rel=1e-5)
    assert mobile == pytest.approx(0.0014966, rel=1e-4)
    assert 1100.0 * 0.001 * rigid / 0.6 == pytest.approx(0.00183, rel=1e-3)


def test_settling_of_a_grain():
    # C20
    assert stokes_velocity(0.001, 2500.0 - 1100.0, 0.6) == pytest.approx(0.00127123, rel=0.005)


def test_a_drop_as_thick_inside_as_outside():
    # closed form: 3 (1 + 1) / (2 + 3) of a rigid ball's
    ratio = hadamard_rybczynski_velocity(0.001, 100.0, 0.6, viscosity_inside=0.6) / stokes_velocity(
        0.001, 100.0, 0.6
    )
    assert ratio == pytest.approx(1.2)


def test_rise_in_a_fine_tube():
    # C23
    assert capillary_rise(0.0728, 0.0005, 998.0) == pytest.approx(0.0297536, rel=1e-3)


def test_pressure_in_a_bubble():
    # C24
    assert laplace_pressure(0.035, 0.0005) == pytest.approx(140.0, rel=1e-6)


def test_without_weight_the_front_goes_with_the_root_of_time():
    # Washburn, tubes of one radius, suction only: t = 2 mu L^2 / (r gamma cos(angle)); k = r^2 / 8, e = 1
    radius, tension, angle, viscosity, depth = 2e-6, 0.04, 60.0, 0.6, 0.005
    rise = capillary_rise(tension, radius, 1100.0, angle=angle)
    found = viscosity * flow_needed(depth, radius**2 / 8.0, 1100.0, 1.0, head=rise)
    assert found == pytest.approx(2.0 * viscosity * depth**2 / (radius * tension * 0.5), rel=0.003)


def test_a_tall_column_ends_at_the_speed_of_its_own_weight():
    # closed form for L much larger than H: velocity of the front k rho g / (e mu)
    near, far = (flow_needed(depth, 1.5e-8, 1100.0, 0.45, head=0.001) for depth in (10.0, 11.0))
    assert 1.0 / (far - near) == pytest.approx(1.5e-8 * 1100.0 * GRAVITY / 0.45, rel=1e-4)


@pytest.mark.parametrize("head", [0.0, 0.002, 0.02, 0.2])
def test_one_layer_is_the_closed_form(head: float):
    depths, flow = flow_through((Layer(0.08, 1.5e-8, 0.45, 0.0),), 1100.0, head=head)
    exact = [flow_needed(float(depth), 1.5e-8, 1100.0, 0.45, head=head) for depth in depths]
    assert flow == pytest.approx(exact, rel=2e-3, abs=1e-3 * exact[-1])


def test_layers_of_the_same_grain_are_one_bed():
    whole = flow_through((Layer(0.08, 1.5e-8, 0.45, 0.003),), 1100.0)
    cut = flow_through((Layer(0.03, 1.5e-8, 0.45, 0.003), Layer(0.05, 1.5e-8, 0.45, 0.003)), 1100.0)
    assert cut[1][-1] == pytest.approx(whole[1][-1], rel=1e-4)
    assert cut[0][-1] == pytest.approx(0.08)


def test_layers_and_a_viscosity_that_rises_agree_with_the_equation_of_motion():
    coarse, fine = Layer(0.03, 6e-8, 0.48, 0.002), Layer(0.05, 4e-9, 0.42, 0.008)

    def viscosity(time: float) -> float:
        return 0.6 * np.exp(time / 1500.0)

    def speed(time: float, at: np.ndarray) -> list[float]:
        depth = max(at[0], 1e-9)
        layer = coarse if depth <= coarse.depth else fine
        resistance = min(depth, 0.03) / coarse.permeability + max(depth - 0.03, 0.0) / fine.permeability
        push = 1100.0 * GRAVITY * (depth + 0.01 + layer.suction)
        return [push / (viscosity(time) * resistance * layer.void_fraction)]

    seen = solve_ivp(speed, (0.0, 5000.0), [1e-9], events=_at(0.08), rtol=1e-8, atol=1e-12, max_step=2.0)
    times = np.linspace(0.0, 5000.0, 4001)
    fluidity = 1500.0 / 0.6 * (1.0 - np.exp(-times / 1500.0))
    flow = flow_through((coarse, fine), 1100.0, head=0.01)[1][-1]
    assert reached_after(float(flow), times, fluidity) == pytest.approx(seen.t_events[0][0], rel=2e-3)


def _at(depth: float):
    def event(time: float, at: np.ndarray) -> float:
        return float(at[0] - depth)

    event.terminal = True
    return event


def test_what_is_too_thick_too_soon_never_arrives():
    times = np.array([0.0, 100.0, 200.0])
    assert reached_after(30.0, times, np.array([0.0, 10.0, 12.0])) == np.inf


def test_the_smallest_bubble_rises_just_so_far():
    # 1.5 h at a viscosity that doubles every half hour from 0.6: integral of exp(-ln2 t / 1800) / 0.6
    fluidity = 1800.0 / np.log(2.0) * (1.0 - 0.125) / 0.6
    found = smallest_that_rises(0.05, 1098.8, fluidity)
    times = np.linspace(0.0, 5400.0, 5401)
    speeds = stokes_velocity(found, 1098.8, 0.6 * 2.0 ** (times / 1800.0))
    assert np.trapezoid(speeds, times) == pytest.approx(0.05, rel=1e-6)
    # closed form: 1.5 times the velocity, so the root of 1.5 less in diameter
    assert found / smallest_that_rises(0.05, 1098.8, fluidity, skin="mobile") == pytest.approx(1.5**0.5)


def test_size_of_grains_between_two_sieves():
    # surface mean by adding up 2000 equal shares of the logarithm
    sizes = np.exp(np.linspace(np.log(0.00315), np.log(0.0063), 4001)[1::2])
    assert mean_grain(0.00315, 0.0063) == pytest.approx(1.0 / np.mean(1.0 / sizes), rel=1e-6)
    assert mean_grain(0.003, 0.003) == 0.003


def test_pores_of_a_bed_have_its_voids_and_its_surface():
    # a tube of radius r has a volume of r / 2 for each surface
    diameter, voids = 0.003, 0.45
    surface = 6.0 / diameter * (1.0 - voids)
    assert pore_radius(diameter, voids) == pytest.approx(2.0 * voids / surface)
