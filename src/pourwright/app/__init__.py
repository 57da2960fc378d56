"""What is done in the shop, one function each: describe a shape, start a job, check, plan, heat, fit."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pourwright.app.checking import CheckReport as CheckReport, check_job as check_job
    from pourwright.app.filling.filling import FillReport as FillReport, fill_job as fill_job
    from pourwright.app.fitting import FitReport as FitReport, fit_resin as fit_resin
    from pourwright.app.heating import heat_job as heat_job
    from pourwright.app.molding.molding import MoldReport as MoldReport, mold_job as mold_job
    from pourwright.app.planning import PlanDocuments as PlanDocuments, plan_job as plan_job
    from pourwright.app.shapes import ShapeReport as ShapeReport, describe_shape as describe_shape
    from pourwright.app.starting import (
        JobChoices as JobChoices,
        job_choices as job_choices,
        new_job as new_job,
    )
    from pourwright.app.warming import warm_up as warm_up

_PUBLIC = {
    "CheckReport": "checking",
    "FillReport": "filling.filling",
    "FitReport": "fitting",
    "JobChoices": "starting",
    "MoldReport": "molding.molding",
    "PlanDocuments": "planning",
    "ShapeReport": "shapes",
    "check_job": "checking",
    "describe_shape": "shapes",
    "fill_job": "filling.filling",
    "fit_resin": "fitting",
    "heat_job": "heating",
    "job_choices": "starting",
    "mold_job": "molding.molding",
    "new_job": "starting",
    "plan_job": "planning",
    "warm_up": "warming",
}
__all__ = sorted(_PUBLIC)  # noqa: PLE0605 - names are looked up on first use


def __getattr__(name: str) -> object:
    if name not in _PUBLIC:
        message = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(message)
    return getattr(import_module(f"{__name__}.{_PUBLIC[name]}"), name)
