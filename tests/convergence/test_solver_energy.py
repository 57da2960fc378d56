"""Not a joule is lost over a run with warm liquid poured on cold grains, cure and films."""

import numpy as np
import pytest

from pourwright.solver import Control, Exchange, Problem, State, Surfaces, run, start, switch_on
from tests.solver.cases import Array, kamal

SHOP, LIQUID, SEED = 289.15, 304.15, 1e-3
SHAPE = (7, 6, 12)
WALL, RESIN, GRAINS, HEAT = 1.6e6, 1.98e6, 2.1e6, 3.6e8
LAYERS = ((2, 5), (5, 8), (8, 11))
STARTS, END = (0.0, 5 * 3600.0, 11 * 3600.0), 30 * 3600.0
LAW = {"rate": kamal, "parameters": np.array([1.2e5, 60e3, 4.4e5, 55e3, 0.6, 1.8])}


def beds() -> tuple[Array, Array]:
    """Share of each cell that lies in the cavity, cells of its rim in part; share of grains in the bed."""
    draw = np.random.default_rng(3)
    cavity = np.zeros(SHAPE)
    cavity[1:-1, 1:-1, 2:11] = draw.uniform(0.2, 1.0, (5, 4, 9))
    cavity[2:-2, 2:-2, 2:11] = 1.0
    solid = np.zeros(SHAPE)
    solid[:, :, :8] = 0.55
    return cavity, solid


def pour(problem: Problem, state: State, layers: tuple[int, int]) -> tuple[Problem, State, float]:
    """Fill layers; gives also the heat above the shop that came in with the liquid [J]."""
    cavity, solid = beds()
    cells = np.zeros(SHAPE, dtype=bool)
    cells[:, :, slice(*layers)] = cavity[:, :, slice(*layers)] > 0.0
    held = np.where(problem.active, problem.volumetric_heat_capacity, 0.0)
    liquid = cavity * (1.0 - solid) * RESIN
    # a cell that the cavity fills by half or more holds nothing before; its grains and wall come in cold
    cold = np.where(problem.active, 0.0, cavity * solid * GRAINS + (1.0 - cavity) * WALL)
    entering = np.divide(liquid * LIQUID + cold * SHOP, liquid + cold, where=cells, out=np.full(SHAPE, SHOP))
    whole, after = switch_on(
        problem, state, cells, entering, SEED,
        volumetric_heat_capacity=held + liquid + cold, heat=cavity * (1.0 - solid) * HEAT,
    )  # fmt: skip
    return whole, after, float((liquid * (LIQUID - SHOP) * problem.cell_volumes)[cells].sum())


def warmth(problem: Problem, state: State) -> float:
    """Heat above the shop [J]."""
    held = problem.volumetric_heat_capacity * problem.cell_volumes * (state.temperature - SHOP)
    return float(held[problem.active].sum())


@pytest.mark.parametrize("tolerance", [1.0, 0.02])
def test_energy_over_three_pours(tolerance: float) -> None:
    cavity, solid = beds()
    edges = [np.linspace(0.0, 0.01 * n, n + 1) for n in SHAPE]
    # grains that lie in a cell of the rim are there from the start
    capacity = (1.0 - cavity) * WALL + np.where(cavity < 0.5, cavity * solid * GRAINS, 0.0)
    air, bench = Exchange(9.0, SHOP), Exchange(9.0, SHOP, resistance=0.2)
    surfaces = Surfaces(air, air, air, air, bench, air, air, air, air)
    problem = Problem(
        *edges, np.maximum(capacity, 1.0), np.full(SHAPE, 0.3), np.zeros(SHAPE), cavity < 0.5, surfaces, **LAW
    )
    state = start(problem, SHOP)
    brought = entered = freed = 0.0
    for layers, until in zip(LAYERS, (*STARTS[1:], END), strict=True):
        before = warmth(problem, state)
        problem, state, more = pour(problem, state, layers)
        assert warmth(problem, state) - before == pytest.approx(more, rel=1e-10)
        outcome = run(problem, state, until, control=Control(tolerance=tolerance))
        gained = problem.heat * problem.cell_volumes * (outcome.state.conversion - state.conversion)
        brought, entered = brought + more, entered + outcome.balance.entered
        freed, state = freed + float(gained.sum()), outcome.state
    assert min(brought, freed, -entered) > 0.0
    # the four sums are of one size, so 1e-10 of one is 1e-10 of the balance
    assert abs(warmth(problem, state) - brought - freed - entered) < 1e-10 * freed
