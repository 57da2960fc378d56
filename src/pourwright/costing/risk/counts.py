"""Whole numbers that come by chance: orders of a month, castings that fail, leaks among them.

Each is read off its law at a share of all months, so that a worse chance never gives fewer at the same share.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray
from scipy.special import betainc, pdtr

Array = NDArray[np.float64]
FARTHEST = 40.0
"""Deviations over the mean within which every share lies that a float can tell from 1."""


def orders_at(shares: Array, mean: Array) -> Array:
    """Orders of a month that come one by one.

    Parameters
    ----------
    shares : array
        Of all such months that have no more [-].
    mean : array
        Over many months, 0 or more [-].

    Returns
    -------
    array
        Whole numbers.

    Notes
    -----
    Poisson's law.

    Examples
    --------
    >>> orders_at(np.array([0.1, 0.5, 0.9]), np.array([4.0, 4.0, 4.0])).tolist()
    [2.0, 4.0, 7.0]
    """
    return _least(shares, mean, np.sqrt(mean), lambda k: pdtr(k, mean), mean > 0.0)


def failures_at(shares: Array, good: Array, scrap: Array) -> Array:
    """Castings that fail until so many are good.

    Parameters
    ----------
    shares : array
        Of all such months that have no more [-].
    good : array
        Whole number of good pieces wanted.
    scrap : array
        Chance of a casting to fail, below 1 [-].

    Returns
    -------
    array
        Whole numbers.

    Notes
    -----
    Negative binomial.
    """
    some, kept = np.maximum(good, 1.0), 1.0 - scrap
    mean = good * scrap / kept
    return _least(
        shares, mean, np.sqrt(mean / kept), lambda k: np.asarray(betainc(some, k + 1.0, kept)), good > 0.0
    )


def among_at(shares: Array, count: Array, chance: Array) -> Array:
    """How many of a number are hit, each with the same chance.

    Parameters
    ----------
    shares : array
        Of all such months that have no more [-].
    count : array
        Whole numbers.
    chance : array
        Of each [-].

    Returns
    -------
    array
        Whole numbers.

    Notes
    -----
    Binomial.
    """
    # all of them are a certainty, which the law of fewer does not know
    some = np.maximum(count, 1.0)

    def below(k: Array) -> Array:
        fewer = np.minimum(k, some - 1.0)
        return np.where(k >= count, 1.0, 1.0 - betainc(fewer + 1.0, some - fewer, chance))

    return _least(shares, count * chance, np.sqrt(count * chance * (1.0 - chance)), below, count > 0.0)


def _least(
    shares: Array, mean: Array, deviation: Array, below: Callable[[Array], Array], some: NDArray[np.bool_]
) -> Array:
    """The least whole number that a share lies at or below, by halving."""
    low, high = np.full(len(shares), -1.0), np.ceil(mean + FARTHEST * (deviation + 1.0))
    while np.any(high - low > 1.0):
        middle = np.floor((low + high) / 2.0)
        reached = below(np.maximum(middle, 0.0)) >= shares
        inside = high - low > 1.0
        high, low = np.where(inside & reached, middle, high), np.where(inside & ~reached, middle, low)
    return np.asarray(np.where(some, high, 0.0))
