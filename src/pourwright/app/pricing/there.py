"""The plan that a cost can be told from at once: what lies there or is kept is read, nothing is made."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from pydantic import ValidationError

from pourwright.app.learnt.in_force import shop_materials
from pourwright.app.pricing.planned import (
    AT_ONCE,
    Planned,
    kept_fill,
    kept_plan,
    lying_plan,
    plan_key,
    why_not,
)
from pourwright.app.working.answers import answer_key, kept_answer
from pourwright.app.working.standing import plan_of, sheet_of
from pourwright.app.working.works import Works
from pourwright.jobs.cost_sheet import PlanUsed
from pourwright.jobs.fill_sheet import FillSheet
from pourwright.jobs.job import Job
from pourwright.jobs.mold_ways import Ways


@dataclass(frozen=True)
class PlanThere:
    """A plan that is there, and whether it is of today's choices.

    Parameters
    ----------
    planned : Planned
        The plan.
    word : str
        Why it is old, in short; empty where it is not.
    because : tuple of str
        What differs, a sentence each.
    """

    planned: Planned
    word: str = ""
    because: tuple[str, ...] = ()


def is_planned(job: Job) -> bool:
    """Say whether pours are planned for a job: not for what goes in at once."""
    return job.casting.material not in shop_materials(job).mineral


def plan_there(job: Job, works: Works) -> PlanThere | None:
    """Give the plan of a variant without making any.

    Parameters
    ----------
    job : Job
        The variant.
    works : Works
        Knows where fill and mold are kept, of what goes in at once.

    Returns
    -------
    PlanThere or None
        Of today's choices where there is such a one, else the old one.
    """
    if not is_planned(job):
        shown = _fill_there(job, works)
        if shown is not None and not shown.because:
            return shown
        kept = kept_fill(job)
        return shown if kept is None else PlanThere(kept)
    there = plan_of(job.path, job.variant_name)
    lying = None if there["document"] is None else lying_plan(job, _kept_ways)
    if lying is not None and not there["old"]:
        return PlanThere(lying)
    kept = kept_plan(plan_key(job, quick=False), why_not(there))
    if kept is not None:
        return PlanThere(kept)
    return None if lying is None else PlanThere(lying, there["word"], tuple(there["because"]))


def _kept_ways(job: Job) -> Ways | None:
    return _ways_in(kept_answer(answer_key("mold", job)))


def _ways_in(document: dict[str, Any] | None) -> Ways | None:
    try:
        return None if document is None else Ways.model_validate(document.get("ways"))
    except ValidationError:
        return None


def _fill_there(job: Job, works: Works) -> PlanThere | None:
    fill, mold = (sheet_of(works, job.path, what, job.variant_name) for what in ("fill", "mold"))
    ways = _ways_in(mold["document"])
    try:
        sheet = FillSheet.model_validate(fill["document"])
    except ValidationError:
        return None
    if ways is None or sheet.mineral is None:
        return None
    used = PlanUsed(file="", made=sheet.computed_for, words=AT_ONCE)
    planned = Planned(None, sheet.mineral, sheet.piece, sheet.inputs, ways, used)
    because = tuple(dict.fromkeys([*fill["because"], *mold["because"]]))
    return PlanThere(planned, fill["word"] or mold["word"], because)
