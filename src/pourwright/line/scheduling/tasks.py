"""What is to be scheduled: work in slots of time, on resources that run out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Use:
    """So much of a resource from one slot up to another.

    Parameters
    ----------
    resource : int
        Row of the capacities.
    first, last : int
        Slots; ``last`` is the first one that is free again.
    amount : float
        In the resource's own unit.
    """

    resource: int
    first: int
    last: int
    amount: float = 1.0


@dataclass(frozen=True, slots=True)
class Place:
    """What one unit of work takes, begun in a certain slot.

    Parameters
    ----------
    uses : tuple of Use
        Resources.
    done : int
        First slot in which what follows may begin.
    """

    uses: tuple[Use, ...]
    done: int


@dataclass(frozen=True)
class Activity:
    """Equal units of work.

    Parameters
    ----------
    name : str
        For the reader of a result.
    count : float
        How many units.
    places : Mapping
        By the slot in which a unit may begin.
    whole : bool
        Whether a unit cannot be divided.
    due : tuple of (int, float)
        Units that are to be done when a slot begins, growing; late units are counted for every slot.
    """

    name: str
    count: float
    places: Mapping[int, Place]
    whole: bool = True
    due: tuple[tuple[int, float], ...] = ()


@dataclass(frozen=True)
class Link:
    """The share of ``after`` that is begun never passes the share of ``before`` that is done.

    Parameters
    ----------
    before, after : int
        Positions of two activities.
    """

    before: int
    after: int


@dataclass(frozen=True)
class Problem:
    """All work, all resources.

    Parameters
    ----------
    capacity : array
        Of each resource in each slot, shape (resources, slots).
    activities : sequence of Activity
        The work.
    links : sequence of Link
        What comes before what.
    """

    capacity: Floats
    activities: Sequence[Activity]
    links: Sequence[Link] = field(default_factory=tuple)

    @property
    def slots(self) -> int:
        """Number of slots."""
        return int(self.capacity.shape[1])


def job_shop(jobs: Sequence[Sequence[tuple[int, int]]], slots: int) -> Problem:
    """Write a job shop: each job passes its machines in its own order, a machine does one thing at a time.

    Parameters
    ----------
    jobs : sequence of sequence of (int, int)
        Machine and time of every operation, in their order.
    slots : int
        All is to be done within these.

    Returns
    -------
    Problem
        An operation may begin where those before and after it still fit.
    """
    machines = 1 + max(machine for job in jobs for machine, _ in job)
    activities: list[Activity] = []
    links: list[Link] = []
    for number, job in enumerate(jobs, 1):
        head, tail = 0, sum(time for _, time in job)
        for machine, time in job:
            places = {
                at: Place((Use(machine, at, at + time),), at + time) for at in range(head, slots - tail + 1)
            }
            if head:
                links.append(Link(len(activities) - 1, len(activities)))
            activities.append(Activity(f"job {number} on {machine}", 1, places))
            head, tail = head + time, tail - time
    return Problem(np.ones((machines, slots)), activities, links)
