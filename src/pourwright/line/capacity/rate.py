"""Good pieces a month from so many molds and people, and which of the two is the bottleneck."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

import numpy as np

from pourwright.line.dates.castings import Castings

MONTH = 730.5
"""Hours of a month, a twelfth of 365.25 days."""


@dataclass(frozen=True, slots=True)
class MoldTime:
    """How long a casting keeps its mold.

    Parameters
    ----------
    kept : float
        From its first pour until the mold has rested, begun as early in the week as suits it best [h].
    cycle : float
        From one first pour to the next, nights and days off in it, on average [h].
    """

    kept: float
    cycle: float


@dataclass(frozen=True, slots=True)
class Rate:
    """What a number of molds and people gives.

    Parameters
    ----------
    molds, people : int
        How many.
    pieces : float
        Good ones in a month.
    by_molds, by_people : float
        What the molds alone, and the people alone, would let through.
    """

    molds: int
    people: int
    pieces: float
    by_molds: float
    by_people: float

    @property
    def bottleneck(self) -> Literal["mold", "people"]:
        """What stands in the way of more."""
        return "mold" if self.by_molds <= self.by_people else "people"


def mold_time(castings: Castings) -> MoldTime:
    """Follow one mold, cast again as soon as it can be.

    Parameters
    ----------
    castings : Castings
        Of one product, on half days of some months.

    Returns
    -------
    MoldTime
    """
    starts = [int(castings.next_possible[0])]
    while True:
        _, free, _ = castings.begun(np.array(starts[-1:]), np.ones(1))
        following = int(castings.next_possible[min(int(free[0]), len(castings.halves))])
        if following >= len(castings.halves):
            break
        starts.append(following)
    begins = castings.halves.starts
    every = np.flatnonzero(castings.possible)
    _, _, free_at = castings.begun(every, np.ones(len(every)))
    kept = float(np.min(free_at - begins[every]))
    if len(starts) == 1:
        return MoldTime(kept, kept)
    return MoldTime(kept, float(begins[starts[-1]] - begins[starts[0]]) / (len(starts) - 1))


def working_hours(castings: Castings) -> float:
    """Say how long one person works in a month.

    Parameters
    ----------
    castings : Castings
        With the half days of some months.

    Returns
    -------
    float
        [h]
    """
    halves = castings.halves
    first = halves.halves[0].start
    # whole weeks: a week that is cut short before its days off would count too much
    same = [at for at, half in enumerate(halves.halves) if _same_hour(half.start, first)]
    last = same[-1] if len(same) > 1 else len(halves) - 1
    return float(halves.lengths[:last].sum() / (halves.starts[last] - halves.starts[0]) * MONTH)


def _same_hour(moment: datetime, first: datetime) -> bool:
    return (moment.weekday(), moment.time()) == (first.weekday(), first.time())


def rate(castings: Castings, time: MoldTime, molds: int, people: int) -> Rate:
    """Say how many good pieces come out in a month.

    Parameters
    ----------
    castings : Castings
        Of the product.
    time : MoldTime
        Its mold's.
    molds, people : int
        How many.

    Returns
    -------
    Rate
    """
    route = castings.route
    by_molds = molds * MONTH / time.cycle * (1.0 - route.scrap)
    by_people = people * working_hours(castings) / route.work
    return Rate(molds, people, min(by_molds, by_people), by_molds, by_people)
