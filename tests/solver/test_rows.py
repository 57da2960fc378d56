"""Cells that hold nothing are passed over, and what is there does not notice."""

import numpy as np
import pytest

from pourwright.solver import Control, Exchange, Problem, Surfaces, run, start
from pourwright.solver.faces import find_patches
from pourwright.solver.rows import find_rows
from tests.solver.cases import kamal

LAW = {"rate": kamal, "parameters": np.array([[3e4, 60e3, 1.1e5, 55e3, 0.6, 1.8]])}
CONTROL = Control(tolerance=0.02, max_step=600.0)


def edges(cells: int) -> np.ndarray:
    return np.linspace(0.0, 0.01 * cells, cells + 1)


def scattered(seed: int) -> tuple[tuple[int, int, int], np.ndarray, dict[str, np.ndarray]]:
    """A grid of three unequal sides, what is there, and properties of all cells."""
    shape = (7, 9, 12)
    draw = np.random.default_rng(seed)
    there = draw.uniform(size=shape) < 0.5
    there[3], there[:, 4], there[:, :, 6] = False, False, False
    fields = {
        "volumetric_heat_capacity": draw.uniform(1.5e6, 2.2e6, shape),
        "conductivity": draw.uniform(0.1, 0.5, shape),
        "heat": np.where(draw.uniform(size=shape) < 0.5, 2e8, 0.0),
    }
    return shape, there, fields


def test_empty_cells_act_as_perfect_insulation() -> None:
    shape, there, fields = scattered(5)
    grid = [edges(n) for n in shape]
    held = np.random.default_rng(6).uniform(290.0, 320.0, shape)
    empty = Problem(*grid, active=there, **fields, **LAW)
    sealed = fields | {
        "conductivity": np.where(there, fields["conductivity"], 1e-30),
        "heat": np.where(there, fields["heat"], 0.0),
    }
    full = Problem(*grid, **sealed, **LAW)
    ends = [run(each, start(each, held, 0.01), 20000.0, control=CONTROL) for each in (empty, full)]
    assert ends[0].steps == ends[1].steps
    for name in ("temperature", "conversion"):
        ours, theirs = (getattr(end.state, name)[there] for end in ends)
        assert ours == pytest.approx(theirs, rel=1e-11)
    assert np.all(ends[0].state.temperature[~there] == held[~there])
    assert ends[0].balance.error < 1e-12


def test_an_empty_margin_changes_nothing() -> None:
    shape, skin = (4, 5, 6), Exchange(9.0, 280.0)
    alone = Problem(
        *[edges(n) for n in shape], np.full(shape, 2e6), np.full(shape, 0.4), np.full(shape, 2e8),
        surfaces=Surfaces.all(skin), **LAW,
    )  # fmt: skip
    around = tuple(n + 20 for n in shape)
    there = np.zeros(around, dtype=bool)
    there[9:13, 3:8, 11:17] = True
    within = Problem(
        *[edges(n) for n in around], np.full(around, 2e6), np.full(around, 0.4), np.full(around, 2e8),
        active=there, surfaces=Surfaces.all(skin), **LAW,
    )  # fmt: skip
    first = np.full(around, 900.0)  # nobody may heed a cell that is not there
    first[there] = 300.0
    small = run(alone, start(alone, 300.0, 0.01), 20000.0, control=CONTROL)
    large = run(within, start(within, first, 0.01), 20000.0, control=CONTROL)
    ours = large.state.temperature[there].reshape(shape)
    assert ours == pytest.approx(small.state.temperature, rel=1e-12)
    peaks = large.state.records.peak_temperature[there].reshape(shape)
    assert peaks == pytest.approx(small.state.records.peak_temperature, rel=1e-12)
    assert (large.steps, large.rejected) == (small.steps, small.rejected)


def test_stretches_hold_what_is_there_and_no_more_at_their_ends() -> None:
    shape, there, fields = scattered(11)
    problem = Problem(
        *[edges(n) for n in shape], active=there, **fields, **LAW, surfaces=Surfaces.all(Exchange(5.0))
    )
    rows = find_rows(problem, find_patches(problem))
    assert rows.low.sum() == sum(row.argmax() for plane in there for row in plane if row.any())
    for (i, j), low in np.ndenumerate(rows.low):
        found = np.flatnonzero(there[i, j])
        expected = (found[0], found[-1] + 1) if found.size else (0, 0)
        assert (low, rows.high[i, j]) == expected
    for (i, k), low in np.ndenumerate(rows.turned_low):
        found = np.flatnonzero(there[i, :, k])
        expected = (found[0], found[-1] + 1) if found.size else (0, 0)
        assert (low, rows.turned_high[i, k]) == expected
    assert np.all(rows.box[3] == 0)
    assert np.all(rows.reacts == (there & (fields["heat"] > 0.0)).any(axis=2))
