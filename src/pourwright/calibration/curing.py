"""One body run through its cure, and what is read from it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from pourwright.calibration.bodies import Body
from pourwright.calibration.body_kernel import Numbers, Shape, run
from pourwright.calibration.parameters import Resin

Array = NDArray[np.float64]
CURE_STEP, HEAT_STEP, PAUSE_SHARE = 0.06, 1.2, 0.4
LEAST_PAUSE, LONGEST = 240.0, 2400.0
FOREVER = 1e8
"""Longer than any test [s]."""
PROBE, HOTTEST, MEAN, LEAST = 2, 3, 4, 5
"""What a run may be stopped by: cure of the probe, highest temperature, cure on average, least cure."""


@dataclass(frozen=True, eq=False)
class Air:
    """Temperature of the air over time, straight between its points.

    Parameters
    ----------
    time : array
        [s].
    temperature : array
        [K].
    """

    time: Array
    temperature: Array

    @cached_property
    def integral(self) -> tuple[Array, Array]:
        """Times [s] and the integral of the temperature up to them [K s], held on beyond both ends."""
        time = np.r_[-FOREVER, self.time, FOREVER]
        values = np.r_[self.temperature[0], self.temperature, self.temperature[-1]]
        pieces = np.diff(time) * (values[1:] + values[:-1]) / 2
        return time, np.r_[0.0, np.cumsum(pieces)]

    @classmethod
    def steady(cls, temperature: float) -> Air:
        """Air of one temperature [K]."""
        return cls(np.array([0.0, 1.0]), np.array([temperature, temperature]))


@dataclass(frozen=True, eq=False)
class Trace:
    """How a body cured, step by step.

    Parameters
    ----------
    time : array (n,)
        Since the pour [s].
    probe, probe_cure : array (n,)
        Temperature [K] and conversion [-] on the axis at the height of the probe.
    hottest : array (n,)
        Of all cells [K].
    mean_cure, least_cure : array (n,)
        Conversion on average and of the least-cured cell [-].
    """

    time: Array
    probe: Array
    probe_cure: Array
    hottest: Array
    mean_cure: Array
    least_cure: Array

    @property
    def peak(self) -> float:
        """Highest temperature, by a parabola through the three highest steps [K]."""
        top = int(self.hottest.argmax())
        if not 0 < top < self.time.size - 1:
            return float(self.hottest[top])
        t, y = self.time[top - 1 : top + 2] - self.time[top], self.hottest[top - 1 : top + 2]
        bend, slope, level = np.polyfit(t, y, 2)
        return float(level - slope**2 / (4.0 * bend)) if bend < 0 else float(y[1])

    def when(self, cure: Array, reached: float) -> float:
        """Time at which a rising cure reaches a value [s]; beyond the run it is carried on.

        Parameters
        ----------
        cure : array (n,)
            One of the conversions of this trace.
        reached : float
            Conversion asked for [-].

        Returns
        -------
        float
            [s]; later than the run where it was not reached, growing with what is missing.
        """
        if cure[-1] >= reached:
            return float(np.interp(reached, np.maximum.accumulate(cure), self.time))
        # a smooth stand-in for "not within the run", so that a fit still sees which way to go
        return float(self.time[-1] * (1.0 + 20.0 * (reached - cure[-1])))


def cure_body(
    resin: Resin,
    body: Body,
    air: Air,
    start: float,
    end: float,
    *,
    probe: float = 0.5,
    stop: tuple[int, float] = (LEAST, 2.0),
    stop_cooled: float = 2.0,
) -> Trace:
    """Run a body of resin from its pour.

    Parameters
    ----------
    resin : Resin
        What it is made of.
    body : Body
        Its shape and what it stands in.
    air : Air
        Around it.
    start : float
        Temperature of the fresh mix [K].
    end : float
        Longest time [s].
    probe : float
        Height of the probe as a share of the depth [-].
    stop : tuple
        End when this (`PROBE`, `HOTTEST`, `MEAN` or `LEAST`) has come so far [- or K].
    stop_cooled : float
        End when so much of the warming is gone again [-]; above 1 never.

    Returns
    -------
    Trace
    """
    shape = Shape(
        body.area, body.face, body.width, body.tables, body.resistance, *air.integral
    )  # fmt: skip
    numbers = Numbers(
        body.layers,
        body.height,
        0.0 if body.steady else resin.heat_of_reaction / resin.heat_capacity,
        start,
        resin.start_cure,
        resin.conductivity,
        resin.density * resin.heat_capacity,
        resin.film,
        probe,
        end,
        *stop,
        stop_cooled,
        CURE_STEP,
        HEAT_STEP,
        LONGEST if body.steady else min(max(PAUSE_SHARE * body.pause, LEAST_PAUSE), LONGEST),
    )
    rows = run(resin.law.row, shape, numbers)
    return Trace(rows[:, 0], rows[:, 1], rows[:, 2], rows[:, 3], rows[:, 4], rows[:, 5])
