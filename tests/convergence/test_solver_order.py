"""Order of the solver in space and in time, and its balance of energy."""

import math
from typing import Any

import numpy as np
import pytest

from pourwright.solver import Control, Exchange, Problem, Surfaces, run, start
from tests.solver.cases import every, fixed, kamal
from tests.solver.dense import with_reaction, without_reaction

DECAY = 0.7


def stretched(cells: int) -> np.ndarray:
    """Edges from 0 to 1 with spacings that differ by a factor of about two."""
    even = np.linspace(0.0, 1.0, cells + 1)
    return even + 0.05 * np.sin(2.0 * math.pi * even)


class Manufactured:
    """T = e^(-t) cos(pi x/2) cos(pi y) cos(pi z/2) with conductivity and capacity that vary in space."""

    def __init__(self, cells: int) -> None:
        edges = stretched(cells)
        middle = 0.5 * (edges[1:] + edges[:-1])
        self.x, self.y, self.z = np.meshgrid(middle, middle, middle, indexing="ij")
        self.conductivity = (1.0 + self.x) * (1.0 + 0.5 * self.y) * (2.0 - self.z)
        self.capacity = 2.0 + self.x * self.y
        surfaces = Surfaces(x_high=fixed(0.0), z_high=fixed(0.0))
        self.problem = Problem(
            edges, edges, edges, self.capacity, self.conductivity, surfaces=surfaces, source=self.source
        )

    def exact(self, time: float) -> np.ndarray:
        waves = np.cos(math.pi * self.x / 2) * np.cos(math.pi * self.y) * np.cos(math.pi * self.z / 2)
        return math.exp(-DECAY * time) * waves

    def source(self, time: float) -> np.ndarray:
        """capacity dT/dt - div(conductivity grad T), worked out by hand."""
        x, y, z, k, quarter = self.x, self.y, self.z, self.conductivity, math.pi / 2
        fall = math.exp(-DECAY * time)
        cx, cy, cz = np.cos(quarter * x), np.cos(math.pi * y), np.cos(quarter * z)
        sx, sy, sz = np.sin(quarter * x), np.sin(math.pi * y), np.sin(quarter * z)
        bending = -(2 * quarter**2 + math.pi**2) * k * cx * cy * cz
        slanting = -quarter * sx * cy * cz * k / (1.0 + x) - math.pi * cx * sy * cz * 0.5 * k / (
            1.0 + 0.5 * y
        )
        slanting -= quarter * cx * cy * sz * -k / (2.0 - z)
        return fall * (-DECAY * self.capacity * cx * cy * cz - bending - slanting)


def space_error(cells: int) -> float:
    case = Manufactured(cells)
    state = run(case.problem, start(case.problem, case.exact(0.0)), 0.3, control=every(0.3 / 128)).state
    volumes = case.problem.cell_volumes
    return float(np.sqrt((volumes * (state.temperature - case.exact(0.3)) ** 2).sum()))


def slope(errors: list[float]) -> float:
    """Order by the last two of errors on spacings that halve."""
    return math.log2(errors[-2] / errors[-1])


def test_second_order_in_space() -> None:
    errors = [space_error(cells) for cells in (6, 12, 24)]
    assert slope(errors) == pytest.approx(2.0, abs=0.1)
    assert errors[-1] < 1e-3


def small(heat: float, law: list[float], film: float = 30.0) -> Problem:
    """Five by four by three cells, three materials, reacting in part."""
    shape = (5, 4, 3)
    draw = np.random.default_rng(7)
    edges = [np.cumsum(np.append(0.0, draw.uniform(0.008, 0.015, n))) for n in shape]
    reacting = np.zeros(shape)
    reacting[1:4, 1:3] = heat
    surfaces = Surfaces(x_low=Exchange(film, 290.0), y_high=Exchange(film, 295.0), z_low=fixed(292.0))
    return Problem(
        *edges, draw.uniform(1.5e6, 2.5e6, shape), draw.uniform(0.1, 0.6, shape), reacting,
        surfaces=surfaces, rate=kamal, parameters=np.array(law),
    )  # fmt: skip


def time_errors(problem: Problem, until: float, counts: tuple[int, ...], cured: float) -> list[float]:
    first = np.linspace(295.0, 305.0, problem.heat.size).reshape(problem.shape)
    conversion = np.full(problem.shape, cured)
    if problem.reacting.any():
        exact = with_reaction(problem, first, conversion, until)[0]
    else:
        exact = without_reaction(problem, first, until)
    begun = start(problem, first, conversion)
    ends = [run(problem, begun, until, control=every(until / count)).state.temperature for count in counts]
    return [float(np.abs(end - exact).max()) for end in ends]


def test_second_order_in_time_without_reaction() -> None:
    errors = time_errors(small(0.0, [0.0] * 6), 3000.0, (40, 80, 160), 0.0)
    assert slope(errors) == pytest.approx(2.0, abs=0.15)
    assert errors[-1] < 1e-4


# slow: barely warmer in an hour; fast: takes off and is cured through within the hour
KINETICS = [
    ("slow", 3e8, [3e4, 60e3, 1.1e5, 55e3, 0.6, 1.8], 3600.0, (30, 60, 120), 2e-4),
    ("fast", 3e8, [3e6, 60e3, 1.1e7, 55e3, 0.6, 1.8], 1200.0, (160, 320, 640), 1e-3),
]


@pytest.mark.parametrize(("name", "heat", "law", "until", "counts", "bound"), KINETICS)
def test_second_order_in_time_with_reaction(
    name: str, heat: float, law: list[float], until: float, counts: tuple[int, ...], bound: float
) -> None:
    errors = time_errors(small(heat, law), until, counts, 0.01)
    assert slope(errors) > 1.9, (name, errors)
    assert errors[-1] < bound, (name, errors)


def test_tolerance_bounds_the_error() -> None:
    problem = small(3e8, [3e6, 60e3, 1.1e7, 55e3, 0.6, 1.8])
    first, cured = np.full(problem.shape, 300.0), np.full(problem.shape, 0.01)
    exact = with_reaction(problem, first, cured, 1200.0)[0]
    for tolerance in (0.2, 0.05, 0.01):
        end = run(problem, start(problem, first, cured), 1200.0, control=Control(tolerance=tolerance)).state
        assert np.abs(end.temperature - exact).max() < tolerance


@pytest.mark.parametrize("film", [0.0, 30.0])
@pytest.mark.parametrize("tolerance", [1.0, 0.02])
def test_energy_balance(film: float, tolerance: float) -> None:
    whole: dict[str, Any] = {"surfaces": Surfaces()} if film == 0.0 else {}
    given = small(3e8, [3e6, 60e3, 1.1e7, 55e3, 0.6, 1.8], film)
    fields = (given.volumetric_heat_capacity, given.conductivity, given.heat)
    law = {"rate": kamal, "parameters": given.parameters}
    problem = Problem(given.x, given.y, given.z, *fields, **law, **whole) if whole else given
    first = start(problem, np.linspace(295.0, 320.0, given.heat.size).reshape(given.shape), 0.01)
    outcome = run(problem, first, 4000.0, control=Control(tolerance=tolerance))
    change = outcome.state.temperature - first.temperature
    held = float((problem.volumetric_heat_capacity * problem.cell_volumes * change).sum())
    cured = outcome.state.conversion - first.conversion
    freed = float((problem.heat * problem.cell_volumes * cured).sum())
    assert freed > 0.0
    assert held == pytest.approx(freed + outcome.balance.entered, rel=1e-10)
    assert (outcome.balance.entered == 0.0) == (film == 0.0)
