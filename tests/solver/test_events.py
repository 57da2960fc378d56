"""Filling cells, going on from a state, records."""

import numpy as np
import pytest

from pourwright.foundation.errors import UserError
from pourwright.solver import Control, Exchange, Problem, State, Surfaces, mixed, run, start, switch_on
from tests.solver.cases import kamal

LAW = {"rate": kamal, "parameters": np.array([[3e4, 60e3, 1.1e5, 55e3, 0.6, 1.8]])}


def box(cells: int = 6) -> tuple[Problem, np.ndarray]:
    """A box with an empty hollow above a reacting floor; and where the hollow is."""
    edges = np.linspace(0.0, 0.01 * cells, cells + 1)
    shape = (cells, cells, cells)
    hollow = np.zeros(shape, dtype=bool)
    hollow[1:-1, 1:-1, cells // 2 :] = True
    heat = np.zeros(shape)
    heat[1:-1, 1:-1, 1 : cells // 2] = 3e8
    air = Exchange(8.0, 293.15)
    problem = Problem(
        edges, edges, edges, np.full(shape, 2e6), np.full(shape, 0.3), heat, ~hollow, Surfaces.all(air), **LAW
    )
    return problem, hollow


def poured(problem: Problem, state: State, hollow: np.ndarray) -> tuple[Problem, State]:
    ones = np.ones(problem.shape)
    return switch_on(
        problem, state, hollow, 300.0, 1e-4, volumetric_heat_capacity=1.9e6 * ones, heat=3e8 * ones
    )


def test_filled_cells_take_the_entering_values() -> None:
    problem, hollow = box()
    state = run(problem, start(problem, 295.0), 3600.0).state
    whole, after = poured(problem, state, hollow)
    assert np.all(after.temperature[hollow] == 300.0)
    assert np.all(after.conversion[hollow] == 1e-4)
    assert np.all(after.temperature[~hollow] == state.temperature[~hollow])
    assert np.all(whole.volumetric_heat_capacity[hollow] == 1.9e6)
    assert np.all(whole.volumetric_heat_capacity[~hollow] == 2e6)
    assert whole.active.all()


def test_empty_cells_keep_still() -> None:
    problem, hollow = box()
    state = run(problem, start(problem, 295.0), 7200.0).state
    assert np.all(state.temperature[hollow] == 295.0)
    assert np.all(state.temperature[~hollow] != 295.0)


def test_liquid_over_cold_grains_mixes_by_capacity() -> None:
    problem, _ = box()
    state = start(problem, 290.0)
    floor = problem.reacting
    more = np.where(floor, 3e6, 0.0)
    _, after = switch_on(problem, state, floor, 311.0, volumetric_heat_capacity=more)
    assert after.temperature[floor] == pytest.approx((2e6 * 290.0 + 1e6 * 311.0) / 3e6, rel=1e-14)


def test_conversion_mixes_by_heat_of_reaction() -> None:
    problem, _ = box()
    state = start(problem, 290.0, 0.4)
    floor = problem.reacting
    heat = np.where(floor, 4e8, 0.0)
    more = np.where(floor, 3e6, 0.0)
    _, after = switch_on(problem, state, floor, 290.0, 0.0, volumetric_heat_capacity=more, heat=heat)
    assert after.conversion[floor] == pytest.approx(0.4 * 3e8 / 4e8, rel=1e-14)


def test_mixing_nothing_keeps_the_first_value() -> None:
    assert mixed((np.zeros(1), np.zeros(1)), (np.array([290.0]), np.array([310.0]))) == 290.0


def test_losing_matter_is_refused() -> None:
    problem, _ = box()
    less = np.full(problem.shape, 1e6)
    with pytest.raises(UserError, match="would lose heat capacity"):
        switch_on(problem, start(problem, 290.0), problem.active, 300.0, volumetric_heat_capacity=less)


def test_one_state_serves_many_runs() -> None:
    problem, hollow = box()
    middle = run(problem, start(problem, 295.0, thresholds=(0.2,)), 3600.0).state
    kept = middle.temperature.copy()
    early = run(*poured(problem, middle, hollow), 9000.0).state
    waited = run(problem, middle, 5400.0).state
    run(*poured(problem, waited, hollow), 9000.0)
    again = run(*poured(problem, middle, hollow), 9000.0).state
    assert np.all(middle.temperature == kept)
    assert np.all(early.temperature == again.temperature)
    assert early.records.crossing_time.tobytes() == again.records.crossing_time.tobytes()


def test_a_state_cannot_be_written() -> None:
    problem, _ = box()
    state = run(problem, start(problem, 295.0), 100.0).state
    with pytest.raises(ValueError, match="read-only"):
        state.temperature[0, 0, 0] = 0.0


def test_going_on_is_like_not_stopping() -> None:
    problem, _ = box()
    begun = start(problem, 305.0, 0.001)
    control = Control(tolerance=0.01)
    whole = run(problem, begun, 7200.0, control=control).state
    half = run(problem, begun, 3000.0, control=control).state
    parted = run(problem, half, 7200.0, control=control).state
    assert np.abs(whole.temperature - parted.temperature).max() < 0.02


def test_records_agree_with_what_was_seen() -> None:
    problem, _ = box()
    seen: list[tuple[float, np.ndarray, np.ndarray]] = []
    begun = start(problem, 310.0, 0.001, thresholds=(0.1, 0.3))
    outcome = run(
        problem, begun, 40 * 3600.0, control=Control(max_step=300.0),
        observer=lambda time, heat, cure: seen.append((time, heat.copy(), cure.copy())),
    )  # fmt: skip
    records = outcome.state.records
    assert len(seen) == outcome.steps
    hottest = np.max([heat for _, heat, _ in seen], axis=0)
    assert np.all(records.peak_temperature >= np.maximum(hottest, 310.0) - 1e-12)
    assert np.all(records.peak_temperature <= np.maximum(hottest, 310.0) + 0.05)
    for number, limit in enumerate(records.thresholds):
        cell = (2, 2, 1)
        crossed = next(time for time, _, cure in seen if cure[cell] >= limit)
        assert crossed - 300.0 <= records.crossing_time[(number, *cell)] <= crossed
    assert np.isnan(records.crossing_time[:, 0, 0, 0]).all()
    assert np.all(records.crossing_time[0][problem.reacting] < records.crossing_time[1][problem.reacting])


def test_records_of_filled_cells_start_anew() -> None:
    problem, hollow = box()
    state = run(problem, start(problem, 350.0, thresholds=(0.00005,)), 60.0).state
    _, after = poured(problem, state, hollow)
    assert np.all(after.records.peak_temperature[hollow] == 300.0)
    assert np.all(after.records.peak_time[hollow] == 60.0)
    assert np.all(after.records.crossing_time[0][hollow] == 60.0)
    assert np.all(after.records.peak_temperature[~hollow] == state.records.peak_temperature[~hollow])
