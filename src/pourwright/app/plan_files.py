"""Where the plans of a job lie."""

from __future__ import annotations

import re
from pathlib import Path

PLAN, PLAN_FILE, HEAT_FILE = "plan", "plan.json", "heat.h5"


def folder_name(variant: str) -> str:
    """Name the folder of a variant's plan.

    Parameters
    ----------
    variant : str
        As in the job file.

    Returns
    -------
    str

    Examples
    --------
    >>> folder_name("green glass")
    'green-glass'
    """
    return re.sub(r"\s+", "-", variant.strip())


def plan_file(job: Path, variant: str | None) -> Path:
    """Say where a plan lies.

    Parameters
    ----------
    job : Path
        The job file.
    variant : str or None
        Name of the variant; None for a job that has none.

    Returns
    -------
    Path
        It need not be there.
    """
    folder = job.parent / PLAN
    return (folder if variant is None else folder / folder_name(variant)) / PLAN_FILE
