"""A plan's folder as far as page and journal read it."""

from pathlib import Path

from pourwright.app.heat_file import plan_bytes
from pourwright.app.plan_files import PLAN_FILE
from pourwright.jobs.plan import PlanDocument


def lay_plan(plan: PlanDocument, folder: Path) -> None:
    """Put plan.json there by itself: sheets and calendar beside it take a third of a second to draw."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / PLAN_FILE).write_bytes(plan_bytes(plan))
