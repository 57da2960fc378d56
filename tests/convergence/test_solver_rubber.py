"""A ball and a tilted bar of resin inside rubber against the same on a line of shells.

That the two parts of a cell count in series was chosen on slanting slabs, not on these.
"""

import numpy as np
import pytest

from pourwright.geometry import Grid, Mesh, cell_fractions
from pourwright.solver import Control, Exchange, Problem, Surfaces, in_series, run, start
from tests.convergence.radial import Matter, Round
from tests.solver.bodies import ball, bar
from tests.solver.cases import kamal

# so fast that the warmth stays near the resin until it has peaked: the rubber may end anywhere beyond 10 cm
LAW = (2.4e5, 60e3, 8.8e5, 55e3, 0.6, 1.8)
RUBBER = Matter(1.5e6, 0.25)
NEAT, FILLED = Matter(1.98e6, 0.2, 1.9e8), Matter(2.05e6, 0.45, 2.1e8)
FILM, SHOP, HOURS = 8.0, 296.15, 5 * 3600.0
BEYOND = 0.1


def peak(mesh: Mesh, resin: Matter, half: tuple[float, float, float], spacing: float) -> float:
    """Highest temperature [K], by the parabola through the hottest cell and its neighbours."""
    offset = np.random.default_rng(5).uniform(-0.5, 0.5, 3) * spacing
    counts = [round(2.0 * size / spacing) for size in half]
    grid = Grid(
        *[(np.arange(n + 1) - 0.5 * n) * spacing + more for n, more in zip(counts, offset, strict=True)]
    )
    share = cell_fractions(mesh, grid)
    problem = Problem(
        *grid.axes,
        share * resin.capacity + (1.0 - share) * RUBBER.capacity,
        in_series(share, resin.conductivity, RUBBER.conductivity),
        share * resin.heat,
        surfaces=Surfaces.all(Exchange(FILM, SHOP)),
        rate=kamal,
        parameters=np.array(LAW),
    )
    state = run(problem, start(problem, SHOP), HOURS, control=Control(tolerance=0.02, max_step=300.0)).state
    return summit(state.records.peak_temperature)


def summit(values: np.ndarray) -> float:
    here = np.unravel_index(values.argmax(), values.shape)
    top = float(values[here])
    for axis in range(3):
        line = np.moveaxis(values, axis, 0)[:, *[n for a, n in enumerate(here) if a != axis]]
        before, after = line[here[axis] - 1], line[here[axis] + 1]
        top -= (after - before) ** 2 / (8.0 * (before - 2.0 * values[here] + after))
    return top


BALL, BAR = ball(0.045), bar(0.03, 0.5, (30.0, 0.0))
CASES = [
    ("ball, neat", 2, 0.045, BALL, NEAT, (0.12, 0.12, 0.12)),
    ("ball, filled", 2, 0.045, BALL, FILLED, (0.12, 0.12, 0.12)),
    ("bar, neat", 1, 0.03, BAR, NEAT, (0.1, 0.14, 0.16)),
    ("bar, filled", 1, 0.03, BAR, FILLED, (0.1, 0.14, 0.16)),
]


@pytest.mark.parametrize(("name", "power", "radius", "mesh", "resin", "half"), CASES)
def test_inside_rubber(
    name: str, power: int, radius: float, mesh: Mesh, resin: Matter, half: tuple[float, float, float]
) -> None:
    true = Round(power, ((radius, resin), (radius + BEYOND, RUBBER)), FILM, SHOP, LAW).peak(30, HOURS)
    assert true > SHOP + 15.0, name
    assert peak(mesh, resin, half, 4e-3) == pytest.approx(true, abs=0.1), name
