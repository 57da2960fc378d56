"""Plan a job: every variant from its shape to sheets on disk."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from pourwright.app.alternatives import Change, asked_for, changes_of, options_of, sure, surely
from pourwright.app.castable import refuse_uncastable
from pourwright.app.cold import refuse_unset
from pourwright.app.contact import refuse_sticking
from pourwright.app.document import plan_document
from pourwright.app.hands import Work, open_hands
from pourwright.app.job_texts import remember
from pourwright.app.learnt.used import used_by, with_learnt
from pourwright.app.master_timing import contact_in
from pourwright.app.mending import no_plan
from pourwright.app.molding.folder import mold_files
from pourwright.app.molding.look import look_at_mold
from pourwright.app.molding.molding import mold_sheet
from pourwright.app.plan_files import PLAN
from pourwright.app.plan_folder import PLAN_FOLDER, plan_place, write_plan
from pourwright.app.setup import set_up
from pourwright.app.shaping.ledger import master_files
from pourwright.app.shaping.piece import read_piece
from pourwright.app.timing import begin, request
from pourwright.app.which import as_loaded, chosen_variants
from pourwright.foundation.progress import SILENT, Progress
from pourwright.jobs.job import Job
from pourwright.jobs.plan import PlanDocument, Reason
from pourwright.planner.decide import Decision, decide
from pourwright.planner.model import NoPlanError
from pourwright.pour.snapshots import Recording
from pourwright.pour.store import Map, in_turn
from pourwright.runs import only_one

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
    path: Path | Job,
    *,
    out: Path | None = None,
    start: datetime | None = None,
    variant: str | None = None,
    fine: bool = False,
    quick: bool = False,
    what_if: Sequence[str] = (),
    processes: int | None = None,
    cluster: str | None = None,
    no_cache: bool = False,
    progress: Progress = SILENT,
    now: datetime | None = None,
) -> PlanDocuments:
    """Plan a job and write its sheets.

    Parameters
    ----------
    path : Path or Job
        Job file, or the job as it was read.
    out : Path, optional
        Folder of the results; else ``plan`` beside the job file.
    start : datetime, optional
        Earliest first pour, by the shop's clock.
    variant : str, optional
        Only this one.
    fine : bool
        Last heat run at 4 mm instead of 8 mm.
    quick : bool
        Plan with the likeliest numbers only: no chances, no bands.
    what_if : sequence of str
        Changes to look at besides, each as lines of a job file.
    processes : int, optional
        At once; else as many as there are usable processors.
    cluster : str, optional
        Address of a cluster that does the heat runs instead.
    no_cache : bool
        Neither use nor keep heat runs.
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
    job = as_loaded(path)
    remember(job)
    moment = now or datetime.now(UTC)
    chosen = chosen_variants(job, variant)
    folder = out or job.path.parent / PLAN
    targets = [plan_place(job, one, folder) for one in chosen]
    for target in targets:
        PLAN_FOLDER.refuse_foreign(target)
    spacing = FINE_SPACING if fine else SPACING
    plans: list[PlanDocument] = []
    files: list[Path] = []
    with only_one(folder), open_hands(Work(processes, cluster, no_cache), progress) as hands:
        for one, target in zip(chosen, targets, strict=True):
            plan, recording = plan_variant(one, start, spacing, moment, progress, hands, what_if, quick=quick)
            progress.step("writing the sheets", 0, 1)
            files += write_plan(plan, target, recording, _masters(one) | _mold(one, moment, progress))
            plans.append(plan)
    return PlanDocuments(tuple(plans), tuple(files))


def _masters(job: Job) -> dict[str, bytes]:
    """Files of the master, where it is not the shape as it was given."""
    made = read_piece(job).sizes if job.sizes.cut else None
    return {} if made is None else dict(master_files(made, job))


def _mold(job: Job, now: datetime, progress: Progress) -> dict[str, bytes]:
    """Sheet, pictures and bodies of the mold."""
    look = look_at_mold(job, read_piece(job))
    made = mold_files(look, mold_sheet(look, now, progress))
    return {f"mold/{name}": content for name, content in made.items()}


def plan_variant(
    job: Job,
    start: datetime | None,
    spacing: float,
    now: datetime,
    progress: Progress = SILENT,
    hands: Map = in_turn,
    what_if: Sequence[str] = (),
    *,
    quick: bool = False,
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
    hands : Map
        Does the heat runs.
    what_if : sequence of str
        Changes to look at besides, each as lines of a job file.
    quick : bool
        With the likeliest numbers only.

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
    learned = used_by(job)
    setup = set_up(job, read_piece(job))
    refuse_uncastable(setup)
    refuse_sticking(contact_in(setup), now.date())
    beginning = begin(setup, start, now)
    asked = request(setup, beginning, spacing)
    options = options_of(setup, beginning, spacing)
    changes = asked_for(setup, beginning, spacing, what_if)
    if quick:
        asked, options, changes = surely(asked), list(map(sure, options)), list(map(sure, changes))
    else:
        changes += changes_of(setup, asked)
    try:
        decision = decide(
            asked,
            progress,
            options=[one.request for one in options],
            what_if=[one.request for one in changes],
            each=hands,
        )
    except NoPlanError as failed:
        raise no_plan(setup, asked, failed, progress, hands) from None
    chosen = [setup, *(one.setup or setup for one in options)][decision.option]
    refuse_unset(chosen, decision)
    if decision.option:
        changes = [replace(one, words=f"the job as written, {one.words}", no_worse=False) for one in changes]
    document = plan_document(chosen, decision.request, decision, beginning, changes)
    document = with_learnt(document, job, learned)
    return with_choice(document, options, decision), decision.final.recording


def with_choice(document: PlanDocument, options: Sequence[Change], decision: Decision) -> PlanDocument:
    """Say which of the job's options the planner took.

    Parameters
    ----------
    document : PlanDocument
        The plan.
    options : sequence of Change
        Besides the job as written.
    decision : Decision
        With the place of what was taken.

    Returns
    -------
    PlanDocument
        With a reason more, where there was a choice.
    """
    if not options:
        return document
    taken = "the job as written" if decision.option == 0 else options[decision.option - 1].words
    text = (
        f"of {len(options) + 1} ways that the job allows, {taken} takes the fewest pours and is ready first"
    )
    reason = Reason(key="planner", text=text)
    return document.model_copy(update={"reasons": [*document.reasons, reason]})
