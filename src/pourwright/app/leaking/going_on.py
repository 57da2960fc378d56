"""The plan goes on from the state as logged: what is in the mold stays, what is left is planned anew."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta
from pathlib import Path

from pourwright.app.alternatives import surely
from pourwright.app.document import plan_document
from pourwright.app.document.moments import iso
from pourwright.app.hands import Work, open_hands
from pourwright.app.leaking.heat import logged
from pourwright.app.leaking.leak import Reckoned
from pourwright.app.learnt.used import used_by, with_learnt
from pourwright.app.mending import no_plan
from pourwright.app.plan_folder import PLAN_FOLDER, write_plan
from pourwright.app.planning import SPACING, PlanDocuments
from pourwright.app.setup import set_up
from pourwright.app.shaping.piece import read_piece
from pourwright.app.timing import Beginning, request
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import ZERO_CELSIUS
from pourwright.foundation.progress import SILENT, Progress
from pourwright.jobs.job import Job
from pourwright.jobs.plan import PlanDocument, Reason
from pourwright.planner.decide import Decision, Rehearsing, perform
from pourwright.planner.going_on import go_on
from pourwright.planner.model import Choice, NoPlanError
from pourwright.planner.request import Request
from pourwright.pour.rehearse import Planned
from pourwright.pour.store import Map
from pourwright.runs import only_one
from pourwright.sheets.wording import Wording

FOLDER = "plan-goes-on"
LONG_DONE = timedelta(days=90)


def plan_goes_on(
    job: Job,
    found: Reckoned,
    now: datetime,
    *,
    out: Path | None = None,
    progress: Progress = SILENT,
    work: Work | None = None,
) -> PlanDocuments:
    """Plan the pours that are left, and write the plan of all of them into a folder of its own."""
    target = out or job.path.parent / FOLDER
    PLAN_FOLDER.refuse_foreign(target)
    with only_one(target), open_hands(work or Work(), progress) as hands:
        document, decision = planned_on(job, found, now, progress, hands)
        files = write_plan(document, target, decision.final.recording)
    return PlanDocuments((document,), files)


def planned_on(
    job: Job, found: Reckoned, now: datetime, progress: Progress, hands: Map
) -> tuple[PlanDocument, Decision]:
    """The same without writing anything."""
    zero, poured = logged(found.leak, found.gel.level)
    progress.step("reading the shape", 0, 1)
    learned = used_by(job)
    setup = set_up(job, read_piece(job))
    if found.leak.plan.pours[-1].to_m - found.gel.level < 1e-3:
        raise UserError("the mold is full: no pour is left", where="level", todo="wait for it to harden")
    # all that comes before the first pour is done: nothing of it is late
    beginning = Beginning(zero - LONG_DONE, zero, zero, zero)
    asked = surely(request(setup, beginning, SPACING))
    progress.step("searching for the fewest pours", 0, 1)
    try:
        choice = go_on(asked, poured, (now - zero).total_seconds())
    except NoPlanError as failed:
        raise no_plan(setup, asked, failed, progress, hands) from None
    decision = _proven(asked, choice, hands)
    document = plan_document(setup, asked, decision, beginning, laid=found.leak.pour.to_m)
    document = with_learnt(document, job, learned)
    return _as_it_stands(document, found, poured, decision, now), decision


def _proven(asked: Request, choice: Choice, hands: Map) -> Decision:
    """On the final grid and on one twice as wide."""
    trial = choice.trial
    plan = tuple(map(Planned, trial.levels, trial.starts))
    runs = [Rehearsing(asked.site, plan, wide * asked.spacing, record=wide == 1) for wide in (1, 2)]
    final, coarser = hands(perform, runs)
    return Decision(asked, 0, choice, final, coarser, coarser)


def _as_it_stands(
    document: PlanDocument,
    found: Reckoned,
    poured: Sequence[Planned],
    decision: Decision,
    now: datetime,
) -> PlanDocument:
    """Leave out what is past, and say what is as logged and what the finer grid found."""
    say, leak = Wording(document.job), found.leak
    done = len(poured)
    stands = "pour 1 stands" if done == 1 else f"pours 1 to {done} stand"
    text = (
        f"{stands} as logged, up to {say.length(found.gel.level)}: {say.mass(found.gel.out)} of pour "
        f"{leak.pour.number} will have run out at gel; what is left is planned from there, with the "
        "likeliest numbers only"
    )
    ahead = [event for event in document.calendar if datetime.fromisoformat(event.end) >= now]
    return document.model_copy(
        update={
            "computed_for": iso(now.astimezone(say.zone)),
            "calendar": ahead,
            "reasons": [Reason(key="state as logged", text=text), *document.reasons],
            "warnings": [*_over(decision, say), *document.warnings],
        }
    )


def _over(decision: Decision, say: Wording) -> list[str]:
    limit = decision.request.peak_limit
    return [
        f"pour {number} gets {say.temperature(pour.peak - ZERO_CELSIUS)} on the final grid, over its "
        f"limit of {say.temperature(limit - ZERO_CELSIUS)}: pour it in two parts"
        for number, pour in enumerate(decision.final.pours, 1)
        if pour.peak > limit
    ]
