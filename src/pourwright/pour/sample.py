"""How warm a small sample of a fill gets, on a bench by itself."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import pi, sqrt

import numpy as np
from numpy.typing import NDArray

from pourwright.materials import Glass, Resin
from pourwright.pour.site import fill_properties
from pourwright.pour.vessel import CELLS, Vessel, as_problem
from pourwright.solver import Control, Ending, run, start

Array = NDArray[np.float64]
WATCH = 3 * 86400.0
HOUR = 3600.0


@dataclass
class _Watch:
    """Keeps the hottest moment."""

    peak: float = 0.0
    after: float = 0.0

    def __call__(self, time: float, temperature: Array, conversion: Array) -> None:
        del conversion
        hottest = float(temperature.max())
        if hottest > self.peak:
            self.peak, self.after = hottest, time


@dataclass(frozen=True)
class Warmed:
    """Hottest place [K], when [s after mixing], and whether it ran away."""

    peak: float
    after: float
    ran_away: bool


def sample_warms(
    resin: Resin,
    glass: Glass,
    layers: tuple[tuple[float, float], ...],
    width: float,
    *,
    poured: float,
    shop: float,
) -> Warmed:
    """Pour a square sample all at once and leave it on the bench.

    Parameters
    ----------
    resin, glass : record
        Materials.
    layers : tuple
        Height [m] and solid fraction [-] of each, from below.
    width : float
        Of the sample [m].
    poured, shop : float
        Temperature of the mix with its glass, and of the shop [K].

    Returns
    -------
    Warmed

    Notes
    -----
    Heat conduction with the resin's cure law in a round body of the same section, thin plastic around it,
    its top bare: 10 rings and 10 layers. Rubber around it keeps it a little warmer.

    Examples
    --------
    A cube of 60 mm with 55 % of glass hardly warms up.

    >>> from pourwright.materials import load_materials
    >>> stuff = load_materials()
    >>> slow, crushed = stuff.resin["epoxy-slow-deep"], stuff.glass["soda-lime-crushed"]
    >>> found = sample_warms(slow, crushed, ((0.06, 0.55),), 0.06, poured=295.15, shop=295.15)
    >>> 295.15 < found.peak < 305.15
    True
    """
    depth = sum(height for height, _ in layers)
    vessel = Vessel(2.0 * width / sqrt(pi), depth)
    middles = (np.arange(CELLS) + 0.5) * depth / CELLS
    tops = np.cumsum([height for height, _ in layers])
    mixed = [fill_properties(resin, glass, solid) for _, solid in layers]
    cells = [mixed[int(np.searchsorted(tops, middle).clip(0, len(mixed) - 1))] for middle in middles]
    neat = fill_properties(resin, glass, 0.0)
    bare = as_problem(resin, vessel, shop)
    problem = replace(
        bare,
        volumetric_heat_capacity=bare.volumetric_heat_capacity
        * np.array([(each.resin_capacity + each.glass_capacity) / neat.resin_capacity for each in cells]),
        conductivity=bare.conductivity * np.array([each.conductivity / neat.conductivity for each in cells]),
        heat=bare.heat * np.array([each.heat / neat.heat for each in cells]),
    )
    watch = _Watch()
    begin = start(problem, poured, resin.cure.initial_conversion.value)
    control = Control(tolerance=0.2, max_step=3 * HOUR, cap=600.0)
    outcome = run(problem, begin, WATCH, control=control, observer=watch, threads=1)
    return Warmed(watch.peak, watch.after, outcome.ending is Ending.RUNAWAY)
