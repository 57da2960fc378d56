"""Which ways of making a mold a plan can be made for."""

from __future__ import annotations

from pourwright.foundation.errors import UserError
from pourwright.jobs.job import Job


def refuse_unplanned_way(job: Job) -> None:
    """Refuse to reckon the heat of a mold that is no block of rubber.

    Parameters
    ----------
    job : Job
        As written.

    Raises
    ------
    UserError
        For a skin in a shell.
    """
    if job.mold.way == "skin":
        raise UserError(
            "the heat of a casting in a skin of rubber and its shell is not reckoned",
            where=job.where("mold.way"),
            allowed='way = "block" or "two-part" for a plan',
            todo=f"see what a skin takes with: pourwright mold {job.path}",
        )
