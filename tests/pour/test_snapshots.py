"""What the recorder keeps of a run, and that looking does not change it."""

import numpy as np
import pytest

from pourwright.pour.cuts import cut_planes, easiest_to_show, fuller
from pourwright.pour.display import Sampler, apart, display_grid, grouped
from pourwright.pour.layout import lay_out
from pourwright.pour.rehearse import Planned, rehearse
from pourwright.pour.snapshots import Recorder
from pourwright.pour.stages import add_pour, empty_mold
from pourwright.solver import run
from tests.pour.blocks import HOUR, ZERO_CELSIUS, block_site

LEVELS = (0.025, 0.05)
PLAN = tuple(Planned(level, 45 * HOUR * number) for number, level in enumerate(LEVELS))


@pytest.fixture(scope="module")
def layout():
    return lay_out(block_site(0.05, 0.12), 0.0125, LEVELS)


@pytest.fixture(scope="module")
def seen(layout):
    return rehearse(layout, PLAN, recorder=Recorder(layout))


@pytest.fixture(scope="module")
def recording(seen):
    return seen.recording


def test_looking_changes_nothing(layout, seen):
    alone = rehearse(layout, PLAN)
    assert alone.pours == seen.pours
    assert (alone.ready, alone.steps, alone.recording) == (seen.ready, seen.steps, None)


def test_each_filling_is_kept_from_its_start_to_its_end(recording):
    times = [shot.time for shot in recording.snapshots]
    assert times == sorted(times)
    first, second = ([s for s in recording.snapshots if s.filled == number] for number in (1, 2))
    assert (first[0].time, first[-1].time) == (0.0, 45 * HOUR)
    assert second[0].time == 45 * HOUR
    assert second[-1].time == recording.last.time
    assert second[0].temperature.size == 2 * first[0].temperature.size


def test_more_is_kept_where_more_happens(layout):
    few = rehearse(layout, PLAN, recorder=Recorder(layout, most=80)).recording
    shots = [shot for shot in few.snapshots if shot.filled == 2]
    hottest = max(range(len(shots)), key=lambda place: float(shots[place].temperature.max()))
    waits = np.diff([shot.time for shot in shots])
    assert waits[:hottest].mean() < 0.5 * waits[hottest + 1 :].mean()


def test_the_hottest_moment_is_among_them(seen, recording):
    hottest = max(max(pour.history.hottest) for pour in seen.pours)
    kept = max(float(shot.temperature.max()) for shot in recording.snapshots)
    assert kept == pytest.approx(hottest - ZERO_CELSIUS, abs=0.02)  # half precision below 64 degC
    assert np.nanmax(recording.hottest.values) == pytest.approx(hottest, abs=1e-9)


def test_no_display_cell_is_finer_than_the_run_and_all_lie_around_the_casting(layout):
    grid = display_grid(layout)
    for edges, lines, low, high in zip(
        grid.edges, layout.grid.axes, (-0.06, -0.06, 0.0), (0.06, 0.06, 0.05), strict=True
    ):
        assert set(edges) <= set(lines)
        assert (edges[0], edges[-1]) == pytest.approx((low, high), abs=1e-9)


@pytest.mark.parametrize(("across", "cells"), [(64, 40_000), (4, 40_000), (64, 20)])
def test_the_mean_over_the_casting_survives_the_display(layout, across, cells):
    stage = add_pour(empty_mold(layout, 0.0), 0.05)
    grid = display_grid(layout, across, cells)
    assert max(grid.shape) <= 1.5 * across
    sampler = Sampler.of(grid, stage)
    field = np.random.default_rng(0).uniform(290.0, 330.0, layout.cavity.shape)
    amounts = (layout.cavity * layout.grid.cell_volumes)[stage.poured]
    x, y, z = (np.diff(edges) for edges in grid.edges)
    sizes = (x[:, None, None] * y[None, :, None] * z[None, None, :]).reshape(-1)[sampler.cells]
    mean = (field[stage.poured] * amounts).sum() / amounts.sum()
    assert (sampler.read(field) * sizes).sum() / sizes.sum() == pytest.approx(mean, rel=1e-12)


def test_memory_is_bounded(layout):
    few = rehearse(layout, PLAN, recorder=Recorder(layout, most=24)).recording
    assert 12 <= len(few.snapshots) <= 25
    assert [shot.filled for shot in few.snapshots if shot.fixed] == [1, 1, 2, 2, 2]


def test_no_moment_is_kept_twice(layout):
    recorder = Recorder(layout, stride=0.0)  # keeps every step, the hottest among them
    stage = add_pour(empty_mold(layout, 0.0), LEVELS[0])
    recorder.pour(stage)
    end = run(stage.problem, stage.state, 20 * HOUR, observer=recorder)
    cell = tuple(int(places[0]) for places in np.nonzero(stage.poured))
    shots = recorder.recording(stage.at(end.state), 0, cell).snapshots
    assert len({(shot.time, shot.filled) for shot in shots}) == len(shots) == end.steps + 1


def test_a_cut_shows_the_field_and_nothing_above_the_level(layout):
    stage = add_pour(empty_mold(layout, 0.0), 0.025)
    field = np.arange(layout.cavity.size, dtype=float).reshape(layout.cavity.shape)
    shown = np.where(stage.problem.active, field, np.nan)
    cell = (7, 8, 5)
    across_y, across_x = cut_planes(layout, shown, cell, 0.0, 1)
    assert np.array_equal(across_y.values, shown[7].T, equal_nan=True)
    assert np.array_equal(across_x.values, shown[:, 8].T, equal_nan=True)
    z = (across_x.up[1:] + across_x.up[:-1]) / 2
    middle = across_x.values[:, 8]
    assert np.isnan(middle[(z > 0.025) & (z < 0.05)]).all()
    assert np.isfinite(middle[z < 0.025]).all()


def test_the_cut_that_shows_more_is_chosen():
    site = block_site(0.03, 0.06)
    wide = lay_out(site, 0.01, [0.03])
    planes = cut_planes(wide, np.zeros(wide.cavity.shape), (4, 4, 4), 0.0, 1)
    assert fuller(wide, planes).axis == "y"  # as much in both: seen from the front


def test_what_is_kept_lies_apart_and_is_the_same():
    given = np.arange(12.0).reshape(3, 4)
    kept = apart(given)
    assert np.array_equal(kept, given)
    assert not np.shares_memory(kept, given)
    assert kept.dtype == given.dtype
    assert apart(np.empty(0)).size == 0


def test_of_places_as_soft_the_one_is_shown_whose_cut_shows_most(layout):
    cells = np.ones(layout.cavity.shape, dtype=bool)
    cure = np.full(layout.cavity.shape, 0.9)
    nx, ny, _ = cure.shape
    # outside the piece, near its edge, and in its middle: all as soft but for a trifle
    cure[0, 0, 6], cure[nx // 2, 5, 6], cure[5, 5, 6] = 0.8, 0.801, 0.8005
    assert easiest_to_show(layout, cells, cure, 0.002) == (nx // 2, 5, 6)
    assert easiest_to_show(layout, cells, cure, 0.0) == (0, 0, 6)
    cure[nx // 2, ny - 6, 6] = 0.801  # as good, farther right: its note is nearer
    assert easiest_to_show(layout, cells, cure, 0.002) == (nx // 2, ny - 6, 6)


@pytest.mark.parametrize("seed", range(5))
@pytest.mark.parametrize("least", [0.0, 0.004, 0.02, 1.0])
def test_grouping_loses_no_line_and_no_length(seed, least):
    widths = np.random.default_rng(seed).uniform(0.001, 0.01, 40)
    edges = np.concatenate([[0.0], np.cumsum(widths)])
    made, groups = grouped(edges, (3, 37), least)
    assert (made[0], made[-1]) == (edges[3], edges[37])
    assert set(made) <= set(edges)
    assert np.all(np.diff(made) > 0.0)
    assert groups[:3].tolist() == [-1] * 3 == groups[37:].tolist()
    for place in range(3, 37):
        assert made[groups[place]] <= edges[place] < edges[place + 1] <= made[groups[place] + 1]
    if least == 0.0:
        assert made.size == 35
    # a group ends where it comes nearest to what is wanted: half a cell off at most, but for the last
    assert np.all(np.diff(made)[:-1] >= least - 0.005 - 1e-12)
    assert np.all(np.diff(made) <= max(least + 0.005, 0.01) + 1e-12)
