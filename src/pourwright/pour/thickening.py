"""How a resin held at one temperature thickens on its way to gel."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

import numpy as np
from numpy.typing import NDArray

from pourwright.materials import Resin
from pourwright.materials.batches import MIXING_TIME
from pourwright.physics.cure_law import cure_rate
from pourwright.pour.bucket import viscosity
from pourwright.pour.defaults import DEFAULTS
from pourwright.pour.site import cure_law

Array = NDArray[np.float64]
POINTS = 200
"""Of a resin's way from mixed to gel."""


@dataclass(frozen=True)
class Thickening:
    """How a resin held at one temperature thickens.

    Parameters
    ----------
    times : array (n,)
        From mixing to gel [s].
    fluidity : array (n,)
        Integral of one over the viscosity until then, from when the stream starts [1/Pa].
    limit : float
        When it is too thick to run [s].
    thick : array (n - 1,)
        Viscosity between each two of the times [Pa s].
    """

    times: Array
    fluidity: Array
    limit: float
    thick: Array

    def viscosity_at(self, time: float) -> float:
        """How thick it is at a time [s] from mixing [Pa s]; infinite from the gel on."""
        if time >= self.times[-1]:
            return inf
        return float(np.interp(time, 0.5 * (self.times[1:] + self.times[:-1]), self.thick))

    def until(self, time: float) -> float:
        """How much it can flow until a time [s] from mixing [1/Pa]."""
        return float(np.interp(time, self.times, self.fluidity))

    @property
    def until_gel(self) -> float:
        """How much it can flow until it gels [1/Pa]."""
        return float(self.fluidity[-1])


def thickening(resin: Resin, temperature: float) -> Thickening:
    """Follow a resin from mixed to gel at one temperature.

    Parameters
    ----------
    resin : Resin
        Record.
    temperature : float
        [K].

    Returns
    -------
    Thickening
        Of resin whose own heat the glass takes up. Warmed by it, resin is thinner first and thick sooner.

    Notes
    -----
    Time is the integral of one over the rate along the cure, so nothing is stepped. Too thick is as in the
    pail: above what still pours, or twice as thick as mixed where it is thick from the start.

    Examples
    --------
    >>> from pourwright.materials import load_materials
    >>> slow = thickening(load_materials().resin["epoxy-slow-deep"], 293.15)
    >>> 10 < slow.limit / 3600 < 40 and float(slow.times[-1]) > slow.limit
    True
    """
    cure = resin.cure
    first, gel = cure.initial_conversion.value, cure.gel_conversion.value
    way = first + (gel - first) * np.linspace(0.0, 1.0, POINTS + 1) ** 2
    middle = 0.5 * (way[1:] + way[:-1])
    pace = np.diff(way) / cure_rate(np.full_like(middle, temperature), middle, cure_law(cure))
    times = np.concatenate([[0.0], np.cumsum(pace)])
    thick = viscosity(resin, np.full_like(middle, temperature), middle)
    fluidity = np.concatenate([[0.0], np.cumsum(pace / thick)])
    poured = float(np.interp(MIXING_TIME.value, times, fluidity))
    bound = max(DEFAULTS["pourable_viscosity"].value, 2.0 * float(thick[0]))
    limit = float(np.interp(bound, thick, 0.5 * (times[1:] + times[:-1])))
    return Thickening(times, np.maximum(fluidity - poured, 0.0), limit, thick)
