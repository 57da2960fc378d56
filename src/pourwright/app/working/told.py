"""Runs as a page is told of them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from pourwright.app.working.answers import digest_of
from pourwright.app.working.state import RunState
from pourwright.app.working.works import Works


class RunTold(RunState):
    """A run, and whether the job has changed since it was begun."""

    old: bool


def told(run: RunState, file: Path) -> RunTold:
    """Tell one run.

    Parameters
    ----------
    run : RunState
        As it is.
    file : Path
        The job file.

    Returns
    -------
    RunTold
    """
    return RunTold(**run.model_dump(), old=run.job_sha256 != digest_of(file))


def runs_told(works: Works, file: Path) -> list[RunTold]:
    """Tell all runs of a job that are remembered.

    Parameters
    ----------
    works : Works
        Of this server.
    file : Path
        The job file.

    Returns
    -------
    list of RunTold
        The latest first.
    """
    return [told(run, file) for run in works.runs(file.parent)]


def kinds_told(works: Works) -> list[dict[str, Any]]:
    """Tell what can be begun."""
    return [{"what": kind.what, "words": kind.words} for kind in works.kinds]
