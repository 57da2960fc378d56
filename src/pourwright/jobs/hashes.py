"""Fingerprints of what a plan was made from."""

from __future__ import annotations

import hashlib

from pourwright.foundation.files import sha256_of
from pourwright.jobs.job import Job


def input_hashes(job: Job) -> dict[str, str]:
    """Fingerprint the files of a job.

    Parameters
    ----------
    job : Job
        As loaded from its file.

    Returns
    -------
    dict
        sha256 by file name: the job file, and the mesh files and drawings of its shape.
    """
    files = ([] if job.digest else [job.path]) + ([job.shape_file] if job.shape_file else [])
    files += [job.path.parent / name for name in job.shape.drawings]
    # the job file may say something else by now; a job made in memory has none
    own = {job.path.name: job.digest} if job.digest else {}
    return own | {file.name: sha256_of(file) for file in files if file.exists()}


def job_hash(job: Job) -> str:
    """Fingerprint what a job says, whatever its layout and comments.

    Parameters
    ----------
    job : Job
        A resolved job.

    Returns
    -------
    str
        sha256 of its canonical JSON, quantities in the maker's words.
    """
    return hashlib.sha256(job.model_dump_json(by_alias=True).encode()).hexdigest()
