"""What the shelf says of each job, without working anything out."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from pourwright.app.shelf.places import JobPlace, job_places
from pourwright.app.working.standing import plan_of
from pourwright.foundation.errors import UserError
from pourwright.jobs import load_job
from pourwright.jobs.job import Job

PLAN = "plan/plan.json"


def shelf_of(shop: Path) -> dict[str, Any]:
    """Describe the shelf.

    Parameters
    ----------
    shop : Path
        The shop folder.

    Returns
    -------
    dict
        ``folder`` and ``jobs``, the latest changed first.
    """
    cards = sorted(
        (card_of(place) for place in job_places(shop)), key=lambda card: card["changed"], reverse=True
    )
    return {"folder": shop.name or str(shop), "jobs": cards}


def card_of(place: JobPlace) -> dict[str, Any]:
    """Describe one job.

    Parameters
    ----------
    place : JobPlace
        Its folder.

    Returns
    -------
    dict
        ``name``, ``title``, ``variants``, ``state`` and its words, ``changed`` (ISO 8601, UTC), ``error``.
    """
    changed = datetime.fromtimestamp(place.file.stat().st_mtime, UTC).isoformat(timespec="seconds")
    card = {"name": place.name, "title": place.name, "variants": ["main"], "changed": changed, "error": None}
    try:
        job = load_job(place.file)
    except UserError as error:
        words = "the job file has an error"
        return card | {
            "state": "broken",
            "words": words,
            "error": str(error),
            "units": "metric",
            "invented": False,
        }
    state, words = _state(place, job)
    return card | {
        "title": job.title,
        "variants": [one.variant_name for one in job.variants()],
        "units": job.units,
        "invented": job.invented,
        "state": state,
        "words": words,
    }


def _state(place: JobPlace, job: Job) -> tuple[str, str]:
    plans = [plan_of(place.file, one.variant_name) for one in job.variants()]
    there = [plan for plan in plans if plan["document"] is not None]
    if not there:
        return "new", "no plan yet"
    if any(plan["old"] for plan in there):
        return "old", "planned, then changed: the plan is of older choices"
    if len(there) < len(plans):
        return "part", f"{len(there)} of {len(plans)} variants planned"
    return "planned", "planned"
