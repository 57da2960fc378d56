"""How a run behaves: threads, cancelling, runaway, bad input, compiled laws in a second process."""

import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from pourwright.foundation.errors import Cancelled, UserError
from pourwright.solver import Control, Ending, Exchange, Problem, Surfaces, rate_law, run, start
from pourwright.solver.crew import Crew
from tests.solver.cases import ONE, exponential, kamal

RESIN = np.array([[3e4, 60e3, 1.1e5, 55e3, 0.6, 1.8]])


def block(cells: int, **more: object) -> Problem:
    edges = np.linspace(0.0, 0.2, cells + 1)
    shape = (cells, cells, cells)
    heat = np.zeros(shape)
    heat[cells // 4 : -cells // 4, cells // 4 : -cells // 4, cells // 4 :] = 2e8
    surfaces = Surfaces.all(Exchange(lambda ts, ta: 4.0 + np.cbrt(np.abs(ts - ta)), 293.15))
    draw = np.random.default_rng(3)
    fields = (draw.uniform(1.5e6, 2.2e6, shape), draw.uniform(0.1, 0.5, shape), heat)
    law = {"rate": kamal, "parameters": RESIN} | more
    return Problem(edges, edges, edges, *fields, surfaces=surfaces, **law)  # type: ignore[arg-type]


def test_threads_do_not_change_a_bit(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("pourwright.solver.crew.SMALL", 0)
    problem = block(12)
    begun = start(problem, 305.0, 0.01, thresholds=(0.1,))
    ends = [run(problem, begun, 20000.0, threads=threads) for threads in (1, 2, 3)]
    for other in ends[1:]:
        assert other.state.temperature.tobytes() == ends[0].state.temperature.tobytes()
        assert other.state.conversion.tobytes() == ends[0].state.conversion.tobytes()
        assert other.balance == ends[0].balance


def test_work_is_shared_without_gaps(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("pourwright.solver.crew.SMALL", 0)
    done = np.zeros(17, dtype=int)

    def work(low: int, high: int) -> None:
        done[low:high] += 1

    Crew(1, 3).share(17, work)
    assert np.all(done == 1)


class Impatient:
    """Cancels after some steps."""

    def __init__(self, patience: int) -> None:
        self.left = patience
        self.told: list[float] = []

    def step(self, stage: str, done: float, total: float) -> None:
        assert stage == "warming"
        assert total == 20000.0
        self.told.append(done)
        self.left -= 1
        if self.left == 0:
            raise Cancelled


def test_cancelling_leaves_the_state_as_it_was() -> None:
    problem = block(8)
    begun = start(problem, 305.0, 0.01)
    kept = begun.temperature.copy()
    follower = Impatient(5)
    with pytest.raises(Cancelled):
        run(problem, begun, 20000.0, progress=follower, stage="warming")
    assert follower.told == sorted(follower.told)
    assert len(follower.told) == 5
    assert np.all(begun.temperature == kept)


def single(law: object, row: list[float], heat: float) -> Problem:
    ones = np.ones((1, 1, 1))
    return Problem(ONE, ONE, ONE, 1e6 * ones, ones, heat * ones, rate=law, parameters=np.array(row))


def test_runaway_is_told() -> None:
    problem = single(exponential, [1e-9, 300.0], 1e15)
    outcome = run(problem, start(problem, 300.0), 1e6, control=Control(cap=600.0))
    assert outcome.ending is Ending.RUNAWAY
    assert outcome.state.time < 1e6
    assert np.isfinite(outcome.state.temperature).all()


@rate_law
def broken(temperature: float, conversion: float, parameters: np.ndarray) -> float:
    """Not a number once the conversion has passed a limit."""
    return parameters[0] if conversion < parameters[1] else np.nan


def test_a_law_that_breaks_ends_the_run_with_numbers() -> None:
    problem = single(broken, [1e-4, 0.5], 1e8)
    outcome = run(problem, start(problem, 300.0), 1e5)
    assert outcome.ending is Ending.RUNAWAY
    assert np.isfinite(outcome.state.temperature).all()
    assert 0.4 < outcome.state.conversion.item() < 0.6


def test_rows_of_parameters_by_cell() -> None:
    ones = np.ones((2, 1, 1))
    law = np.array([0, 1]).reshape(2, 1, 1)
    rows = RESIN * np.array([[1.0], [3.0]]) ** np.array([[1, 0, 1, 0, 0, 0]])
    pair = Problem(
        np.array([0.0, 1.0, 2.0]),
        ONE,
        ONE,
        1e6 * ones,
        1e-9 * ones,
        1e8 * ones,
        rate=kamal,
        parameters=rows,
        law=law,
    )
    together = run(pair, start(pair, 300.0), 30000.0).state.conversion.ravel()
    for number in (0, 1):
        alone = single(kamal, list(rows[number]), 1e8)
        assert together[number] == pytest.approx(
            run(alone, start(alone, 300.0), 30000.0).state.conversion.item(), abs=1e-4
        )


BAD = [
    ({"x": np.array([0.0, 0.0, 1.0])}, "edges along x do not rise"),
    ({"conductivity": np.ones((1, 1, 2))}, "conductivity has shape"),
    ({"volumetric_heat_capacity": np.zeros((1, 1, 1))}, "not positive"),
    ({"conductivity": np.full((1, 1, 1), np.nan)}, "not positive"),
    ({"heat": np.ones((1, 1, 1))}, "no rate law"),
    ({"heat": np.ones((1, 1, 1)), "rate": kamal, "law": np.full((1, 1, 1), 3)}, "does not have"),
]


@pytest.mark.parametrize(("change", "words"), BAD)
def test_bad_problems_are_refused(change: dict[str, object], words: str) -> None:
    ones = np.ones((1, 1, 1))
    fields = {"x": ONE, "y": ONE, "z": ONE, "volumetric_heat_capacity": ones, "conductivity": ones} | change
    with pytest.raises(UserError, match=words):
        Problem(**fields)  # type: ignore[arg-type]


def test_bad_starts_and_ends_are_refused() -> None:
    problem = block(4)
    with pytest.raises(UserError, match="not a finite number"):
        start(problem, np.nan)
    with pytest.raises(UserError, match="cannot start at"):
        run(problem, start(problem, 300.0, time=10.0), 5.0)


def test_second_process_finds_compiled_kernels(tmp_path: Path) -> None:
    # compiled as the file is loaded; the other kernels are kept by the same line
    script = (
        "from pourwright.solver.reaction import first_rates, react\n"
        "print([sum(k.stats.cache_misses.values()) for k in (first_rates, react)])"
    )
    environment = os.environ | {"NUMBA_CACHE_DIR": str(tmp_path)}
    told = [
        subprocess.run(
            [sys.executable, "-c", script], env=environment, capture_output=True, text=True, check=True
        ).stdout.strip()
        for _ in range(2)
    ]
    assert told == ["[1, 1]", "[0, 0]"]
