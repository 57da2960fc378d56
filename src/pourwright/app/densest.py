"""The densest thing that is ever poured into the mold of a job, whichever variant it belongs to."""

from __future__ import annotations

from collections.abc import Callable

from pourwright.foundation.errors import UserError
from pourwright.jobs.job import Job


def densest_ever(job: Job, density: float, density_of: Callable[[Job], float]) -> float:
    """Look through the variants that share a shape, and so a mold.

    Parameters
    ----------
    job : Job
        One variant.
    density : float
        Of what it pours [kg/m3].
    density_of : callable
        The same of another variant.

    Returns
    -------
    float
        [kg/m3]

    Notes
    -----
    A variant that cannot be made says so when it is asked for; it is never poured.
    """
    found = [density]
    for other in job.others:
        if other.shape == job.shape:
            try:
                found.append(density_of(other))
            except UserError:
                continue
    return max(found)
