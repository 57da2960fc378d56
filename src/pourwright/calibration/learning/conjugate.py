"""Updates in closed form: normal with known scatter, counts of failures."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq
from scipy.special import betaincinv


@dataclass(frozen=True, slots=True)
class Normal:
    """A normal belief: mean and standard deviation."""

    mean: float
    deviation: float


@dataclass(frozen=True, slots=True)
class Beta:
    """A belief about a rate, as if ``failed`` of ``failed + went_well`` had been seen."""

    failed: float
    went_well: float

    @property
    def mean(self) -> float:
        """Expected rate [-]."""
        return self.failed / (self.failed + self.went_well)

    def quantile(self, share: float) -> float:
        """Rate below which this share of the belief lies [-]."""
        return float(betaincinv(self.failed, self.went_well, share))


def updated(prior: Normal, values: Sequence[float], deviations: Sequence[float]) -> Normal:
    """Join a normal belief with readings of known scatter.

    mean' = (mean/s0^2 + sum y/s^2) / (1/s0^2 + sum 1/s^2): Gelman et al., Bayesian Data Analysis, ch. 2
    (citation from memory).
    """
    precise = np.array([1.0 / prior.deviation**2, *(1.0 / each**2 for each in deviations)])
    told = np.array([prior.mean, *values])
    return Normal(float(precise @ told / precise.sum()), float(precise.sum() ** -0.5))


def counted(prior: Beta, failed: float, trials: float) -> Beta:
    """Join a belief about a rate with a count.

    Beta(a, b) becomes Beta(a + y, b + n - y): Gelman et al., Bayesian Data Analysis, ch. 2 (from memory).
    """
    return Beta(prior.failed + failed, prior.went_well + trials - failed)


def beta_of_band(value: float, low: float, high: float) -> Beta:
    """Find the belief with this mean whose band of four in five is as wide as the one told."""
    wanted = high - low

    def too_wide(size: float) -> float:
        ends = betaincinv(value * size, (1.0 - value) * size, [0.1, 0.9])
        return float(ends[1] - ends[0]) - wanted

    # a rate with little seen is no wider than the whole span from nothing to all
    size = 2.0 if too_wide(2.0) < 0.0 else brentq(too_wide, 2.0, 1e7)
    return Beta(value * size, (1.0 - value) * size)
