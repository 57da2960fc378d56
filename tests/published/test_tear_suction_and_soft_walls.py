"""Rubber on the way out against closed forms and handbooks.

Roark's Formulas for Stress and Strain, 7th ed.: beams (Table 8.1), round plates (11.2), thick tubes (13.5),
from memory. Treloar, The Physics of Rubber Elasticity, 1975; Rivlin & Thomas, J. Polym. Sci. 10 (1953) 291;
Irwin's relation for an edge crack; all from memory. The rest is recomputed here by quadrature.
"""

from math import pi, sqrt

import pytest
from scipy.integrate import quad, solve_ivp

from pourwright.physics.sleeve import folding_moment, folding_strain, widening_energy
from pourwright.physics.soft_wall import (
    floor_pressure,
    ring_bulge,
    spanning_bulge,
    squeezed,
    standing_bulge,
)
from pourwright.physics.suction import creep_in_time, suction_force
from pourwright.physics.tear import (
    notch_energy,
    notch_stretch,
    root_stress,
    stretching_energy,
    trousers_energy,
)

E, POISSON = 1.0e6, 0.5
WIDE = 1 - POISSON**2
"""A strip that cannot narrow is stiffer by this."""


def stiffness(thickness: float) -> float:
    return E * thickness**3 / (12 * WIDE)


def test_stored_energy_is_the_work_of_the_stress_at_rest() -> None:
    # Treloar: f = G (l - 1/l^2) by the section at rest, G = E/3
    work, _ = quad(lambda one: E / 3 * (one - one**-2), 1.0, 2.5)
    assert stretching_energy(E, 2.5) == pytest.approx(work, rel=1e-10)


def test_a_nick_in_rubber_hardly_stretched_is_an_edge_crack() -> None:
    # Irwin, thin sheet: G = pi sigma^2 c / E, without the 12 % that a free edge adds
    strain, crack = 1e-3, 0.001
    assert notch_energy(E, 1 + strain, crack) == pytest.approx(pi * E * strain**2 * crack, rel=2e-3)


def test_a_nick_in_long_rubber() -> None:
    # Rivlin & Thomas: T = 2 k W c, k = pi / sqrt(l)
    energy = 2 * pi / sqrt(2.0) * (E / 6 * (4 + 1 - 3)) * 0.001
    assert notch_energy(E, 2.0, 0.001) == pytest.approx(energy, rel=1e-12)
    assert notch_stretch(E, energy, 0.001) == pytest.approx(2.0, rel=1e-9)


def test_trousers() -> None:
    # Rivlin & Thomas: T = 2 F / t for legs that do not stretch; 10 N on 2 mm
    assert trousers_energy(10.0 / 0.002) == pytest.approx(1e4)


@pytest.mark.parametrize(("pin", "held", "section"), [(0, 2.0, 1.0), (1, pi * 0.004, pi / 4 * 0.004)])
def test_root_of_a_tongue_carries_all_that_holds_it(pin: int, held: float, section: float) -> None:
    # by a metre of a slot, and by one pin of 4 mm, over 20 mm
    want = 15e3 * 0.02 * held / (section * 0.004)
    assert root_stress(0.02, 0.004, 15e3, float(pin)) == pytest.approx(want)


def test_a_vacuum_holds_one_atmosphere() -> None:
    # 1 atm = 101 325 Pa = 14.696 lbf/in2
    assert suction_force(1.0) == 101325.0
    assert suction_force(0.0254**2) / 4.4482216 == pytest.approx(14.696, abs=5e-4)


def test_time_of_creeping_in_against_the_balance_of_gas() -> None:
    width, gap, length, volume, viscosity, outside = 0.8, 3e-5, 0.3, 2e-4, 1.82e-5, 101325.0
    # plane Poiseuille flow of a gas that thins out: mass flow as (p0^2 - p^2) / (24 mu L)
    rate = width * gap**3 / (24 * viscosity * length * volume)

    def reached(_: float, p: list[float]) -> float:
        return p[0] - 0.9 * outside

    reached.terminal = True  # type: ignore[attr-defined]
    run = solve_ivp(lambda _, p: rate * (outside**2 - p**2), (0.0, 1e4), [0.0], events=reached, rtol=1e-10)
    assert creep_in_time(width, gap, length, volume, viscosity) == pytest.approx(run.t[-1], rel=1e-6)


def test_walls_are_the_beams_of_the_handbook() -> None:
    # D26: clamped at both ends 0.00260417 q L^4 / EI; Roark 8.1 case 2d, falling to nothing: q L^4 / 30 EI
    load, length, thickness = 500.0, 0.2, 0.02
    assert spanning_bulge(load, length, thickness, E) == pytest.approx(
        0.00260417 * load * length**4 / stiffness(thickness), rel=1e-5
    )
    # the moment of that load at a place is q0 (L - x)^3 / (6 L), worked through with a unit load at the tip
    work, _ = quad(lambda x: load * (length - x) ** 3 / (6 * length) * (length - x), 0.0, length)
    assert standing_bulge(load, length, thickness, E) == pytest.approx(work / stiffness(thickness), rel=1e-9)


def test_a_floor_is_the_round_plate_of_the_handbook() -> None:
    # Roark 11.2 case 10b: clamped all round, w = q a^4 / 64 D
    lift = 800.0 * 0.1**4 / (64 * stiffness(0.02))
    assert floor_pressure(lift, 0.1, 0.02, E) == pytest.approx(800.0, rel=1e-9)


@pytest.mark.parametrize("thickness", [0.001, 0.02, 0.1])
def test_a_ring_is_the_thick_tube_of_the_handbook(thickness: float) -> None:
    # Roark 13.5 case 1a, ends free: u = (q a / E) ((a^2 + b^2) / (b^2 - a^2) + nu)
    inner, outer = 0.18, 0.18 + thickness
    want = 4000.0 * inner / E * ((inner**2 + outer**2) / (outer**2 - inner**2) + POISSON)
    assert ring_bulge(4000.0, inner, thickness, E) == pytest.approx(want, rel=1e-9)


def test_a_thin_ring_is_barlow() -> None:
    assert ring_bulge(10.0, 0.18, 1e-5, E) == pytest.approx(10.0 * 0.18**2 / (E * 1e-5), rel=1e-3)


def test_squeezed_rubber_gives_by_its_bulk() -> None:
    # 1 % of its bulk modulus takes 1 % of its thickness away
    assert squeezed(1.5e7, 0.02, 1.5e9) == pytest.approx(0.0002)


def test_widening_a_sleeve_layer_by_layer() -> None:
    inner, thickness, widened = 0.02, 0.03, 0.05
    grown = widened**2 - inner**2

    def layer(radius: float) -> float:
        stretch = (radius**2 + grown) / radius**2
        # Treloar, pure shear: W = (G/2) (l^2 + 1/l^2 - 2)
        return E / 6 * (stretch + 1 / stretch - 2) * 2 * pi * radius

    whole, _ = quad(layer, inner, inner + thickness)
    assert widening_energy(inner, thickness, widened, E) == pytest.approx(whole, rel=1e-9)


def test_a_sleeve_hardly_widened_is_the_tube_of_the_handbook() -> None:
    # half of pressure times volume swept; length held (plane strain), Roark 13.5 case 1b, nu = 1/2:
    # u = (q a / E) (3/2) b^2 / (b^2 - a^2)
    inner, outer, moved = 0.02, 0.05, 2e-6
    pressure = moved * E / inner / (1.5 * outer**2 / (outer**2 - inner**2))
    work = 0.5 * pressure * 2 * pi * inner * moved
    assert widening_energy(inner, outer - inner, inner + moved, E) == pytest.approx(work, rel=1e-3)


@pytest.mark.parametrize("spread", [1.0, 2.0, 5.0])
def test_a_fold_is_a_plate_bent_to_a_circle(spread: float) -> None:
    angle, thickness = 0.9, 0.025
    radius = spread * thickness / angle
    assert folding_moment(angle, thickness, E, spread) == pytest.approx(stiffness(thickness) / radius)
    assert folding_strain(angle, spread) == pytest.approx(thickness / 2 / radius)
