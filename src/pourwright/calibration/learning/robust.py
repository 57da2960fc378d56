"""A shop's own value from records of which one in ten is bad: on a grid, where nothing can get stuck."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from pourwright.calibration.learning.conjugate import Normal

Array = NDArray[np.float64]
BAD = 0.10
"""Share of records that are bad."""
WIDE = 10.0
"""How much wider bad records scatter."""
LOOSE = 0.4
"""Standard deviation of the logarithm of a shop's own scatter around the usual one."""
POINTS, SCATTERS = 401, 15
REACH = 6.0


@dataclass(frozen=True, eq=False)
class Robust:
    """What records say of a value and of their scatter.

    Parameters
    ----------
    values : array (n,)
        The value [on its scale].
    chance : array (n,)
        Of each, summing to one.
    scatter : float
        Expected scatter of a good record.
    bad : tuple of float
        Chance of each record to be bad.
    """

    values: Array
    chance: Array
    scatter: float
    bad: tuple[float, ...]

    @property
    def mean(self) -> float:
        """Expected value."""
        return float(self.values @ self.chance)

    @property
    def deviation(self) -> float:
        """Its standard deviation."""
        return float(np.sqrt(self.chance @ (self.values - self.mean) ** 2))

    @cached_property
    def _below(self) -> Array:
        return np.asarray(np.cumsum(self.chance) - 0.5 * self.chance)

    def quantile(self, share: float) -> float:
        """Value below which this share lies."""
        return float(np.interp(share, self._below, self.values))


@dataclass(frozen=True, eq=False)
class Weighing:
    """Records weighed on one grid of values and scatters.

    Parameters
    ----------
    values, scatters : array
        The grid.
    prior : array (n, m)
        Logarithm of the chance of each pair before any record.
    good, either : tuple of array (n, m)
        Of each record: logarithm of its likelihood as a good one, and as a good or a bad one.
    """

    values: Array
    scatters: Array
    prior: Array
    good: tuple[Array, ...]
    either: tuple[Array, ...]

    def settled(self, without: int | None = None) -> Robust:
        """What the records say, all of them or all but one."""
        kept = [each for number, each in enumerate(self.either) if number != without]
        chance = self._chance(sum(kept, self.prior))
        bad = tuple(
            float(1.0 - np.sum(chance * np.exp(g - e))) for g, e in zip(self.good, self.either, strict=True)
        )
        return Robust(self.values, chance.sum(axis=1), float(chance.sum(axis=0) @ self.scatters), bad)

    def _chance(self, logarithm: Array) -> Array:
        chance = np.exp(logarithm - logarithm.max())
        # an uneven grid: each value stands for its share of the span
        chance *= np.gradient(self.values)[:, None]
        return np.asarray(chance / chance.sum())


def weigh(
    prior: Normal,
    values: Sequence[float],
    deviations: Sequence[float],
    usual: float,
    *,
    bad: float = BAD,
    loose: float = LOOSE,
) -> Weighing:
    """Weigh records against a prior and against each other.

    Each record is normal around the shop's value, with the shop's scatter and its own doubt; or, one in
    ten times, ten times as wide. The scatter is log-normal around the usual one. With no bad records and a
    known scatter this is the conjugate normal update.
    """
    told, own = np.array(values, dtype=float), np.array(deviations, dtype=float)
    grid = _grid(prior, told, usual)
    steps = np.linspace(-3.0, 3.0, SCATTERS) if loose > 0.0 else np.zeros(1)
    scatters = usual * np.exp(loose * steps)
    before = -0.5 * ((grid - prior.mean) / prior.deviation) ** 2
    good, either = _likelihoods(grid, scatters, told, own, bad)
    return Weighing(grid, scatters, before[:, None] - 0.5 * steps[None, :] ** 2, tuple(good), tuple(either))


def _grid(prior: Normal, told: Array, usual: float) -> Array:
    """Fine where records lie, coarse over the rest of the prior."""
    span = prior.mean + REACH * prior.deviation * np.linspace(-1.0, 1.0, POINTS)
    if not told.size:
        return np.asarray(span)
    middle = float(np.median(told))
    near = middle + REACH * usual * np.linspace(-1.0, 1.0, POINTS)
    return np.unique(np.concatenate([span, near]))


def _likelihoods(
    grid: Array, scatters: Array, told: Array, own: Array, bad: float
) -> tuple[list[Array], list[Array]]:
    """Logarithms of a record's likelihood as a good one, and as either."""
    good, either = [], []
    for value, doubt in zip(told, own, strict=True):
        spread = np.sqrt(scatters**2 + doubt**2)[None, :]
        apart = (grid[:, None] - value) / spread
        plain = np.log1p(-bad) - 0.5 * apart**2 - np.log(spread)
        good.append(plain)
        if bad <= 0.0:
            either.append(plain)
            continue
        wide = np.log(bad) - 0.5 * (apart / WIDE) ** 2 - np.log(WIDE * spread)
        either.append(np.logaddexp(plain, wide))
    return good, either
