"""Compile all kernels once, so that the first plan need not."""

from __future__ import annotations

from datetime import UTC, datetime
from time import perf_counter

from pourwright import compiled_before, geometry
from pourwright.app.planning import plan_variant
from pourwright.calibration import Question as FitQuestion, find_prior, next_cup, settle
from pourwright.foundation.progress import SILENT, Progress
from pourwright.jobs import Answers, read_job, write_new_job
from pourwright.runs import Crew

FAMILY, DENSITY = "epoxy-slow-deep", 1090.0


def warm_up(progress: Progress = SILENT) -> float:
    """Use every kernel: those of shapes, then plan a small box and ask what a family without facts shows.

    The first time two processes share the work, where there are two processors.

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
    stage = "compiling once; later starts are quick"
    progress.step(stage, 0, 1)
    if not compiled_before():
        with Crew() as crew:
            crew.map(_compile, (True, False), progress=progress, stage=stage)
    for _ in geometry.warm_up():
        pass
    _plan(progress)
    progress.step(stage, 1, 1)
    return perf_counter() - begin


def _compile(heavy: bool) -> None:
    """Do one of two halves that take about as long."""
    if not heavy:
        _plan()
    for _ in geometry.warm_up(heavy=heavy):
        pass


def _plan(progress: Progress = SILENT) -> None:
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
