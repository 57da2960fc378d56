"""JSON Schemas of the job file, of the plan document and of the heat document."""

from __future__ import annotations

from typing import Any

from pourwright.jobs.heat import HeatDocument
from pourwright.jobs.job import Job
from pourwright.jobs.plan import PlanDocument

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def job_schema() -> dict[str, Any]:
    """Describe the job file.

    Returns
    -------
    dict
        JSON Schema of the tables as TOML gives them.
    """
    return {"$schema": DIALECT, **Job.model_json_schema(by_alias=True)}


def plan_schema() -> dict[str, Any]:
    """Describe the plan document.

    Returns
    -------
    dict
        JSON Schema of ``plan.json``.
    """
    return {"$schema": DIALECT, **PlanDocument.model_json_schema(by_alias=True, mode="serialization")}


def heat_schema() -> dict[str, Any]:
    """Describe the heat document.

    Returns
    -------
    dict
        JSON Schema of what `pourwright heat --json` prints.
    """
    return {"$schema": DIALECT, **HeatDocument.model_json_schema(by_alias=True, mode="serialization")}
