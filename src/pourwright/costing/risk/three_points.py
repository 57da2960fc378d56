"""A number known by three points: the least, the likeliest and the most that it may be."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from scipy.special import betaincinv

from pourwright.foundation.errors import UserError

Array = NDArray[np.float64]
Law = Literal["triangular", "PERT"]
TENTH = 0.1
ROUND_OFF = 1e-9
ROUNDS = 200


@dataclass(frozen=True, slots=True)
class ThreePoints:
    """A number between two ends.

    Parameters
    ----------
    low, likely, high : float
        In any one unit, in this order.
    law : str
        "triangular", or "PERT", which trusts the likeliest more.

    Raises
    ------
    UserError
        Where they are not in order.

    Notes
    -----
    PERT is a beta law with the mean (a + 4 m + b) / 6 and the deviation (b - a) / 6 of Malcolm et al.
    [malcolm-1959].

    Examples
    --------
    >>> ThreePoints(4, 5, 9).mean, ThreePoints(4, 5, 9, "PERT").mean
    (6.0, 5.5)
    """

    low: float
    likely: float
    high: float
    law: Law = "triangular"

    def __post_init__(self) -> None:
        """Refuse what is not in order."""
        if not self.low <= self.likely <= self.high:
            raise UserError(
                f"{self.low:g}, {self.likely:g}, {self.high:g} are not in order",
                allowed="the least, the likeliest, the most",
                todo="mend them",
            )

    @property
    def sure(self) -> bool:
        """Whether it is known exactly, but for round-off."""
        return self.high - self.low <= ROUND_OFF * max(abs(self.low), abs(self.high))

    @property
    def mean(self) -> float:
        """Mean over many."""
        weight = 4.0 if self.law == "PERT" else 1.0
        return (self.low + weight * self.likely + self.high) / (2.0 + weight)

    @property
    def deviation(self) -> float:
        """Standard deviation."""
        if self.law == "PERT":
            return (self.high - self.low) / 6.0
        below, above = self.likely - self.low, self.high - self.likely
        return float(np.sqrt((below**2 + above**2 + below * above) / 18.0))

    def at(self, shares: Array) -> Array:
        """Value that a share of all lies below.

        Parameters
        ----------
        shares : array
            Between 0 and 1 [-].

        Returns
        -------
        array
            In the unit of the points.
        """
        if self.sure:
            return np.full(np.shape(shares), self.likely)
        return self._pert(shares) if self.law == "PERT" else self._triangular(shares)

    def _triangular(self, shares: Array) -> Array:
        width, below, above = self.high - self.low, self.likely - self.low, self.high - self.likely
        low = self.low + np.sqrt(shares * width * below)
        return np.asarray(
            np.where(shares * width < below, low, self.high - np.sqrt((1 - shares) * width * above))
        )

    def _pert(self, shares: Array) -> Array:
        width = self.high - self.low
        middle = (self.mean - self.low) / width
        # beta with that mean and a deviation of a sixth of its width
        both = middle * (1.0 - middle) * 36.0 - 1.0
        return np.asarray(self.low + width * betaincinv(both * middle, both * (1.0 - middle), shares))


def from_tenths(low: float, likely: float, high: float) -> ThreePoints:
    """Find the triangle of which one in ten lies below and one in ten above.

    Parameters
    ----------
    low, high : float
        One in ten lies beyond each.
    likely : float
        Between them.

    Returns
    -------
    ThreePoints
        Wider than the band it was made from.

    Examples
    --------
    >>> band = from_tenths(0.05, 0.10, 0.15)
    >>> band.at(np.array([0.1, 0.9])).round(6).tolist()
    [0.05, 0.15]
    """
    below, above = likely - low, high - likely
    down, up = below, above
    for _ in range(ROUNDS):
        width = down + up
        down, up = below + np.sqrt(TENTH * width * down), above + np.sqrt(TENTH * width * up)
    return ThreePoints(float(likely - down), likely, float(likely + up))
