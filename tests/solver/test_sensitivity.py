"""Shares of variance against two loops by brute force, and of groups."""

import numpy as np
import pytest

from pourwright.solver.sensitivity import sensitivity


def cheap(x: np.ndarray) -> np.ndarray:
    """Three inputs that matter, one by itself, two together, and one that does not."""
    return np.tanh(x[:, 0]) + 2.0 * np.tanh(x[:, 1]) * np.tanh(x[:, 2])


def by_brute_force(group: list[int], size: int, outer: int, inner: int) -> tuple[float, float]:
    """Variance of the mean given the group, and mean of the variance given all others: by two loops."""
    chance = np.random.default_rng(11)
    others = [place for place in range(size) if place not in group]
    means, variances, values = [], [], []
    for _ in range(outer):
        base = chance.normal(size=size)
        points = chance.normal(size=(inner, size))
        given, left = points.copy(), points.copy()
        given[:, group], left[:, others] = base[group], base[others]
        means.append(cheap(given).mean())
        variances.append(cheap(left).var())
        values.append(cheap(points))
    variance = np.var(values)
    return float(np.var(means) / variance), float(np.mean(variances) / variance)


@pytest.mark.parametrize("group", [[0], [1], [2], [3], [1, 2], [0, 3]])
def test_agrees_with_two_loops(group: list[int]) -> None:
    first, total = by_brute_force(group, 4, 2000, 2000)
    found = sensitivity(cheap, [group], 4, seed=2, count=1024)
    assert found.first[0] == pytest.approx(first, abs=0.03)
    assert found.total[0] == pytest.approx(total, abs=0.03)


def test_inputs_that_only_act_together_have_all_their_share_as_a_group() -> None:
    alone = sensitivity(cheap, [[1], [2]], 4, seed=3)
    together = sensitivity(cheap, [slice(1, 3)], 4, seed=3)
    assert np.abs(alone.first).max() < 0.05
    assert together.first == pytest.approx(together.total, abs=0.05)
    assert together.total[0] > 0.5


def test_what_hangs_together_counts_as_one() -> None:
    # y = s + t with deviations 1, 1 and correlation 0.8, and z of deviation 1: variance 3.6 and 1
    root = np.linalg.cholesky(np.array([[1.0, 0.8], [0.8, 1.0]]))
    found = sensitivity(lambda x: (x[:, :2] @ root.T).sum(axis=1) + x[:, 2], [slice(0, 2), [2]], 3, seed=4)
    assert found.first == pytest.approx([3.6 / 4.6, 1.0 / 4.6], abs=0.01)


def test_large_values_are_as_well_told_as_small_ones() -> None:
    plain = sensitivity(cheap, [[0], [1]], 4, seed=5)
    lifted = sensitivity(lambda x: 1e6 + cheap(x), [[0], [1]], 4, seed=5)
    assert lifted.first == pytest.approx(plain.first, abs=1e-6)


def test_is_the_same_each_time_and_another_with_another_seed() -> None:
    first, again, other = (sensitivity(cheap, [[0]], 4, seed=seed) for seed in (6, 6, 7))
    assert first.first == again.first
    assert first.first != other.first


def test_an_answer_without_spread_has_no_shares() -> None:
    found = sensitivity(lambda x: np.full(len(x), 65.0), [[0], [1]], 2, seed=8)
    assert found.variance == 0.0
    assert found.total.tolist() == [0.0, 0.0]
