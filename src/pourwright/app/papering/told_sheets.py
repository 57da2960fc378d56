"""Mold, cut list and fill on paper for a job without a plan, kept until something in the job changes."""

from __future__ import annotations

import tempfile
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

from pourwright.app.cutting.cutting import cut_job
from pourwright.app.filling.filling import fill_job
from pourwright.app.molding.molding import mold_job
from pourwright.app.working.answers import keep_paper, kept_paper, paper_key
from pourwright.jobs.job import Job

MAKERS: dict[str, Callable[..., Any]] = {"mold": mold_job, "cut": cut_job, "fill": fill_job}
ONE_AT_A_TIME = threading.Lock()
"""A sheet takes seconds and all of a processor: whoever asks second finds it made."""


def kept_sheet(one: Job, name: str) -> bytes | None:
    """Give a sheet that was made of this job as it is.

    Parameters
    ----------
    one : Job
        One variant.
    name : {"mold", "cut", "fill"}
        Which.

    Returns
    -------
    bytes or None
        A PDF file; None where it was not made yet.
    """
    return kept_paper(paper_key(name, one))


def made_sheet(one: Job, name: str) -> bytes:
    """Make a sheet, or give the one that is kept.

    Parameters
    ----------
    one : Job
        One variant.
    name : {"mold", "cut", "fill"}
        Which.

    Returns
    -------
    bytes
        A PDF file.

    Raises
    ------
    UserError
        For a job that nothing can be told of, with the line.
    """
    with ONE_AT_A_TIME:
        found = kept_sheet(one, name)
        if found is None:
            found = _made(one, name)
            keep_paper(name, one, found)
        return found


def _made(one: Job, name: str) -> bytes:
    with tempfile.TemporaryDirectory(prefix="pourwright-sheet-") as folder:
        out = Path(folder, name)
        MAKERS[name](one.path, variant=one.variant_name, out=out)
        return (out / f"{name}.pdf").read_bytes()
