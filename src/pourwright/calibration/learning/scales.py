"""Scales on which a number scatters evenly: as it is, by its logarithm, by its odds."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import exp, inf, log
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Scale:
    """A scale.

    Parameters
    ----------
    there, back : callable
        From the number to the scale and back.
    stretch : callable
        How far the scale moves for a small step of the number.
    low, high : float
        The number lies between, ends not included.
    """

    there: Callable[[float], float]
    back: Callable[[float], float]
    stretch: Callable[[float], float]
    low: float = -inf
    high: float = inf


def _odds(share: float) -> float:
    return log(share / (1.0 - share))


def _share(odds: float) -> float:
    return 1.0 / (1.0 + exp(-odds))


SCALES: Mapping[str, Scale] = MappingProxyType(
    {
        "plain": Scale(lambda value: value, lambda value: value, lambda _: 1.0),
        "log": Scale(log, exp, lambda value: 1.0 / value, low=0.0),
        "odds": Scale(_odds, _share, lambda share: 1.0 / (share * (1.0 - share)), low=0.0, high=1.0),
    }
)
"""By name."""
