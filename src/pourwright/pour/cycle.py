"""A temperature written point by point, in the place of the shop's air."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import ceil

import numpy as np

from pourwright.pour.climate import Climate


@dataclass(frozen=True)
class Cycle(Climate):
    """Temperature around a casting as a function of elapsed time.

    Parameters
    ----------
    times : tuple of float
        Rising [s].
    temperatures : tuple of float
        At these times [K]; straight lines between, level before and after.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> from zoneinfo import ZoneInfo
    >>> oven = Cycle(datetime(2027, 1, 4, 9, tzinfo=UTC), ZoneInfo("UTC"), (), (0.0, 600.0), (293.15, 353.15))
    >>> oven.temperature(300.0), oven.temperature(1e6), oven.warmest
    (323.15, 353.15, 353.15)
    """

    times: tuple[float, ...] = ()
    temperatures: tuple[float, ...] = ()

    def temperature(self, time: float) -> float:
        """Temperature [K] at ``time`` seconds after zero."""
        return float(np.interp(time, self.times, self.temperatures))

    @cached_property
    def warmest(self) -> float:
        """Highest temperature [K]."""
        return max(self.temperatures)

    @cached_property
    def mean(self) -> float:
        """Mean over the times given [K]."""
        if len(self.times) == 1:
            return self.temperatures[0]
        spans, heat = np.diff(self.times), np.array(self.temperatures)
        return float((spans * (heat[1:] + heat[:-1])).sum() / (2.0 * spans.sum()))

    @property
    def typical(self) -> tuple[float, ...]:
        """Temperatures at which films are tabulated [K]: coldest to warmest, 10 K apart at most."""
        coldest = min(self.temperatures)
        count = 1 + ceil((self.warmest - coldest) / 10.0)
        return tuple(np.linspace(coldest, self.warmest, count).tolist())
