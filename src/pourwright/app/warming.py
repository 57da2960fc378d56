"""Compile all kernels once, so that the first plan need not."""

from __future__ import annotations

from datetime import UTC, datetime
from time import perf_counter

from pourwright import geometry
from pourwright.app.planning import plan_variant
from pourwright.calibration import Question as FitQuestion, find_prior, next_cup, settle
from pourwright.foundation.progress import SILENT, Progress
from pourwright.jobs import Answers, read_job, write_new_job

FAMILY, DENSITY = "epoxy-slow-deep", 1090.0


def warm_up(progress: Progress = SILENT) -> float:
    """Use every kernel: those of shapes, then plan a small box and ask what a family without facts shows.

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
    for _ in geometry.warm_up():
        pass
    answers = Answers(
        title="warm-up",
        material=FAMILY,
        shop_temperature="20 degC",
        box=("60 mm", "60 mm", "30 mm"),
    )
    plan_variant(
        read_job(write_new_job(answers)),
        None,
        0.008,
        datetime(2026, 1, 5, 9, tzinfo=UTC),
        progress,
        quick=True,
    )
    next_cup(settle(FitQuestion(find_prior(FAMILY), (), DENSITY)))
    progress.step("compiling once; later starts are quick", 1, 1)
    return perf_counter() - begin
