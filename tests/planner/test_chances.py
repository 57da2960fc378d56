"""Chances counted over draws whose answers are known in closed form."""

import numpy as np
import pytest
from scipy.special import ndtr

from pourwright.planner.chances import Chances, Ensemble, standard
from pourwright.planner.lived import Lived, PourLived

SIZE, RUNS, HELD_OUT = 4, 60, 20
BASE, MIDDLE, LIMIT = 290.0, 30.0, 338.15
WAYS = np.array([0.25, -0.15, 0.05, 0.0])
SPREAD = float(np.linalg.norm(WAYS))


def rise(points):
    """Logarithm of a rise that hangs on all deviates in a straight line."""
    return MIDDLE * np.exp(points @ WAYS)


def lived(point, *, missed=False):
    peak = BASE + float(rise(point))
    gel = 20.0 * float(np.exp(-0.3 * point[0]))
    pour = PourLived(peak, gel, gel, 2.0 * gel, missed)
    cold = PourLived(BASE + 5.0, gel, gel, np.inf, missed=False)
    return Lived((pour, cold), 100.0, 100.0 + 50.0 * float(np.exp(0.4 * point[1])))


@pytest.fixture(scope="module")
def chances():
    points = standard(RUNS + HELD_OUT, SIZE, seed=3)
    lives = tuple(lived(point, missed=number % 4 == 0) for number, point in enumerate(points))
    likely = lived(np.zeros(SIZE))
    members = standard(20000, SIZE, seed=4)
    return Chances(Ensemble(points, lives, 2, BASE), HELD_OUT, members, LIMIT, likely, (0.0, 0.0))


def test_the_share_over_the_limit_is_that_of_the_normal_distribution(chances):
    exact = ndtr(-np.log((LIMIT - BASE) / MIDDLE) / SPREAD)
    assert chances.over_limit(0) == pytest.approx(exact, abs=0.005)
    assert chances.any_over == chances.over_limit(0)


def test_a_pour_far_below_the_limit_never_goes_over(chances):
    assert chances.peaks[1] is None
    assert chances.over_limit(1) == 0.0


def test_the_peak_that_is_kept_is_the_quantile(chances):
    exact = BASE + MIDDLE * np.exp(1.6448536 * SPREAD)
    assert chances.kept(0, 0.95) == pytest.approx(exact, abs=0.6)


def test_a_finer_grid_moves_the_peaks(chances):
    hotter = Chances(chances.ensemble, HELD_OUT, chances.members, LIMIT, chances.likely, (2.0, 0.0))
    exact = ndtr(-np.log((LIMIT - 2.0 - BASE) / MIDDLE) / SPREAD)
    assert hotter.over_limit(0) == pytest.approx(exact, abs=0.006)


def test_the_held_out_error_of_a_straight_answer_is_small(chances):
    assert chances.peaks[0].error < 0.02
    assert chances.ready.error < 0.02


def test_bands_are_quantiles_of_the_runs(chances):
    times = chances.ensemble.times(0, "gel")
    low, high = chances.band(times, 0.1, 0.9)
    assert low == pytest.approx(20.0 * np.exp(-0.3 * 1.2816), rel=0.1)
    assert high == pytest.approx(20.0 * np.exp(0.3 * 1.2816), rel=0.1)


def test_what_a_tenth_never_reaches_has_no_band(chances):
    assert chances.band(chances.ensemble.times(1, "bonds_until"), 0.1, 0.9) is None


def test_missed_bonds_are_counted(chances):
    assert chances.missed(0) == pytest.approx(0.25)


def test_an_even_spread_is_no_cliff(chances):
    assert not chances.cliff(0)


def test_a_long_hot_tail_is_a_cliff():
    points = standard(RUNS, SIZE, seed=3)
    lives = []
    for point in points:
        # beyond one deviation it runs away
        peak = BASE + 30.0 + point[0] + 40.0 * max(0.0, point[0] - 1.0)
        lives.append(Lived((PourLived(peak, 1.0, 1.0, 2.0, missed=False),), 0.0, 1.0))
    steep = Chances(Ensemble(points, tuple(lives), 1, BASE), HELD_OUT, points, LIMIT, lives[0], (0.0,))
    assert steep.cliff(0)
