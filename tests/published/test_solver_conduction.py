"""The solver against exact solutions of conduction without reaction."""

import math
from typing import Any

import numpy as np
import pytest
from scipy.special import erfc

from pourwright.solver import INSULATED, Control, Exchange, Problem, Surfaces, run, start
from tests.solver.cases import at_end, at_middle, extrapolated, fixed, slab

# Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, Table 5.1 (from memory; four decimals):
# name, Biot number, power of the radius in area (slab 0, cylinder 1, sphere 2), zeta_1, C_1
ONE_TERM = [
    ("A01", 0.1, 0, 0.3110528, 1.016094),
    ("A02", 0.1, 1, 0.4416818, 1.024579),
    ("A03", 0.1, 2, 0.5422809, 1.029798),
    ("A04", 1.0, 0, 0.8603336, 1.119132),
    ("A05", 1.0, 1, 1.255784, 1.207092),
    ("A06", 1.0, 2, 1.570796, 1.27324),
    ("A07", 10.0, 0, 1.42887, 1.261963),
    ("A08", 10.0, 1, 2.179497, 1.567692),
    ("A09", 10.0, 2, 2.8363, 1.924909),
]


def radial(cells: int, biot: float, power: int) -> Problem:
    """Radius 1, conductivity 1, capacity 1: area grows as radius**power, so properties do."""
    edges = np.linspace(0.0, 1.0, cells + 1)
    volume = np.diff(edges ** (power + 1)) / (power + 1) * cells
    middle = 0.5 * (edges[1:] + edges[:-1])
    return slab(edges, volume, middle**power, INSULATED, Exchange(biot, 0.0))


def decay(cells: int, biot: float, power: int, zeta: float) -> tuple[float, float]:
    """Decay rate and amplitude at the centre once the first term alone is left."""
    problem = radial(cells, biot, power)
    early, late = 4.0 / zeta**2, 5.0 / zeta**2
    control = Control(tolerance=2e-6, max_step=0.01 / zeta**2)
    first = run(problem, start(problem, 1.0), early, control=control).state
    second = run(problem, first, late, control=control).state
    hot, cool = at_middle(first.temperature[:, 0, 0]), at_middle(second.temperature[:, 0, 0])
    rate = math.log(hot / cool) / (late - early)
    return math.sqrt(rate), hot * math.exp(rate * early)


@pytest.mark.parametrize(("name", "biot", "power", "zeta", "amplitude"), ONE_TERM)
def test_one_term_decay(name: str, biot: float, power: int, zeta: float, amplitude: float) -> None:
    coarse, fine = (decay(cells, biot, power, zeta) for cells in (160, 320))
    assert extrapolated(coarse[0], fine[0]) == pytest.approx(zeta, abs=1e-4), name
    assert extrapolated(coarse[1], fine[1]) == pytest.approx(amplitude, abs=1e-4), name


def cooled(cells: int, fourier: float) -> np.ndarray:
    """Half slab, Biot number 1, from 1 towards 0."""
    problem = radial(cells, 1.0, 0)
    state = run(problem, start(problem, 1.0), fourier, control=Control(tolerance=2e-6)).state
    return state.temperature[:, 0, 0]


# Carslaw and Jaeger, Conduction of Heat in Solids, 1959, sec. 3.11 (60 terms of the series)
SERIES = [
    ("A10", 0.5, at_middle, 0.772526, 1e-4),
    ("A11", 0.5, at_end, 0.504522, 1e-4),
    ("A12", 0.05, at_middle, 0.999751, 5e-4),
]


@pytest.mark.parametrize(("name", "fourier", "place", "expected", "tolerance"), SERIES)
def test_cooling_slab(name: str, fourier: float, place: Any, expected: float, tolerance: float) -> None:
    coarse, fine = (place(cooled(cells, fourier)) for cells in (40, 80))
    assert extrapolated(coarse, fine) == pytest.approx(expected, abs=tolerance), name


def cube(cells: int, fourier: float) -> float:
    """Centre of an eighth of a cube, Biot number 1 on all outer faces."""
    edges = np.linspace(0.0, 1.0, cells + 1)
    ones = np.ones((cells, cells, cells))
    air = Exchange(1.0, 0.0)
    problem = Problem(edges, edges, edges, ones, ones, surfaces=Surfaces(x_high=air, y_high=air, z_high=air))
    state = run(problem, start(problem, 1.0), fourier, control=Control(tolerance=1e-5)).state
    line = [at_middle(at_middle_of_rows(state.temperature[i])) for i in range(2)]
    return at_middle(np.array(line))


def at_middle_of_rows(plane: np.ndarray) -> np.ndarray:
    return (9.0 * plane[:, 0] - plane[:, 1]) / 8.0


def test_cooling_cube_is_the_product_of_slabs() -> None:
    # Carslaw and Jaeger 1959, sec. 5.6: the product of three slabs; A10 to the third power
    coarse, fine = cube(12, 0.5), cube(24, 0.5)
    assert extrapolated(coarse, fine) == pytest.approx(0.772526**3, abs=3e-4)


def deep(cells: int, surface: Exchange, place: float) -> float:
    """Quantity at a depth of a thick body an hour after its surface was exposed, 0 before."""
    edges = np.linspace(0.0, 0.16, cells + 1)
    problem = slab(edges, 0.2 / 1.1e-7, 0.2, surface, INSULATED)
    control = Control(tolerance=1e-5, max_step=60.0)
    values = run(problem, start(problem, 0.0), 3600.0, control=control).state.temperature[:, 0, 0]
    if place == 0.0:
        return at_end(values[::-1])
    middle = 0.5 * (edges[1:] + edges[:-1])
    return float(np.interp(place, middle, values))


def test_step_at_the_surface_of_a_deep_body() -> None:
    # A15: Carslaw and Jaeger 1959, sec. 2.4
    coarse, fine = (deep(cells, fixed(1.0), 0.02) for cells in (160, 320))
    assert extrapolated(coarse, fine) == pytest.approx(0.477289, abs=1e-4)
    assert erfc(0.02 / (2.0 * math.sqrt(1.1e-7 * 3600.0))) == pytest.approx(0.477289, abs=1e-6)


@pytest.mark.parametrize(("place", "expected"), [(0.0, 0.571043), (0.02, 0.227153)])
def test_convection_at_the_surface_of_a_deep_body(place: float, expected: float) -> None:
    # A16: Carslaw and Jaeger 1959, sec. 2.7
    coarse, fine = (deep(cells, Exchange(10.0, 1.0), place) for cells in (160, 320))
    assert extrapolated(coarse, fine) == pytest.approx(expected, abs=1e-4)


def test_steady_slab_with_a_source() -> None:
    # A18: Incropera and DeWitt, sec. 3.5.1, eq. 3.47 and 3.51 (citation from memory)
    edges = np.linspace(0.0, 0.04, 41)
    fed = np.full((40, 1, 1), 3000.0)
    problem = slab(edges, 2e6, 0.5, INSULATED, Exchange(7.0, 20.0), source=lambda _: fed)
    outcome = run(problem, start(problem, 20.0), 5e6, control=Control(max_step=1e5))
    values = outcome.state.temperature[:, 0, 0]
    assert at_middle(values) == pytest.approx(41.9429, rel=1e-4)
    assert at_end(values) == pytest.approx(37.1429, rel=1e-4)
    assert outcome.balance.error < 1e-10


def test_sine_decays_as_an_eigenmode() -> None:
    # A19: Carslaw and Jaeger 1959, sec. 3.3
    def middle(cells: int) -> float:
        edges = np.linspace(0.0, 0.05, cells + 1)
        problem = slab(edges, 0.2 / 1e-7, 0.2, fixed(0.0), INSULATED)
        sine = np.diff(-np.cos(math.pi * edges / 0.1)) / np.diff(math.pi * edges / 0.1)
        state = run(
            problem, start(problem, sine.reshape(-1, 1, 1)), 2e4, control=Control(tolerance=1e-5)
        ).state
        return at_middle(state.temperature[::-1, 0, 0])

    assert extrapolated(middle(20), middle(40)) == pytest.approx(0.138911, abs=2e-4)
