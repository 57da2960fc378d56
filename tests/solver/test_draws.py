"""Evenly spread points: how even, of which moments, the same again and when prolonged."""

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st
from scipy.stats import kstest
from scipy.stats.qmc import discrepancy

from pourwright.foundation.errors import UserError
from pourwright.solver.draws import cube, draws, factor

SEEDS = st.integers(0, 2**32 - 1)


@st.composite
def covariances(draw: st.DrawFn) -> np.ndarray:
    """Of any rank, a rank below the size included, in units far apart."""
    size, seed = draw(st.integers(1, 8)), draw(SEEDS)
    chance = np.random.default_rng(seed)
    root = chance.normal(size=(size, draw(st.integers(1, size)))) * 10.0 ** chance.uniform(-5, 5, (size, 1))
    return root @ root.T


@pytest.mark.parametrize("dimensions", [2, 6, 15])
def test_fills_the_cube_more_evenly_than_chance(dimensions: int) -> None:
    chance = np.random.default_rng(3)
    random = [discrepancy(chance.random((256, dimensions))) for _ in range(20)]
    even = [discrepancy(cube(256, dimensions, seed)) for seed in range(20)]
    assert max(even) < 0.6 * min(random)


@given(st.integers(1, 200), st.integers(0, 200), st.integers(1, 22), SEEDS)
@settings(max_examples=50, deadline=None)
def test_a_longer_call_goes_on_from_a_shorter_one(few: int, more: int, dimensions: int, seed: int) -> None:
    covariance = np.eye(dimensions) + 0.3
    mean = np.linspace(-1.0, 1.0, dimensions)
    short, long = (draws(count, mean, covariance, seed) for count in (few, few + more))
    assert np.array_equal(long[:few], short)
    assert np.array_equal(draws(few, mean, covariance, seed), short)


def test_every_seed_is_another_draw() -> None:
    first, second = (draws(64, np.zeros(3), np.eye(3), seed) for seed in (0, 1))
    assert np.abs(first - second).min() > 0.0


@given(covariances())
@settings(max_examples=100, deadline=None)
def test_the_factor_gives_the_covariance_back(covariance: np.ndarray) -> None:
    root = factor(covariance)
    assert np.array_equal(root, np.tril(root))
    scale = np.sqrt(np.diag(covariance))
    assert np.abs((root @ root.T - covariance) / np.outer(scale, scale)).max() < 1e-4


def test_moments_of_two_thousand_members() -> None:
    mean = np.array([300.0, 0.45, -2.0])
    covariance = np.array([[4.0, 0.03, -1.0], [0.03, 0.0009, 0.0], [-1.0, 0.0, 1.0]])
    found = draws(2048, mean, covariance, seed=7)
    spread = np.sqrt(np.diag(covariance))
    assert np.abs((found.mean(axis=0) - mean) / spread).max() < 0.002
    assert np.abs((np.cov(found.T) - covariance) / np.outer(spread, spread)).max() < 0.01
    for column, middle, width in zip(found.T, mean, spread, strict=True):
        assert kstest((column - middle) / width, "norm").statistic < 0.01


def test_the_mean_comes_out_closer_than_by_chance() -> None:
    # of exp(x): 1.6487; the error of 256 random members is 0.135 on average
    errors = [
        np.exp(draws(256, np.zeros(4), np.eye(4), seed)[:, 0]).mean() - np.exp(0.5) for seed in range(20)
    ]
    assert np.sqrt(np.mean(np.square(errors))) < 0.135 / 4


def test_what_is_certain_stays_as_it_is() -> None:
    found = draws(100, np.array([1.0, 2.0, 3.0]), np.diag([1.0, 0.0, 4.0]), seed=1)
    assert np.all(found[:, 1] == 2.0)
    assert draws(5, np.array([2.5]), np.zeros((1, 1)), seed=1).tolist() == [[2.5]] * 5


def test_no_member_is_at_infinity() -> None:
    assert np.abs(draws(4096, np.zeros(22), np.eye(22), seed=5)).max() < 6.5


@pytest.mark.parametrize(
    "covariance",
    [
        [[1.0, 2.0], [2.0, 1.0]],
        [[-1.0]],
        [[0.0, 0.5], [0.5, 1.0]],
        [[1.0, 0.5], [0.2, 1.0]],
        [[1.0, np.nan], [np.nan, 1.0]],
        [[1.0, 0.0]],
    ],
)  # fmt: skip
def test_a_table_that_is_no_covariance_is_refused(covariance: list[list[float]]) -> None:
    with pytest.raises(UserError, match="covariance"):
        draws(4, np.zeros(len(covariance)), np.array(covariance), seed=0)


def test_mean_and_covariance_have_to_fit() -> None:
    with pytest.raises(UserError, match="a mean of 3 numbers with a covariance of 2"):
        draws(4, np.zeros(3), np.eye(2), seed=0)
