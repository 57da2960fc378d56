"""Plans that were not taken: at other chances, and with one thing changed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr

from pourwright.planner.hot import envelope
from pourwright.planner.hours import WorkingHours
from pourwright.planner.lived import Life, live
from pourwright.planner.model import Choice, Failure
from pourwright.planner.request import Request, Search
from pourwright.pour.doubt import Doubt

Array = NDArray[np.float64]
CHANCES = (0.5, 0.99)
"""Probabilities of keeping the limits that plans are compared at, besides the job's own."""
BUDGET = 8
"""Trials of a plan that is only looked at."""
NEAREST, FARTHEST, HALVINGS = -1.0, 4.0, 5
"""Standard deviations between which a plan's way to the limit is sought, by halving."""


def comparisons(
    request: Request, ways: tuple[Array, ...], what_if: Sequence[tuple[Request, tuple[Array, ...]]]
) -> list[Search]:
    """List the searches for what is only looked at.

    Parameters
    ----------
    request : Request
        The plan's own.
    ways : tuple of array
        In which its pours run hot.
    what_if : sequence of tuple
        Changes, each with the ways of its own.

    Returns
    -------
    list of Search
        Those at other probabilities first; none of these where nothing is in doubt.
    """
    quick = replace(request, budget=BUDGET)
    chances = () if request.doubt is None else tuple(p for p in CHANCES if p != request.probability)
    direction = envelope(ways)
    return [
        *(Search(replace(quick, probability=p), request.hot(direction, p)) for p in chances),
        *(Search(replace(one, budget=BUDGET), one.hot(envelope(own))) for one, own in what_if),
    ]


@dataclass(frozen=True)
class Way:
    """How far a plan is from the limit, in the directions in which it runs hot.

    Parameters
    ----------
    doubt : Doubt
        What is not known exactly.
    directions : tuple of array
        Each of length 1.
    levels, starts : tuple of float
        Of the plan [m], [s].
    hours : WorkingHours
        When a late pour may go on.
    limit : float
        [K]
    """

    doubt: Doubt
    directions: tuple[Array, ...]
    levels: tuple[float, ...]
    starts: tuple[float, ...]
    hours: WorkingHours
    limit: float

    def run(self) -> float:
        """Share of castings that go over the limit [-]."""
        return share_over(self)


@dataclass(frozen=True)
class Looked:
    """A plan that was only looked at, on the coarse grid.

    Parameters
    ----------
    request : Request
        What was asked.
    found : Choice or Failure
        What came of it.
    changed : int or None
        Place among the changes asked for; None for another probability.
    over_limit : float or None
        Share of such castings that go over the limit; None where there is no plan, or nobody has looked.
    way : Way or None
        From which that share is reckoned; None for a change.
    """

    request: Request
    found: Choice | Failure
    changed: int | None
    over_limit: float | None = None
    way: Way | None = None


def share_over(way: Way) -> float:
    """Reckon which share of castings goes over the limit: those beyond where a direction meets it.

    Parameters
    ----------
    way : Way
        Plan and directions.

    Returns
    -------
    float
        First-order reliability [-]; of several directions the one that meets it first.
    """
    return max(_share_beyond(way, direction) for direction in way.directions)


def _share_beyond(way: Way, direction: Array) -> float:
    low, high = NEAREST, FARTHEST
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        if _hottest(way, middle * direction) > way.limit:
            high = middle
        else:
            low = middle
    return float(ndtr(-0.5 * (low + high)))


def _hottest(way: Way, deviates: Array) -> float:
    site = way.doubt.site(deviates)
    lived = live(Life(site, way.levels, way.starts, way.hours, way.limit + 1.0))
    return max(pour.peak for pour in lived.pours)


def looks_of(
    searches: Sequence[Search],
    found: Sequence[Choice | Failure],
    changed: int,
    directions: tuple[Array, ...],
) -> list[Looked]:
    """Pair the searches with what they found.

    Parameters
    ----------
    searches : sequence of Search
        From `comparisons`.
    found : sequence of Choice or Failure
        Their answers.
    changed : int
        How many of them, at the end, are changes.
    directions : tuple of array
        In which the plan's pours run hot.

    Returns
    -------
    list of Looked
        In the order of the searches, not yet weighed.
    """
    chances = len(searches) - changed
    return [
        Looked(task.request, one, None, way=_way(task.request, one, directions))
        if number < chances
        else Looked(task.request, one, number - chances)
        for number, (task, one) in enumerate(zip(searches, found, strict=True))
    ]


def _way(request: Request, found: Choice | Failure, directions: tuple[Array, ...]) -> Way | None:
    if request.doubt is None or isinstance(found, Failure):
        return None
    trial = found.trial
    return Way(request.doubt, directions, trial.levels, trial.starts, request.hours, request.peak_limit)


def weighed(looks: Sequence[Looked], shares: Sequence[float]) -> list[Looked]:
    """Add the shares that go over the limit.

    Parameters
    ----------
    looks : sequence of Looked
        From `looks_of`.
    shares : sequence of float
        One for each that has a way, in their order.

    Returns
    -------
    list of Looked
    """
    told = iter(shares)
    return [look if look.way is None else replace(look, over_limit=next(told)) for look in looks]
