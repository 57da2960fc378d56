"""Plan a job: every variant from its shape to sheets on disk."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from pourwright.app.castable import refuse_uncastable
from pourwright.app.cold import refuse_unset
from pourwright.app.document import plan_document
from pourwright.app.mending import no_plan
from pourwright.app.piece import read_piece
from pourwright.app.plan_folder import refuse_foreign, write_plan
from pourwright.app.setup import set_up
from pourwright.app.timing import begin, request
from pourwright.foundation.errors import UserError
from pourwright.foundation.progress import SILENT, Progress
from pourwright.jobs import load_job
from pourwright.jobs.job import Job
from pourwright.jobs.plan import PlanDocument
from pourwright.planner.decide import decide
from pourwright.planner.model import NoPlanError
from pourwright.pour.snapshots import Recording

SPACING, FINE_SPACING = 0.008, 0.004


@dataclass(frozen=True)
class PlanDocuments:
    """The plans of a job's variants and the files they went into.

    Parameters
    ----------
    plans : tuple of PlanDocument
        One per variant.
    files : tuple of Path
        Written, by name.
    """

    plans: tuple[PlanDocument, ...]
    files: tuple[Path, ...]

    def to_json(self) -> dict[str, Any]:
        """The plan; ``{"plans": [..]}`` where there are several variants."""
        content = [plan.model_dump(mode="json", by_alias=True) for plan in self.plans]
        return content[0] if len(content) == 1 else {"plans": content}


def plan_job(
    path: Path,
    *,
    out: Path | None = None,
    start: datetime | None = None,
    variant: str | None = None,
    fine: bool = False,
    progress: Progress = SILENT,
    now: datetime | None = None,
) -> PlanDocuments:
    """Plan a job and write its sheets.

    Parameters
    ----------
    path : Path
        Job file.
    out : Path, optional
        Folder of the results; else ``plan`` beside the job file.
    start : datetime, optional
        Earliest first pour, by the shop's clock.
    variant : str, optional
        Only this one.
    fine : bool
        Last heat run at 4 mm instead of 8 mm.
    progress : Progress
        Told what is done; may raise Cancelled.
    now : datetime, optional
        Aware; the clock where left out.

    Returns
    -------
    PlanDocuments
        Plans and files; nothing is written unless all of one variant's plan is there.

    Raises
    ------
    UserError
        For a job that cannot be planned, with what fails, by how much, and what would mend it.
    """
    job = load_job(path)
    moment = now or datetime.now(UTC)
    chosen = _chosen(job, variant)
    folder = out or job.path.parent / "plan"
    plans: list[PlanDocument] = []
    files: list[Path] = []
    targets = [folder / _folder_name(one.variant_name) if job.variant else folder for one in chosen]
    for target in targets:
        refuse_foreign(target)
    for one, target in zip(chosen, targets, strict=True):
        plan, recording = plan_variant(one, start, FINE_SPACING if fine else SPACING, moment, progress)
        progress.step("writing the sheets", 0, 1)
        files += write_plan(plan, target, recording)
        plans.append(plan)
    return PlanDocuments(tuple(plans), tuple(files))


def _chosen(job: Job, variant: str | None) -> list[Job]:
    names = [one.variant_name for one in job.variants()]
    if variant is not None and variant not in names:
        raise UserError(
            f"no variant called '{variant}'",
            where=job.where("variant"),
            allowed=", ".join(names),
            todo="name one of these",
        )
    return [one for one in job.variants() if variant in (None, one.variant_name)]


def _folder_name(variant: str) -> str:
    return re.sub(r"\s+", "-", variant.strip())


def plan_variant(
    job: Job, start: datetime | None, spacing: float, now: datetime, progress: Progress = SILENT
) -> tuple[PlanDocument, Recording | None]:
    """Plan one variant without writing anything.

    Parameters
    ----------
    job : Job
        One variant.
    start : datetime, optional
        Earliest first pour.
    spacing : float
        Of the final heat run [m].
    now : datetime
        Aware.
    progress : Progress
        Told what is done.

    Returns
    -------
    tuple
        The whole plan, and what was recorded of its final run.

    Raises
    ------
    UserError
        Where it cannot be planned.
    """
    progress.step("reading the shape", 0, 1)
    setup = set_up(job, read_piece(job))
    refuse_uncastable(setup)
    beginning = begin(setup, start, now)
    asked = request(setup, beginning, spacing)
    try:
        decision = decide(asked, progress)
    except NoPlanError as failed:
        raise no_plan(setup, asked, failed, progress) from None
    refuse_unset(setup, decision)
    return plan_document(setup, asked, decision, beginning), decision.final.recording
