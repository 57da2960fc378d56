"""The grid error a plan states: read from data, and wide enough for nine in ten of what was measured."""

import csv
from collections import defaultdict
from itertools import pairwise
from pathlib import Path
from types import SimpleNamespace

import pytest

from pourwright.foundation.sources import Kind, load_sources
from pourwright.planner.decide import Decision
from pourwright.planner.grid_error import LEAST, grid_error, grid_errors, sourced_grid_errors
from pourwright.planner.grids import layers_of, search_parts
from pourwright.pour.site import Block
from pourwright.solver import Control

MEASURED = Path(__file__).with_name("coarse_runs.csv")
"""Rise, change and error of every peak, as written by ``python -m benchmarks.bench_coarse --samples``."""


def test_every_number_says_that_it_was_measured():
    numbers = sourced_grid_errors().values()
    assert {number.kind for number in numbers} == {Kind.MEASURED}
    assert all(number.source in load_sources() and number.conditions for number in numbers)
    assert all(number.value > 0.0 for number in numbers)


def test_the_error_of_a_spacing_between_is_that_of_the_coarser():
    fine, coarse = grid_errors()
    assert (fine.spacing, coarse.spacing) == (0.004, 0.008)
    assert grid_error(0.003) is fine
    assert grid_error(0.004) is fine
    assert grid_error(0.0041) is coarse
    assert grid_error(0.05) is coarse


@pytest.mark.parametrize("error", grid_errors(), ids=lambda error: f"{error.spacing:g}")
def test_the_rule(error):
    calm = 50.0 * error.of_rise.value
    even = calm / error.of_change.value
    assert error.peak(50.0, 0.5 * even) == error.peak(50.0, 0.0) == calm
    assert error.peak(50.0, 4.0 * even) == error.peak(50.0, -4.0 * even) == pytest.approx(4.0 * calm)
    # never closer than the steps in time allow
    assert error.peak(-1.0, 0.0) == LEAST == 2.0 * Control().tolerance


def test_a_plan_states_the_error_of_every_pour():
    def run(spacing, *peaks):
        pours = [SimpleNamespace(peak=peak, poured_at=295.0) for peak in peaks]
        return SimpleNamespace(spacing=spacing, pours=pours)

    fine, coarse = run(0.0079, 330.0, 300.0), run(0.0158, 338.0, 300.0)
    decision = Decision(None, 0, None, fine, coarse, coarse)
    error = grid_error(0.008)
    assert decision.grid_errors == (error.peak(35.0, 8.0), error.peak(5.0, 0.0))
    assert decision.time_error == error.times.value


def measured():
    """Plans of every spacing: rise, change and error of each pour's peak [K]."""
    plans = defaultdict(list)
    with MEASURED.open(encoding="utf8") as file:
        for spacing, plan, *pour in csv.reader(file):
            plans[float(spacing) / 1000.0, plan].append(tuple(map(float, pour)))
    return plans


@pytest.mark.parametrize("spacing", [error.spacing for error in grid_errors()])
def test_nine_plans_in_ten_are_off_by_no_more(spacing):
    plans = [pours for (at, _), pours in measured().items() if at == spacing]
    stated = grid_error(spacing)

    def covered(share):
        """Share of plans whose every pour is off by no more than so much of what is stated."""
        each = [all(abs(error) <= share * stated.peak(*pour) for *pour, error in pours) for pours in plans]
        return sum(each) / len(each)

    assert len(plans) >= 8
    assert covered(1.0) >= 0.9
    # and no wider than that asks for: with half of it, more than one in ten would be off
    assert covered(0.5) < 0.9


def test_layers_of_a_shallow_and_of_a_deep_pour():
    block = Block((0.2, 0.2), base=0.018, board=0.015, height=0.144)
    levels = (0.024, 0.144)
    inner = layers_of(levels, block)
    given = {-0.033, -0.018, 0.0, *levels}
    assert given.isdisjoint(inner)
    depths = [b - a for a, b in pairwise(sorted({*given, *inner}))]
    assert depths == pytest.approx([0.005] * 3 + [0.003] * 6 + [0.002] * 12 + [0.010] * 12)


@pytest.mark.parametrize("count", [1, 2, 5, 12, 40])
def test_a_search_has_layers_enough_over_the_whole_piece(count):
    levels = tuple(0.03 * (n + 1) for n in range(count))
    parts = search_parts(levels)
    assert count * parts >= 24 > count * (parts - 1)
    block = Block((0.2, 0.2), base=0.018, board=0.015, height=levels[-1])
    inside = [z for z in layers_of(levels, block, parts) if z > 0.0]
    assert len(inside) == count * (parts - 1)


def test_no_layer_of_a_pour_is_thinner_than_a_millimetre():
    block = Block((0.2, 0.2), base=0.018, board=0.015, height=0.0055)
    lines = [0.0, *(z for z in layers_of((0.0055,), block) if z > 0.0), 0.0055]
    assert [b - a for a, b in pairwise(lines)] == pytest.approx([0.0011] * 5)
