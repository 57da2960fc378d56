"""A text of a job file read with its errors as the page shows them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from pourwright.app.choosing.disk import JOB
from pourwright.foundation.errors import NotThereError, UserError
from pourwright.jobs import Job, JobError, read_job

_PLACE = re.compile(rf"{re.escape(JOB)}(?::(\d+))?(?:, at its end)?\s*(.*)\Z")


@dataclass(frozen=True)
class Fault:
    """One thing wrong with a job file.

    Parameters
    ----------
    error : UserError
        Its place is the key alone.
    line : int or None
        Of the file.
    """

    error: UserError
    line: int | None

    def told(self) -> dict[str, str | int | None]:
        """As the page reads it."""
        error = self.error
        return {
            "what": error.what, "where": error.where, "allowed": error.allowed, "todo": error.todo,
            "line": self.line,
        }  # fmt: skip


@lru_cache(maxsize=16)
def _read(text: str) -> tuple[Job | None, tuple[Fault, ...]]:
    """Read a text once, however often one choice asks for it; a job is never changed."""
    try:
        return read_job(text, Path(JOB)), ()
    except JobError as error:
        return None, tuple(fault_of(each, text) for each in error.every)
    except UserError as error:
        return None, (fault_of(error, text),)


def faults(text: str) -> tuple[Fault, ...]:
    """Check a text as a job file.

    Parameters
    ----------
    text : str
        Of the whole file.

    Returns
    -------
    tuple of Fault
        Empty where it can be used.
    """
    return _read(text)[1]


def fault_of(error: UserError, text: str) -> Fault:
    """Part the place of an error into line and key.

    Parameters
    ----------
    error : UserError
        Of `read_job`.
    text : str
        That it read.

    Returns
    -------
    Fault
    """
    found = _PLACE.match(error.where)
    if found is None:
        return Fault(error, None)
    line = int(found[1]) if found[1] else text.count("\n") + 1
    return Fault(UserError(error.what, where=found[2], allowed=error.allowed, todo=error.todo), line)


def usable(text: str) -> bool:
    """Tell whether a text can be used as a job file.

    Parameters
    ----------
    text : str
        Of the whole file.

    Returns
    -------
    bool
    """
    return not faults(text)


def job_of(text: str) -> Job:
    """Read a job, with its faults told by key.

    Parameters
    ----------
    text : str
        Of the whole file.

    Returns
    -------
    Job

    Raises
    ------
    UserError
        The first thing wrong; its place is the key.
    """
    job, wrong = _read(text)
    if job is None:
        error = wrong[0].error
        raise UserError(error.what, where=error.where, allowed=error.allowed, todo=error.todo)
    return job


def variant_number(job: Job, name: str | None) -> int | None:
    """Find a variant of a job.

    Parameters
    ----------
    job : Job
        The whole file.
    name : str or None
        Of the variant; None for the first.

    Returns
    -------
    int or None
        Its number, from 0; None for a job without variants.

    Raises
    ------
    UserError
        For a name that is not there.
    """
    names = [each.name for each in job.variant]
    if not names and name in {None, "", "main"}:
        return None
    if name and name not in names:
        raise NotThereError(
            f"no variant called {name!r}", where="variant", allowed=", ".join(names or ["main"]),
            todo="choose one of these",
        )  # fmt: skip
    return names.index(name) if name else 0
