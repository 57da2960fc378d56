"""Which casting to plan for, so that a limit is kept with a stated probability.

First-order reliability: of all castings that just reach the limit, the likeliest lies where the
straight line of steepest heating meets the limit, ``beta`` standard deviations away; those beyond
it are as many as the normal distribution has beyond ``beta`` (Hasofer & Lind 1974). How steeply a
peak climbs near run-away does not matter: only where the limit lies. An ensemble checks it afterwards.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtri

from pourwright.planner.grids import layers_of
from pourwright.planner.model import Wish
from pourwright.pour.doubt import Doubt
from pourwright.pour.follow import NEVER, Goal, follow
from pourwright.pour.layout import lay_out
from pourwright.pour.site import Site
from pourwright.pour.stages import add_pour, cured_ground
from pourwright.pour.store import Map, in_turn
from pourwright.solver import Control

Array = NDArray[np.float64]
BEYOND = 0.15
STEP = 0.5
"""Of a deviate, from the likely casting to its neighbour."""
SPACING, PARTS = 0.03, 6
HALVINGS = 6


@dataclass(frozen=True)
class ColdPour:
    """One pour on ground that is cured and as cold as the shop.

    Parameters
    ----------
    site : Site
        One casting.
    lower, upper : float
        Levels [m].
    cap : float
        Temperature beyond which it is not followed [K].
    """

    site: Site
    lower: float
    upper: float
    cap: float = NEVER

    def peak(self) -> float:
        """Hottest place [K]."""
        levels = [level for level in (self.lower, self.upper) if level > 0.0]
        spacing = max(SPACING, min(self.site.block.inside) / 12)
        layout = lay_out(self.site, spacing, levels, layers=layers_of(levels, self.site.block, PARTS))
        stage = add_pour(cured_ground(layout, self.lower), self.upper)
        control = Control(tolerance=0.3, max_step=3600.0)
        return follow(stage, Goal.PEAK, stop_above=self.cap, control=control).peak


def peak_of(pour: ColdPour) -> float:
    """Run one pour; for a map over processes.

    Parameters
    ----------
    pour : ColdPour
        What is poured.

    Returns
    -------
    float
        Hottest place [K].
    """
    return pour.peak()


def hot_direction(doubt: Doubt, wish: Wish, limit: float, each: Map = in_turn) -> Array:
    """Find in which direction of the doubts the hottest pour runs towards its limit.

    Parameters
    ----------
    doubt : Doubt
        What is not known exactly.
    wish : Wish
        Levels.
    limit : float
        Hottest the casting may get [K].
    each : Map
        Runs the neighbours.

    Returns
    -------
    array (size,)
        Of length 1; zeros where nothing changes the peak.
    """
    likely = doubt.site(np.zeros(doubt.size))
    lower, upper = _near_the_limit(likely, wish, limit)
    neighbours = [doubt.site(STEP * row) for row in np.eye(doubt.size)]
    peaks = each(peak_of, [ColdPour(site, lower, upper) for site in (likely, *neighbours)])
    rises = np.log(np.maximum(np.array(peaks) - likely.climate.mean, 0.1))
    slopes: Array = rises[1:] - rises[0]
    length = float(np.linalg.norm(slopes))
    return slopes / length if length > 0.0 else slopes


def _near_the_limit(site: Site, wish: Wish, limit: float) -> tuple[float, float]:
    """The pour, of those that start at a bed's floor, that is hottest, as deep as it may be."""
    floors = [0.0, *(level for level in site.borders if level in wish.levels)]
    deepest = [(floor, wish.above(floor)) for floor in floors if wish.above(floor)]
    cap = limit + 30.0
    peaks = [ColdPour(site, floor, above[-1], cap).peak() for floor, above in deepest]
    floor, above = deepest[int(np.argmax(peaks))]
    low, high = -1, len(above) - 1
    if max(peaks) > limit:
        while high - low > 1:
            middle = (low + high) // 2
            if ColdPour(site, floor, above[middle], cap).peak() > limit:
                high = middle
            else:
                low = middle
    return floor, above[max(low, 0) if max(peaks) > limit else high]


def aim(probability: float) -> float:
    """How far to plan ahead in the direction that runs hot, in standard deviations.

    Parameters
    ----------
    probability : float
        With which a limit is to be kept [-].

    Returns
    -------
    float
        A little more than `deviations`: the direction is that of one pour, and the others, on other
        ground, go over a little more often than it says.
    """
    far = deviations(probability)
    return far + BEYOND if far > 0.0 else far


def deviations(probability: float) -> float:
    """Standard deviations that a probability reaches: 1.64 for 0.95.

    Parameters
    ----------
    probability : float
        Above 0 and below 1 [-].

    Returns
    -------
    float
        [-].

    Examples
    --------
    >>> round(deviations(0.95), 4)
    1.6449
    """
    return float(ndtri(probability))
