"""A leak under the head that is left, of a liquid that thickens until it gels."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.foundation.checks import Range, checked

Array = NDArray[np.float64]
NOT_NEGATIVE = Range(0.0)
LEAST_HEAD = 1e-4
"""Head below which nothing runs any more [m]: a drop at the way out holds as much back."""


@dataclass(frozen=True, slots=True, eq=False)
class Thickens:
    """How much a liquid can flow from the time it is poured.

    Parameters
    ----------
    times : array (n,)
        After the pour began, rising; it gels at the last of them [s].
    fluidity : array (n,)
        Integral of one over its viscosity until then [1/Pa].
    """

    times: Array
    fluidity: Array

    def until(self, time: float) -> float:
        """Integral of one over the viscosity until a time [s] after the pour began [1/Pa]."""
        return float(np.interp(time, self.times, self.fluidity))

    @property
    def gels_after(self) -> float:
        """When nothing flows any more [s]."""
        return float(self.times[-1])

    def thin(self, time: float) -> float:
        """One over the viscosity at a time [s] after the pour began [1/(Pa s)]; 0 once it has gelled."""
        step = self.gels_after / 500.0
        end = min(time + step, self.gels_after)
        begun = end - step
        return 0.0 if time >= self.gels_after else (self.until(end) - self.until(begun)) / step


@dataclass(frozen=True, slots=True, eq=False)
class Falling:
    """A level that falls through one hole.

    Make it with `falling`.

    Parameters
    ----------
    hole : float
        Height of the hole from the mold's floor [m].
    heights : array (n,)
        Rising, all above the hole [m].
    spent : array (n,)
        Integral of dV / (z - hole) up to each height [m2].
    """

    hole: float
    heights: Array
    spent: Array

    def constant(self, high: float, low: float, fluidity: float) -> float:
        """Leak constant by which the level fell from one height to another.

        Parameters
        ----------
        high, low : float
            Levels [m].
        fluidity : float
            Integral of one over the viscosity meanwhile [1/Pa].

        Returns
        -------
        float
            dV/dt = - constant (z - hole) / viscosity, [Pa m2].
        """
        gone = np.interp(high, self.heights, self.spent) - np.interp(low, self.heights, self.spent)
        return float(max(gone, 0.0) / fluidity) if fluidity > 0.0 else 0.0

    def after(self, level: float, constant: float, fluidity: float) -> float:
        """Level once the liquid has flowed on.

        Parameters
        ----------
        level : float
            Now [m].
        constant : float
            From `constant` [Pa m2].
        fluidity : float
            Integral of one over the viscosity from now on [1/Pa].

        Returns
        -------
        float
            [m]; it never falls below the hole.
        """
        if level <= self.heights[0]:
            return level
        left = float(np.interp(level, self.heights, self.spent)) - constant * fluidity
        return float(np.interp(left, self.spent, self.heights))

    def rate(self, level: float, constant: float, thin: float) -> float:
        """What runs out now [m3/s], ``thin`` being one over the viscosity [1/(Pa s)]."""
        return constant * max(level - self.hole, 0.0) * thin


def falling(heights: Array, volumes: Array, hole: float) -> Falling:
    """Prepare the fall of a level through a hole.

    Parameters
    ----------
    heights, volumes : array (n,)
        Liquid below each height, rising [m], [m3].
    hole : float
        Where it runs out, from the mold's floor [m].

    Returns
    -------
    Falling

    Notes
    -----
    Plane Poiseuille flow through a gap h wide, l long, L deep: Q = rho g h^3 l / (12 L) (z - z_h) / mu.
    With K = rho g h^3 l / (12 L) and d phi = dt / mu the viscosity drops out: dV / (z - z_h) = - K d phi.
    Steps are summed with the logarithmic mean of the head, exact where the section does not change.

    References
    ----------
    Plane Poiseuille flow, any text on fluid mechanics [plane-poiseuille].

    Examples
    --------
    A tube of 0.01 m2, its level 0.2 m over the hole: K phi of 0.01 m2 leaves one part in e of it.

    >>> heights = np.linspace(0.0, 0.2, 801)
    >>> print(f"{falling(heights, 0.01 * heights, 0.0).after(0.2, 0.01, 1.0):.5f} m")
    0.07358 m
    """
    above = heights > hole + LEAST_HEAD
    first = hole + LEAST_HEAD
    z = np.concatenate([[first], heights[above]]) if first < heights[-1] else np.array([first, first + 1e-9])
    volume = np.interp(z, heights, volumes)
    head = z - hole
    step = np.diff(volume) * np.log(head[1:] / head[:-1]) / np.diff(head)
    return Falling(hole, z, np.concatenate([[0.0], np.cumsum(step)]))


@checked(time=NOT_NEGATIVE)
def gels_before(thickens: Thickens, time: float) -> bool:
    """Say whether a liquid has gelled by a time.

    Parameters
    ----------
    thickens : Thickens
        How it thickens.
    time : float
        After the pour began [s].

    Returns
    -------
    bool
    """
    return time >= thickens.gels_after
