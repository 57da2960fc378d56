"""Shares of variance of two functions whose shares are known in closed form.

Ishigami & Homma, Proc. ISUMA (1990) 398: sin x1 + 7 sin^2 x2 + 0.1 x3^4 sin x1, each x even between -pi
and pi; shares from the closed form of its variance, printed to four digits in Saltelli et al., Sensitivity
Analysis (2000). Sobol', Math. Model. Comput. Exp. 1 (1993) 407: product of (|4 x - 2| + a) / (1 + a), each
x even between 0 and 1; closed form. Estimators: Saltelli et al., Comput. Phys. Commun. 181 (2010) 259.
None of these was before us: from memory.
"""

import numpy as np
import pytest
from scipy.special import ndtr

from pourwright.solver.sensitivity import sensitivity

SINGLE = [[0], [1], [2]]


def ishigami(deviates: np.ndarray) -> np.ndarray:
    x = np.pi * (2.0 * ndtr(deviates) - 1.0)
    return np.sin(x[:, 0]) + 7.0 * np.sin(x[:, 1]) ** 2 + 0.1 * x[:, 2] ** 4 * np.sin(x[:, 0])


def ishigami_shares(a: float = 7.0, b: float = 0.1) -> tuple[np.ndarray, np.ndarray]:
    """First order and total, from the integrals of the function."""
    variance = a**2 / 8 + b * np.pi**4 / 5 + b**2 * np.pi**8 / 18 + 0.5
    first = np.array([0.5 * (1 + b * np.pi**4 / 5) ** 2, a**2 / 8, 0.0])
    together = 8 * b**2 * np.pi**8 / 225
    return first / variance, (first + np.array([together, 0.0, together])) / variance


def test_the_closed_form_is_the_printed_one() -> None:
    first, total = ishigami_shares()
    assert first == pytest.approx([0.3139, 0.4424, 0.0], abs=5e-5)
    assert total == pytest.approx([0.5576, 0.4424, 0.2437], abs=5e-5)


def test_shares_of_ishigami() -> None:
    first, total = ishigami_shares()
    found = sensitivity(ishigami, SINGLE, 3, seed=0, count=1024)
    assert found.first == pytest.approx(first, abs=0.01)
    assert found.total == pytest.approx(total, abs=0.01)
    assert found.variance == pytest.approx(13.8446, rel=0.01)


@pytest.mark.parametrize("a", [(0.0, 1.0, 4.5, 9.0, 99.0, 99.0), (0.5, 0.5, 0.5)])
def test_shares_of_the_g_function(a: tuple[float, ...]) -> None:
    own = 1.0 / (3.0 * (1.0 + np.array(a)) ** 2)
    variance = np.prod(1.0 + own) - 1.0
    first, total = own / variance, own * np.prod(1.0 + own) / (1.0 + own) / variance

    def g(deviates: np.ndarray) -> np.ndarray:
        return np.prod((np.abs(4.0 * ndtr(deviates) - 2.0) + a) / (1.0 + np.array(a)), axis=1)

    found = sensitivity(g, [[place] for place in range(len(a))], len(a), seed=1, count=1024)
    assert found.first == pytest.approx(first, abs=0.01)
    assert found.total == pytest.approx(total, abs=0.01)


def test_the_stated_error_holds_in_most_of_many_estimates() -> None:
    first, total = ishigami_shares()
    found = [sensitivity(ishigami, SINGLE, 3, seed=seed, count=64) for seed in range(60)]
    inside = [
        np.abs(np.array([each.first - first, each.total - total]))
        <= np.array([each.first_error, each.total_error])
        for each in found
    ]
    assert 0.7 < np.mean(inside) < 0.92
