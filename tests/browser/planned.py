"""A plan on disk beside a small job, so that a page has something to show at once; all of it is invented."""

from pathlib import Path

from pourwright.app.plan_folder import write_plan
from pourwright.jobs.plan import PlanDocument
from tests.sheets.sample_chances import sure_plan


def with_plan(job: Path, pours: int = 4) -> PlanDocument:
    """Put the invented plan beside a job file; it is another job's, so the page calls it old."""
    plan = sure_plan(pours)
    write_plan(plan, job.parent / "plan")
    return plan
