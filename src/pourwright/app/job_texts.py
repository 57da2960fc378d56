"""Texts of job files that something was made from, kept so that a later change can be told in words."""

from __future__ import annotations

import hashlib

from pourwright.foundation.errors import UserError
from pourwright.jobs import read_job
from pourwright.jobs.job import Job
from pourwright.runs import Cache


def keep_text(text: str, digest: str) -> None:
    """Keep the text of a job file.

    Parameters
    ----------
    text : str
        As read.
    digest : str
        sha256 of the file.
    """
    Cache().put(_key(digest), (text,))


def remember(job: Job) -> None:
    """Keep the text of a job that something is about to be made from, if it is still the one on disk.

    Parameters
    ----------
    job : Job
        As read.
    """
    try:
        content = job.path.read_bytes()
    except OSError:
        return
    if hashlib.sha256(content).hexdigest() == job.digest:
        keep_text(content.decode("utf8").removeprefix("\ufeff"), job.digest)


def kept_job(digest: str) -> Job | None:
    """Read a job that something was made from.

    Parameters
    ----------
    digest : str
        sha256 of its file.

    Returns
    -------
    Job or None
        None where the text was not kept, or is no job any more.
    """
    match Cache().get(_key(digest)):
        case (str(text),):
            try:
                return read_job(text, digest=digest)
            except UserError:
                return None
    return None


def _key(digest: str) -> str:
    return hashlib.sha256(b"text of a job file " + digest.encode()).hexdigest()
