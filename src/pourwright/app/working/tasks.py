"""What is done in a process of its own; each keeps its own answer whole or not at all.

What computes is loaded there, not in the server: it is looked up in ``app`` when it is called.
"""

from __future__ import annotations

from datetime import UTC, datetime
from importlib import import_module
from typing import Any

from pourwright import app, compiled_before
from pourwright.app.which import chosen_variants
from pourwright.app.working.answers import keep_answer, keep_paper
from pourwright.app.working.orders import Order
from pourwright.foundation.progress import Progress

FIRST = "compiling once on this computer, a minute or two; later runs are quick"


def plan(order: Order, progress: Progress) -> dict[str, Any]:
    """Plan a job into the folder ``plan`` beside it.

    Parameters
    ----------
    order : Order
        With `PlanOptions`.
    progress : Progress
        Told what is done.

    Returns
    -------
    dict
        Names of the variants that were planned, and for when.

    Raises
    ------
    UserError
        For a job that cannot be planned.
    """
    _prepare(progress)
    made = app.plan_job(order.job(), variant=order.variant, progress=progress, **order.options)
    return {"variants": [one.job.variant for one in made.plans]}


def mold(order: Order, progress: Progress) -> dict[str, Any]:
    """Work out the mold of a variant and keep its sheet.

    Parameters
    ----------
    order : Order
        Without options.
    progress : Progress
        Told what is done.

    Returns
    -------
    dict
        The variant, and where the sheet is kept.

    Raises
    ------
    UserError
        For a job that no mold can be made for.
    """
    _prepare(progress)
    report = app.mold_job(order.job(), variant=order.variant, progress=progress, now=datetime.now(UTC))
    return keep_answer("mold", order, report.sheet)


def fill(order: Order, progress: Progress) -> dict[str, Any]:
    """Work out the fill of a variant and keep its sheet.

    Parameters
    ----------
    order : Order
        With `FillOptions`.
    progress : Progress
        Told what is done.

    Returns
    -------
    dict
        The variant, and where the sheet is kept.

    Raises
    ------
    UserError
        For a job that cannot be filled.
    """
    _prepare(progress)
    report = app.fill_job(order.job(), variant=order.variant, progress=progress, **order.options)
    return keep_answer("fill", order, report.sheet)


def cut(order: Order, progress: Progress) -> dict[str, Any]:
    """Work out what is sawn for a variant, and keep it with its paper.

    Parameters
    ----------
    order : Order
        Without options.
    progress : Progress
        Told what is done.

    Returns
    -------
    dict
        The variant, and where the list and its paper are kept.

    Raises
    ------
    UserError
        For a job that nothing can be sawn for.
    """
    _prepare(progress)
    job = chosen_variants(order.job(), order.variant)[0]
    sheet, paper = app.cut_with_paper(job, datetime.now(UTC), progress)
    return keep_answer("cut", order, sheet) | {"paper": keep_paper("cut", job, paper)}


def read(order: Order, progress: Progress) -> dict[str, Any]:
    """Read the shape of a variant, find what its first numbers need, and keep it.

    Parameters
    ----------
    order : Order
        Without options.
    progress : Progress
        Told what is done.

    Returns
    -------
    dict
        Triangles of the shape.

    Raises
    ------
    UserError
        For a shape that cannot be used.
    """
    _prepare(progress)
    reading = import_module("pourwright.app.answering.reading")
    job = chosen_variants(order.job(), order.variant)[0]
    return {"variant": job.variant_name, "triangles": reading.read_for_answers(job, progress)}


def _prepare(progress: Progress) -> None:
    if not compiled_before():
        progress.step(FIRST, 0, 1)
