"""A plan that several test processes need is made by the first and read from the kept results by the rest."""

import fcntl
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from pourwright.app import plan_job
from pourwright.app.planning import PlanDocuments


@contextmanager
def one_at_a_time(folder: Path) -> Iterator[None]:
    """Let other test processes of this run wait."""
    with (folder / "plans.lock").open("w") as file:
        fcntl.flock(file, fcntl.LOCK_EX)
        yield


def plan_quickly(job: Path, **options: Any) -> PlanDocuments:
    """Plan with the likeliest numbers only, in this process: for what does not ask how sure it is."""
    return plan_job(job, quick=True, processes=1, **options)
