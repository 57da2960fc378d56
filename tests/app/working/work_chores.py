"""Long work that a test can watch: importable, so that a process of its own can do it."""

import os
import time
from pathlib import Path
from typing import Any

from pydantic import BaseModel

from pourwright.app.working.answers import keep_answer
from pourwright.app.working.kinds import Kind
from pourwright.app.working.orders import NoOptions, Order
from pourwright.foundation.errors import UserError
from pourwright.foundation.files import staged_folder
from pourwright.foundation.progress import Progress
from pourwright.jobs import input_hashes

MADE = "2026-12-01T12:00:00+00:00"


class Where(NoOptions):
    """Where a test looks."""

    folder: str


def quick(order: Order, progress: Progress) -> dict[str, Any]:
    progress.step("half of it", 1, 2)
    return {"digest": order.digest, "title": order.job().title}


def slow(order: Order, progress: Progress) -> dict[str, Any]:
    progress.step("sitting there", 1, 4)
    (Path(order.options["folder"]) / f"{order.file.parent.name}.ids").write_text(str(os.getpid()))
    time.sleep(600)
    return {}


def gated(order: Order, progress: Progress) -> dict[str, Any]:
    progress.step("at the gate", 1, 4)
    while not (Path(order.options["folder"]) / "gate").exists():
        time.sleep(0.02)
    return {}


class Sheet(BaseModel):
    """Stands for a mold sheet."""

    computed_for: str
    inputs: dict[str, str]


def sheet(order: Order, progress: Progress) -> dict[str, Any]:
    return keep_answer("mold", order, Sheet(computed_for=MADE, inputs=input_hashes(order.job())))


def refuse(order: Order, progress: Progress) -> dict[str, Any]:
    raise UserError("it runs hotter than allowed", where="limits.peak", allowed="60 degC", todo="pour less")


def half_written(order: Order, progress: Progress) -> dict[str, Any]:
    """Killed between the old plan's leaving and the new one's coming."""
    plan = order.file.parent / "plan"
    (plan.parent / ".plan.aaaaaaaa").mkdir()
    (plan.parent / ".plan.aaaaaaaa" / "plan.json").write_text("new")
    (plan.parent / ".plan.old.bbbbbbbb").mkdir()
    plan.rename(plan.parent / ".plan.old.bbbbbbbb" / "content")
    with staged_folder(plan.parent / "other") as stage:
        (stage / "x").write_text("y")
        return slow(order, progress)


KINDS = {
    kind.what: kind
    for kind in (
        Kind("quick", "a quick look", quick, heavy=False),
        Kind("mold", "making a sheet", sheet),
        Kind("gated", "waiting at the gate", gated, Where),
        Kind("slow", "sitting there for ever", slow, Where),
        Kind("refuse", "trying the impossible", refuse),
        Kind("half", "leaving half a plan", half_written, Where),
    )
}
