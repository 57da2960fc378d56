"""How much longer the shop takes for a step of the work than is usual."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from pourwright.app.learnt.in_force import in_force
from pourwright.calibration.learning.record import Learned
from pourwright.jobs.job import Job

POURING, GETTING_READY = "weighing, mixing and pouring", "getting ready"
STEPS = (POURING, GETTING_READY)
"""Subjects of what is learnt of hours."""


@dataclass(frozen=True, slots=True)
class Paces:
    """Time of a step over the usual one.

    Parameters
    ----------
    pouring : float
        Weighing, mixing and pouring all batches of a pour.
    getting_ready : float
        Laying glass in and going through the list, before a pour.
    """

    pouring: float = 1.0
    getting_ready: float = 1.0


USUAL = Paces()


def paces_of(job: Job) -> Paces:
    """Give the shop's own paces, the usual ones where nothing was learnt."""
    return paces_from(in_force(job.path.parent))


def paces_from(learned: Iterable[Learned]) -> Paces:
    """Give the paces among what was learnt; a family's value that was kept is the usual one."""
    found = {one.subject: one.value for one in learned if one.quantity == "hours" and not one.kept_family}
    return Paces(found.get(POURING, 1.0), found.get(GETTING_READY, 1.0))
