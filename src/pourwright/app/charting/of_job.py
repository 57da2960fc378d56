"""The charts of a job's plan, found by the job."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from pourwright.app.charting.charts import CHARTS, Charted, chart_of, charted
from pourwright.app.which import chosen_variants
from pourwright.app.working.standing import plan_of, plan_place_of
from pourwright.foundation.errors import NotThereError, UserError
from pourwright.jobs import load_job
from pourwright.sheets import plan_mark

FIRST = "make the plan: temperatures, levels and the calendar are drawn from it"


def charted_job(path: Path, variant: str | None = None) -> Charted:
    """Read the plan of a job for its charts, also where the job file has an error now.

    Parameters
    ----------
    path : Path
        Job file.
    variant : str, optional
        Which variant; else the first.

    Returns
    -------
    Charted

    Raises
    ------
    UserError
        For a variant the job does not have; NotThereError where it has no plan.
    """
    _refuse_other_variant(path, variant)
    file = plan_place_of(path, variant)
    if not file.is_file():
        raise NotThereError("this job has no plan yet", where=str(path.parent), todo="make the plan first")
    return charted(file.parent)


def _refuse_other_variant(path: Path, variant: str | None) -> None:
    """A job file with an error cannot tell its variants: what was asked for is believed then."""
    try:
        job = load_job(path)
    except UserError:
        return
    chosen_variants(job, variant)


def chart_list(path: Path, variant: str | None = None) -> dict[str, Any]:
    """List the charts that a job's plan has.

    Parameters
    ----------
    path : Path
        Job file.
    variant : str, optional
        Which variant; else the first.

    Returns
    -------
    dict
        ``charts`` with name, title and words, none where there is no plan; ``plan``, its mark; ``old``,
        whether the job has changed since, and ``because``, how; ``todo``, what to do first.

    Raises
    ------
    UserError
        For a plan that cannot be read, or a variant that the job does not have.
    """
    try:
        about = charted_job(path, variant)
    except NotThereError:
        return {"charts": [], "plan": "", "old": False, "because": [], "todo": FIRST}
    standing = plan_of(path, variant)
    charts = [chart_of(about, name) for name in CHARTS]
    return {
        "charts": [{"name": each.name, "title": each.title, "words": each.words} for each in charts],
        "plan": plan_mark(about.plan),
        "old": standing["old"],
        "because": standing["because"],
        "todo": "",
    }
