"""Which variants of a job are meant."""

from __future__ import annotations

from pathlib import Path

from pourwright.foundation.errors import UserError
from pourwright.jobs import load_job
from pourwright.jobs.job import Job


def as_loaded(job: Path | Job) -> Job:
    """Load a job, unless it is already.

    Parameters
    ----------
    job : Path or Job
        Its file, or the job as it was read before.

    Returns
    -------
    Job

    Raises
    ------
    UserError
        For a file that is no job.
    """
    return job if isinstance(job, Job) else load_job(job)


def chosen_variants(job: Job, variant: str | None) -> list[Job]:
    """Give the variants that are meant.

    Parameters
    ----------
    job : Job
        As loaded.
    variant : str or None
        Name of one; all where it is left out.

    Returns
    -------
    list of Job
        In their order.

    Raises
    ------
    UserError
        For a name that the job does not have.
    """
    names = [one.variant_name for one in job.variants()]
    if variant is not None and variant not in names:
        raise UserError(
            f"no variant called '{variant}'",
            where=job.where("variant"),
            allowed=", ".join(names),
            todo="name one of these",
        )
    return [one for one in job.variants() if variant in (None, one.variant_name)]
