"""What a finer run taught is added to every coarse trial, as a share of the time where it is a time."""

from dataclasses import replace
from types import SimpleNamespace

import pytest

from pourwright.planner.bench import CoarseBench, Correction
from pourwright.planner.decide import LATEST, MARGIN, SLACK, _learn_bonds, _learn_peak, _off
from pourwright.planner.request import AT_FIRST
from pourwright.pour.layout import lay_out
from tests.pour.blocks import HOUR, block_site

TOP, START, LIMIT = 0.05, 3 * HOUR, 338.15


@pytest.fixture(scope="module")
def bench():
    layout = lay_out(block_site(TOP, 0.1), 0.025, (0.025, TOP))
    return CoarseBench(layout, LIMIT, snap=lambda ready: ready)


def test_times_are_shifted_in_proportion(bench):
    plain = bench.pour(None, 0.025, START)
    shift = Correction(peak=1.5, bonds_from=0.1, bonds_until=-0.2)
    shifted = replace(bench, correction=shift, kept=bench.kept).pour(None, 0.025, START)
    assert shifted.peaks[0] == plain.peaks[0] + 1.5
    assert shifted.bonds_from - START == pytest.approx(1.1 * (plain.bonds_from - START))
    assert shifted.bonds_until - START == pytest.approx(0.8 * (plain.bonds_until - START))


def test_a_top_that_bonds_for_ever_still_does_when_corrected(bench):
    key = ((0.025,), (START,))
    bench.pour(None, 0.025, START)
    endless = replace(bench.kept[key], bonds_until=float("inf"))
    lasting = replace(bench, correction=Correction(bonds_until=-0.2), kept={key: endless})
    assert lasting.pour(None, 0.025, START).bonds_until == float("inf")


def finer(bench, trial, **changes):
    """A finer run that found other values for the first of two pours."""
    pours = []
    for count, (level, start) in enumerate(zip(trial.levels, trial.starts, strict=True), 1):
        seen = bench.kept[trial.levels[:count], trial.starts[:count]]
        found = {name: getattr(seen, name) for name in ("peak", "bonds_from", "bonds_until")}
        pours.append(SimpleNamespace(upper=level, start=start, **(found | (changes if count == 1 else {}))))
    return SimpleNamespace(pours=pours)


def test_a_finer_run_teaches_what_it_found_and_no_more(bench):
    bench.correction = AT_FIRST
    first = bench.pour(None, 0.025, START)
    second = bench.pour(first, TOP, first.bonds_from + HOUR)
    seen = bench.kept[first.levels, first.starts]
    hot = _learn_peak(bench, second, finer(bench, second, peak=LIMIT + 2.0))
    assert hot == replace(AT_FIRST, peak=LIMIT + 2.0 - seen.peak + SLACK)
    late = START + 1.2 * (seen.bonds_from - START)
    slow = _learn_bonds(bench, second, finer(bench, second, bonds_from=late + HOUR))
    assert slow.peak == AT_FIRST.peak
    assert slow.bonds_from == pytest.approx(0.2 + HOUR / (seen.bonds_from - START) + MARGIN)
    assert slow.bonds_until == AT_FIRST.bonds_until


def test_a_top_that_never_gels_teaches_a_finite_shift():
    fine = SimpleNamespace(start=START, bonds_from=float("inf"))
    coarse = SimpleNamespace(bonds_from=START + 20 * HOUR)
    assert _off(fine, coarse, "bonds_from") == LATEST
    assert _off(fine, SimpleNamespace(bonds_from=float("inf")), "bonds_from") == 0.0
