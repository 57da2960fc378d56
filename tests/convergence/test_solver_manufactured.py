"""Manufactured solutions in space: what is fed to the solver is worked out by hand from a chosen answer."""

import math

import numpy as np
import pytest

from pourwright.solver import Problem, Surfaces, rate_law, run, start
from tests.convergence.orders import slope
from tests.solver.cases import Array, every, fixed

DECAY, LEAN, BASE = 0.7, 0.9, 300.0
QUARTER = math.pi / 2


@rate_law
def first_order(temperature: float, conversion: float, p: Array) -> float:
    """p[0] exp(temperature - p[1]) (1 - conversion): one kelvin of rise multiplies it by e."""
    return p[0] * math.exp(temperature - p[1]) * (1.0 - conversion)


def stretched(cells: int) -> Array:
    """Edges from 0 to 1 with spacings that differ by a factor of about two."""
    even = np.linspace(0.0, 1.0, cells + 1)
    return even + 0.05 * np.sin(2.0 * math.pi * even)


class Body:
    """Unit cube, capacity and conductivity varying in space, and S = cos(pi x/2) cos(pi y) cos(pi z/2).

    S is nil at x = 1 and z = 1, where the faces are held; at the other faces its slope across is.
    """

    def __init__(self, cells: int) -> None:
        self.edges = stretched(cells)
        middle = 0.5 * (self.edges[1:] + self.edges[:-1])
        x, y, z = np.meshgrid(middle, middle, middle, indexing="ij")
        self.conductivity = (1.0 + x) * (1.0 + 0.5 * y) * (2.0 - z)
        self.capacity = 2.0 + x * y
        cx, cy, cz = np.cos(QUARTER * x), np.cos(math.pi * y), np.cos(QUARTER * z)
        sx, sy, sz = np.sin(QUARTER * x), np.sin(math.pi * y), np.sin(QUARTER * z)
        self.wave = cx * cy * cz
        slopes = (-QUARTER * sx * cy * cz, -math.pi * cx * sy * cz, -QUARTER * cx * cy * sz)
        # relative slopes of the conductivity along x, y and z
        leaning = (1.0 / (1.0 + x), 0.5 / (1.0 + 0.5 * y), -1.0 / (2.0 - z))
        self.steepness = sum(slope**2 for slope in slopes)
        self.bending = -(2.0 * QUARTER**2 + math.pi**2) * self.wave
        slanting = sum(a * b for a, b in zip(slopes, leaning, strict=True))
        self.spread = self.conductivity * (self.bending + slanting)

    def problem(self, held: float, **more: object) -> Problem:
        surfaces = Surfaces(x_high=fixed(held), z_high=fixed(held))
        fields = (self.capacity, self.conductivity)
        return Problem(self.edges, self.edges, self.edges, *fields, surfaces=surfaces, **more)  # type: ignore[arg-type]


class Still(Body):
    """T = e^(-DECAY t) S, no reaction."""

    def exact(self, time: float) -> Array:
        return np.asarray(math.exp(-DECAY * time) * self.wave)

    def source(self, time: float) -> Array:
        """capacity dT/dt - div(conductivity grad T)."""
        return np.asarray(math.exp(-DECAY * time) * (-DECAY * self.capacity * self.wave - self.spread))


class Curing(Body):
    """T = BASE + ln u with u = 1 + LEAN S e^(-DECAY t), conversion 1 - e^(-K (integral of u)).

    With the rate K e^(T - BASE) (1 - conversion) = K u (1 - conversion) the conversion is exact.
    """

    def __init__(self, cells: int, pace: float, rise: float) -> None:
        super().__init__(cells)
        self.pace, self.heat = pace, rise * np.full_like(self.capacity, 2.5)

    def whole(self) -> Problem:
        law = {"rate": first_order, "parameters": np.array([self.pace, BASE])}
        return self.problem(BASE, heat=self.heat, source=self.source, **law)

    def warmth(self, time: float) -> Array:
        return np.asarray(1.0 + LEAN * math.exp(-DECAY * time) * self.wave)

    def exact(self, time: float) -> Array:
        return np.asarray(BASE + np.log(self.warmth(time)))

    def cured(self, time: float) -> Array:
        through = time + LEAN * self.wave * (1.0 - math.exp(-DECAY * time)) / DECAY
        return np.asarray(1.0 - np.exp(-self.pace * through))

    def source(self, time: float) -> Array:
        """capacity dT/dt - div(conductivity grad T) - heat times rate."""
        part, warmth = LEAN * math.exp(-DECAY * time), self.warmth(time)
        warming = self.capacity * -DECAY * part * self.wave / warmth
        conducted = part * self.spread / warmth - self.conductivity * part**2 * self.steepness / warmth**2
        reaction = self.heat * self.pace * warmth * (1.0 - self.cured(time))
        return np.asarray(warming - conducted - reaction)


def norm(problem: Problem, field: Array) -> float:
    """Root of the mean square over the unit volume."""
    return float(np.sqrt((problem.cell_volumes * field**2).sum()))


def still_error(cells: int) -> float:
    case = Still(cells)
    problem = case.problem(0.0, source=case.source)
    state = run(problem, start(problem, case.exact(0.0)), 0.3, control=every(0.3 / 128)).state
    return norm(problem, state.temperature - case.exact(0.3))


def test_second_order_in_space() -> None:
    errors = [still_error(cells) for cells in (6, 12, 24)]
    assert slope(errors) == pytest.approx(2.0, abs=0.1)
    assert errors[-1] < 1e-3


# slow: a twentieth is cured at the end; fast: all but a fiftieth, and 2 K of heat set free, each K times e
PACES = [("slow", 0.3, 0.4, 0.2), ("fast", 20.0, 2.0, 0.2)]


def curing_errors(cells: int, pace: float, rise: float, end: float) -> tuple[float, float]:
    case = Curing(cells, pace, rise)
    problem = case.whole()
    control = every(end / (4 * cells))
    state = run(problem, start(problem, case.exact(0.0)), end, control=control).state
    heat = norm(problem, state.temperature - case.exact(end))
    return heat, norm(problem, state.conversion - case.cured(end))


@pytest.mark.parametrize(("name", "pace", "rise", "end"), PACES)
def test_second_order_with_a_reaction(name: str, pace: float, rise: float, end: float) -> None:
    # spacing and step halved together: both orders at once; the answer varies by about 1 over the length 1
    runs = [curing_errors(cells, pace, rise, end) for cells in (10, 20, 40)]
    for errors in zip(*runs, strict=True):
        assert slope(errors) == pytest.approx(2.0, abs=0.1), (name, errors)
        assert errors[-1] < (1.0 / 40.0) ** 2, (name, errors)
