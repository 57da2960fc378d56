"""Answers that are there, each with whether it is of today's choices."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from pourwright.app.job_texts import kept_job
from pourwright.app.learnt.used import used_by, used_in_sheets
from pourwright.app.plan_files import plan_file
from pourwright.app.which import chosen_variants
from pourwright.app.working.answers import answer_key, digest_of, kept_answer, material_files, shape_files
from pourwright.app.working.differences import differences
from pourwright.app.working.learnt_since import learnt_since
from pourwright.app.working.works import Works
from pourwright.foundation.errors import UserError
from pourwright.jobs import load_job
from pourwright.jobs.job import Job

Standing = dict[str, Any]
CHOICES, LEARNT = "made from other choices", "your shop has learnt anew"
_ELSE = "the shop's materials or the program are others than they were"


def plan_of(file: Path, variant: str | None = None) -> Standing:
    """Give the plan of a variant that lies on disk.

    Parameters
    ----------
    file : Path
        The job file.
    variant : str, optional
        Else the first.

    Returns
    -------
    dict
        ``document`` (None where there is none), ``old``, ``word`` (why, in short), ``because`` (sentences),
        ``made`` (ISO 8601).
    """
    place = plan_place_of(file, variant)
    document = _read(place)
    if document is None:
        return _standing(None, [])
    try:
        job = chosen_variants(load_job(file), variant)[0]
    except UserError as error:
        return _standing(document, [_broken(error, file)])
    others = [*_because(document, job), *_newer_materials(job, place)]
    return _standing(document, others, list(learnt_since(document, used_by(job), job.units)))


def plan_place_of(file: Path, variant: str | None) -> Path:
    """Say where the plan of a variant lies.

    Parameters
    ----------
    file : Path
        The job file.
    variant : str or None
        Else the first.

    Returns
    -------
    Path
        Its plan.json, which need not be there; what was asked for is believed where the job has an error.
    """
    try:
        job = load_job(file)
        one = chosen_variants(job, variant)[0]
    except UserError:
        alone = plan_file(file, None)
        return alone if variant is None or alone.exists() else plan_file(file, variant)
    return plan_file(file, one.variant_name if job.variant else None)


def sheet_of(works: Works, file: Path, what: str, variant: str | None = None) -> Standing:
    """Give the mold sheet or the fill sheet of a variant that is kept.

    Parameters
    ----------
    works : Works
        Knows where the latest is kept.
    file : Path
        The job file.
    what : str
        "mold", "fill" or "cut".
    variant : str, optional
        Else the first.

    Returns
    -------
    dict
        As from `plan_of`.
    """
    latest = works.answers(file.parent).get(what, {})
    try:
        job = chosen_variants(load_job(file), variant)[0]
    except UserError as error:
        return _standing(_kept(latest.get(variant or "main")), [_broken(error, file)])
    document = kept_answer(answer_key(what, job))
    if document is not None:
        return _standing(document, [])
    document = _kept(latest.get(job.variant_name))
    if document is None:
        return _standing(None, [])
    others = list(_because(document, job))
    learnt = list(learnt_since(document, used_in_sheets(job), job.units))
    return _standing(document, others if others or learnt else [_ELSE], learnt)


def standings(works: Works, file: Path, variant: str | None = None) -> dict[str, Standing]:
    """Say of plan, mold and fill whether they are there and of today's choices.

    Parameters
    ----------
    works : Works
        Of this server.
    file : Path
        The job file.
    variant : str, optional
        Else the first.

    Returns
    -------
    dict
        By name, as from `plan_of`, but ``there`` in place of the document.
    """
    found = {"plan": plan_of(file, variant)}
    found |= {what: sheet_of(works, file, what, variant) for what in ("mold", "fill")}
    return {what: {"there": one.pop("document") is not None, **one} for what, one in found.items()}


def _standing(document: dict[str, Any] | None, others: list[str], learnt: Sequence[str] = ()) -> Standing:
    there = document is not None
    because = [*others, *learnt] if there else []
    return {
        "document": document,
        "old": bool(because),
        "word": "" if not because else CHOICES if others else LEARNT,
        "because": because,
        "made": (document or {}).get("computed_for"),
    }


def _because(document: dict[str, Any], job: Job) -> Iterator[str]:
    """Say what an answer was made from otherwise than from what there is today."""
    inputs = document.get("inputs") or {}
    now = {one.name: digest_of(one) for one in shape_files(job)}
    digest = inputs.get(job.path.name, "")
    if digest != job.digest:
        yield from _otherwise(digest, job)
    for name, its in now.items():
        if inputs.get(name, its) != its:
            yield f"the file {name} is another than it was"


def _otherwise(digest: str, job: Job) -> Iterator[str]:
    before = kept_job(digest)
    if before is None:
        yield "the job file was changed after it"
        return
    same = [one for one in before.variants() if one.variant_name == job.variant_name]
    if not same:
        yield f"the job had no variant called '{job.variant_name}'"
        return
    yield from differences(same[0], job)


def _newer_materials(job: Job, plan: Path) -> Iterator[str]:
    written = plan.stat().st_mtime_ns
    for one in material_files(job):
        if one.stat().st_mtime_ns > written:
            yield f"the shop's {one.name} was changed after it"


def _broken(error: UserError, file: Path) -> str:
    return f"the job file has an error now: {error}".replace(f"{file.parent}{os.sep}", "")


def _kept(key: str | None) -> dict[str, Any] | None:
    return None if key is None else kept_answer(key)


def _read(file: Path) -> dict[str, Any] | None:
    try:
        found = json.loads(file.read_text("utf8"))
    except (OSError, ValueError):
        return None
    return found if isinstance(found, dict) else None
