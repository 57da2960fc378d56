"""A plan that several test processes need is made by the first and read from the kept results by the rest."""

import fcntl
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from pourwright.app import plan_job
from pourwright.app.planning import SPACING, PlanDocuments, plan_variant
from pourwright.app.which import as_loaded, chosen_variants
from pourwright.jobs.plan import PlanDocument

NOW = datetime(2026, 12, 1, 12, 0, tzinfo=UTC)


@contextmanager
def one_at_a_time(folder: Path) -> Iterator[None]:
    """Let other test processes of this run wait."""
    with (folder / "plans.lock").open("w") as file:
        fcntl.flock(file, fcntl.LOCK_EX)
        yield


def plan_quickly(job: Path, **options: Any) -> PlanDocuments:
    """Plan with the likeliest numbers only, in this process: for what does not ask how sure it is."""
    return plan_job(job, quick=True, processes=1, **options)


def only_planned(job: Path, start: datetime | None = None, what_if: Sequence[str] = ()) -> PlanDocument:
    """Plan a job of one variant as `plan_quickly`, without its mold's sheet, pictures and files."""
    (variant,) = chosen_variants(as_loaded(job), None)
    return plan_variant(variant, start, SPACING, NOW, what_if=what_if, quick=True)[0]
