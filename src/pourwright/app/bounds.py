"""Limits on one pour that need no heat run: the head of liquid, the day's length, the way through glass."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.app.setup import Setup, working_hours
from pourwright.materials.batches import time_to_pour
from pourwright.planner.model import Bound
from pourwright.pour.site import Site
from pourwright.pour.soaking import soak_margin

LEVELS = 65
HOUR = 3600.0


@dataclass(frozen=True)
class LiquidDepth:
    """No more than so deep a liquid stands over the mold's floor at a time.

    Below it all has gelled before a pour goes on: only the pour itself is liquid.

    Parameters
    ----------
    most : float
        [m]
    """

    most: float
    name: str = "head"

    def excess(self, lower: float, upper: float) -> float:
        """How much deeper a pour is [m]."""
        return upper - lower - self.most


@dataclass(frozen=True)
class DayLength:
    """One person mixes and pours all batches of a pour within the shop's hours.

    Parameters
    ----------
    levels : tuple of float
        Rising [m].
    taken : tuple of float
        Time to mix and pour from the floor up to each [s].
    most : float
        [s]
    """

    levels: tuple[float, ...]
    taken: tuple[float, ...]
    most: float
    name: str = "day"

    def excess(self, lower: float, upper: float) -> float:
        """How much longer a pour takes [s]."""
        begin, end = np.interp((lower, upper), self.levels, self.taken)
        return float(end - begin) - self.most


@dataclass(frozen=True)
class SoakThrough:
    """The resin runs through its dry glass before it is too thick.

    Parameters
    ----------
    site : Site
        With beds that know their grain.
    """

    site: Site
    name: str = "soak"

    def excess(self, lower: float, upper: float) -> float:
        """Share of the flow that is missing [-]."""
        return -soak_margin(self.site, lower, upper, 0.0)


def bounds_of(setup: Setup, site: Site) -> tuple[Bound, ...]:
    """List what a pour of a job must keep besides its heat.

    Parameters
    ----------
    setup : Setup
        With mold, fill and the shop's hours.
    site : Site
        The casting.

    Returns
    -------
    tuple of Bound
    """
    depth = setup.job.limits.liquid_depth
    found: list[Bound] = [_day(setup), SoakThrough(site)]
    if depth is not None:
        found.append(LiquidDepth(depth.si))
    return tuple(found)


def _day(setup: Setup) -> DayLength:
    levels = np.linspace(0.0, setup.piece.frame.height, LEVELS)
    masses = [setup.fill.resin_between(0.0, float(level)).total if level else 0.0 for level in levels]
    pace = setup.paces.pouring
    taken = [pace * time_to_pour(setup.batches(mass)) if mass > 0.0 else 0.0 for mass in masses]
    hours = working_hours(setup.job)
    day = (hours.closes.hour - hours.opens.hour) * HOUR + (hours.closes.minute - hours.opens.minute) * 60.0
    return DayLength(tuple(levels.tolist()), tuple(np.maximum.accumulate(taken).tolist()), max(day, HOUR))
