"""Compile all kernels once, so that the first plan need not."""

from __future__ import annotations

from datetime import UTC, datetime
from time import perf_counter

from pourwright.app.planning import plan_variant
from pourwright.foundation.progress import SILENT, Progress
from pourwright.jobs import Answers, read_job, write_new_job


def warm_up(progress: Progress = SILENT) -> float:
    """Plan a small box, which uses every kernel.

    Parameters
    ----------
    progress : Progress
        Told that it compiles.

    Returns
    -------
    float
        Time it took [s].
    """
    begin = perf_counter()
    progress.step("compiling once; later starts are quick", 0, 1)
    answers = Answers(
        title="warm-up",
        material="epoxy-slow-deep",
        shop_temperature="20 degC",
        box=("60 mm", "60 mm", "30 mm"),
    )
    plan_variant(read_job(write_new_job(answers)), None, 0.008, datetime(2026, 1, 5, 9, tzinfo=UTC), progress)
    progress.step("compiling once; later starts are quick", 1, 1)
    return perf_counter() - begin
