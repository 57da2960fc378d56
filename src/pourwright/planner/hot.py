"""Which casting to plan for, so that a limit is kept with a stated probability.

First-order reliability: of all castings that just reach the limit, the likeliest lies where the
straight line of steepest heating meets the limit, ``beta`` standard deviations away; those beyond
it are as many as the normal distribution has beyond ``beta`` (Hasofer & Lind 1974). How steeply a
peak climbs near run-away does not matter: only where the limit lies. An ensemble checks it afterwards.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtri

from pourwright.planner.grids import layers_of
from pourwright.planner.model import Wish
from pourwright.pour.doubt import Doubt
from pourwright.pour.follow import NEVER, Goal, follow
from pourwright.pour.layout import lay_out
from pourwright.pour.site import Bed, Site
from pourwright.pour.stages import add_pour, cured_ground
from pourwright.pour.store import Map, in_turn
from pourwright.solver import Control

Array = NDArray[np.float64]
STEP = 0.5
"""Of a deviate, from the likely casting to its neighbour."""
SPACING, PARTS = 0.03, 6


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


def hot_directions(doubt: Doubt, wish: Wish, limit: float, each: Map = in_turn) -> tuple[Array, ...]:
    """Find in which directions of the doubts pours run towards their limit, one for each kind of bed.

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
    tuple of array (size,)
        Each of length 1; zeros where nothing changes the peak. A neat bed does not ask how the glass
        packs, a filled one does.
    """
    likely = doubt.site(np.zeros(doubt.size))
    sites = [likely, *(doubt.site(STEP * row) for row in np.eye(doubt.size))]
    places = _near_the_limit(likely, wish, limit)
    if not places:
        return (np.zeros(doubt.size),)
    peaks = each(peak_of, [ColdPour(site, *place) for place in places for site in sites])
    rises = np.log(np.maximum(np.array(peaks) - likely.climate.mean, 0.1)).reshape(len(places), -1)
    slopes = rises[:, 1:] - rises[:, :1]
    lengths = np.linalg.norm(slopes, axis=1, keepdims=True)
    return tuple(np.divide(slopes, lengths, out=np.zeros_like(slopes), where=lengths > 0.0))


def envelope(directions: Sequence[Array]) -> Array:
    """Take of each doubt what the pour that feels it most makes of it.

    Parameters
    ----------
    directions : sequence of array (size,)
        From `hot_directions`.

    Returns
    -------
    array (size,)
        As long as the longest or longer: a casting so far away is hot enough for each kind of bed.

    Examples
    --------
    >>> envelope([np.array([0.8, -0.6, 0.0]), np.array([0.6, -0.48, 0.64])]).tolist()
    [0.8, -0.6, 0.64]
    """
    every = np.array(directions)
    return np.asarray(every[np.argmax(np.abs(every), axis=0), np.arange(every.shape[1])])


def _near_the_limit(site: Site, wish: Wish, limit: float) -> list[tuple[float, float]]:
    """Of each kind of bed the pour that starts at its floor and is hottest, not deeper than it may be."""
    floors = {bed.solid_fraction > 0.0: bed.lower for bed in reversed(_deepest(site))}
    return [_within(site, wish, floor, limit) for floor in floors.values() if wish.above(floor)]


def _deepest(site: Site) -> list[Bed]:
    """Beds by their depth, the deepest first."""
    return sorted(site.beds, key=lambda bed: bed.lower - bed.upper)


def _within(site: Site, wish: Wish, floor: float, limit: float) -> tuple[float, float]:
    above, cap = wish.above(floor), limit + 30.0
    low, high = -1, len(above)
    # by halving: the deepest pour that the likely casting still keeps its limit with
    while high - low > 1:
        middle = (low + high) // 2
        if ColdPour(site, floor, above[middle], cap).peak() > limit:
            high = middle
        else:
            low = middle
    return floor, above[max(low, 0)]


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
