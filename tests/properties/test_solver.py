"""Properties of the solver that hold on any grid and with any matter."""

import numpy as np
from hypothesis import given, settings, strategies as st

from pourwright.solver import Control, Exchange, Problem, Surfaces, run, start, switch_on
from tests.solver.dense import without_reaction

SIZES = st.tuples(st.integers(1, 4), st.integers(1, 4), st.integers(1, 4))
FILMS = st.sampled_from([0.0, 2.0, 50.0, np.inf])


@st.composite
def problems(draw: st.DrawFn) -> Problem:
    shape = draw(SIZES)
    chance = np.random.default_rng(draw(st.integers(0, 2**32 - 1)))
    edges = [np.cumsum(np.append(0.0, chance.uniform(0.005, 0.03, n))) for n in shape]
    faces = [Exchange(draw(FILMS), chance.uniform(280.0, 320.0), chance.uniform(0.0, 0.1)) for _ in range(6)]
    capacity, conductivity = chance.uniform(5e5, 4e6, shape), 10.0 ** chance.uniform(-1.5, 0.5, shape)
    return Problem(*edges, capacity, conductivity, surfaces=Surfaces(*faces))


@settings(max_examples=25, deadline=None)
@given(problems(), st.integers(0, 1000))
def test_agrees_with_the_matrix_exponential(problem: Problem, seed: int) -> None:
    first = np.random.default_rng(seed).uniform(285.0, 315.0, problem.shape)
    exact = without_reaction(problem, first, 2000.0)
    end = run(problem, start(problem, first), 2000.0, control=Control(tolerance=0.01)).state
    assert np.abs(end.temperature - exact).max() < 0.05


@settings(max_examples=25, deadline=None)
@given(problems(), st.integers(0, 1000))
def test_what_enters_is_what_is_stored(problem: Problem, seed: int) -> None:
    first = np.random.default_rng(seed).uniform(285.0, 315.0, problem.shape)
    outcome = run(problem, start(problem, first), 5000.0)
    scale = float((problem.volumetric_heat_capacity * problem.cell_volumes).sum())
    assert abs(outcome.balance.stored - outcome.balance.entered) < 1e-10 * scale


@settings(max_examples=25, deadline=None)
@given(problems(), st.floats(280.0, 340.0), st.integers(0, 1000))
def test_filling_keeps_energy(problem: Problem, entering: float, seed: int) -> None:
    chance = np.random.default_rng(seed)
    state = start(problem, chance.uniform(285.0, 315.0, problem.shape))
    cells = chance.random(problem.shape) < 0.5
    held = problem.volumetric_heat_capacity
    more = held + np.where(cells, chance.uniform(0.0, 2e6, problem.shape), 0.0)
    filled, after = switch_on(problem, state, cells, entering, volumetric_heat_capacity=more)
    volumes = problem.cell_volumes
    before = (volumes * held * state.temperature).sum() + (volumes * (more - held) * entering).sum()
    now = (volumes * filled.volumetric_heat_capacity * after.temperature).sum()
    assert abs(now - before) < 1e-12 * before
