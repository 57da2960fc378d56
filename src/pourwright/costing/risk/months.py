"""Many months drawn by chance: the band of profit, the chance to lose money, what matters most."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from pourwright.costing.risk.month import COLUMNS, GROUPS, Month
from pourwright.solver.sensitivity import sensitivity

Array = NDArray[np.float64]
MONTHS = 20_000
SIGMAS = 3.0
TENTHS = (0.1, 0.5, 0.9)


def points_of(seed: int, count: int = MONTHS) -> Array:
    """Draw months: the same for the same seed, whatever is asked of them.

    Parameters
    ----------
    seed : int
        Of the draws.
    count : int
        Months.

    Returns
    -------
    array (count, columns)
        Standard normal deviates, independent.
    """
    return np.random.default_rng(seed).standard_normal((count, len(COLUMNS)))


@dataclass(frozen=True)
class Months:
    """A month drawn many times.

    Parameters
    ----------
    month : Month
        As planned, and how far it may be off.
    seed : int
        Of the draws: two of one seed are of the same orders, failures and prices.
    count : int
        Months.
    """

    month: Month
    seed: int
    count: int = MONTHS

    @cached_property
    def profits(self) -> Array:
        """Of every month [currency]."""
        return self.month.profit(points_of(self.seed, self.count))

    @property
    def mean(self) -> float:
        """Over all [currency]."""
        return float(self.profits.mean())

    @property
    def mean_error(self) -> float:
        """The mean of endless months lies no farther off than this, 997 times in 1000 [currency].

        Central limit theorem: three deviations over the root of their number.
        """
        return float(SIGMAS * self.profits.std() / np.sqrt(self.count))

    @property
    def band(self) -> tuple[float, float, float]:
        """One month in ten brings less than the first, half the middle, one in ten more than the last."""
        low, middle, high = np.quantile(self.profits, TENTHS).tolist()
        return low, middle, high

    @property
    def loses(self) -> float:
        """Share of months that lose money [-]."""
        return float(np.mean(self.profits < 0.0))

    def heights(self, bars: int) -> tuple[Array, Array]:
        """Count months by their profit, between round numbers.

        Parameters
        ----------
        bars : int
            About how many.

        Returns
        -------
        tuple of array
            Share of all months in each bar [-]; their edges, one more [currency]. Beyond one in 200 at
            either end all are in the last one.
        """
        low, high = np.quantile(self.profits, (0.005, 0.995))
        step = _round_step(float(high - low) / bars, abs(float(low)))
        edges = step * np.arange(np.floor(low / step), np.floor(high / step) + 2)
        counts, _ = np.histogram(np.clip(self.profits, edges[0], edges[-1]), edges)
        return counts / self.count, edges

    def matters(self) -> dict[str, tuple[float, float]]:
        """Tell where the spread of profit comes from.

        Returns
        -------
        dict
            By name of a group: share of the variance that goes if it alone were known, and that stays if
            all others were known, the largest first [-].

        Notes
        -----
        Sobol's indices of first order and in total [sobol-indices].
        """
        columns = [[COLUMNS.index(name) for name in names] for names in GROUPS.values()]
        found = sensitivity(self.month.profit, columns, len(COLUMNS), seed=self.seed, count=256, repeats=4)
        told = zip(GROUPS, np.clip(found.first, 0, 1), np.clip(found.total, 0, 1), strict=True)
        return {
            name: (float(first), float(total)) for name, first, total in sorted(told, key=lambda one: -one[2])
        }


def _round_step(least: float, size: float) -> float:
    """The next of 1, 2, 5, 10 and so on; a coarse one where all months are alike."""
    wanted = max(least, 1e-3 * size, 1e-3)
    power = 10.0 ** np.floor(np.log10(wanted))
    return float(next(times * power for times in (1, 2, 5, 10) if times * power >= wanted * (1 - 1e-9)))
