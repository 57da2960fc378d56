"""The cheap answers about one variant of a job."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from types import MappingProxyType

from pourwright.app.answering.bands import bands_told
from pourwright.app.answering.desk import Desk
from pourwright.app.answering.document import Answers, BandsTold, Section, Wrong
from pourwright.app.answering.fill_section import fill_section, pour_section
from pourwright.app.answering.findings import findings_told
from pourwright.app.answering.looked import CheapLook
from pourwright.app.answering.mold_section import mold_section
from pourwright.app.answering.paper_section import paper_section
from pourwright.app.answering.piece_section import piece_section
from pourwright.app.which import chosen_variants
from pourwright.foundation.errors import UserError
from pourwright.jobs import load_job
from pourwright.jobs.job import Job

READ = "read"
"""The kind of run that reads a large shape and finds what is not found while somebody waits."""
OLD = "from before the last change: what is written now is refused"
WAITING = "from before: the new ones are not there yet"
_BAND = re.compile(r"\bband\[(\d+)\]")

TELLERS: Mapping[str, Callable[[CheapLook], Section]] = MappingProxyType(
    {
        "piece": piece_section,
        "mold": mold_section,
        "fill": fill_section,
        "pour": pour_section,
        "paper": paper_section,
    }
)
"""In order of the work."""


def answers_of(desk: Desk, folder: Path, variant: str | None = None) -> Answers:
    """Tell what is cheap to tell; never raises for what the maker wrote.

    Parameters
    ----------
    desk : Desk
        With what is kept.
    folder : Path
        Of the job.
    variant : str, optional
        Name of one; the first where left out.

    Returns
    -------
    Answers
        With the last good ones, marked old, where the job is refused now.
    """
    if desk.starting:
        return _waiting(desk, folder, variant, {"state": "starting"})
    try:
        job = desk.job(folder, variant)
        look = desk.look(job)
    except UserError as error:
        return _refused(desk, folder, variant, error)
    if look is None:
        return _waiting(desk, folder, variant, {"state": "reading", "wants": [READ], "units": job.units})
    answers = _answers(look, desk.last(folder, job.variant_name))
    desk.keep_last(folder, job.variant_name, answers)
    desk.keep_last(folder, variant, answers)
    return answers


def job_of(folder: Path, variant: str | None) -> Job:
    """Load one variant of a job.

    Parameters
    ----------
    folder : Path
        Of the job.
    variant : str or None
        Name of one; the first where left out.

    Returns
    -------
    Job

    Raises
    ------
    UserError
        For a job that cannot be used.
    """
    return chosen_variants(load_job(folder), variant)[0]


def filled_look(desk: Desk, folder: Path, variant: str | None) -> CheapLook:
    """Design one variant of a job that has bands.

    Parameters
    ----------
    desk : Desk
        With what is kept.
    folder : Path
        Of the job.
    variant : str or None
        Name of one; the first where left out.

    Returns
    -------
    CheapLook
        With a setup.

    Raises
    ------
    UserError
        For a job that cannot be used, one without bands, and a shape that is not read yet.
    """
    if desk.starting:
        raise UserError("the program is getting ready", todo="wait until its first numbers are there")
    look = desk.look(desk.job(folder, variant))
    if look is None:
        raise UserError("the shape is still being read", todo="wait until its first numbers are there")
    if look.setup is None:
        name = look.mold_look.casting.name
        raise UserError(f"{name} has no bands", where="casting.material", todo="choose a resin for bands")
    return look


def wrong_of(error: UserError) -> Wrong:
    """Write a refusal, with the band it is about.

    Parameters
    ----------
    error : UserError
        As raised.

    Returns
    -------
    Wrong
    """
    found = _BAND.search(error.where) or _BAND.search(error.what)
    band = int(found[1]) if found else None
    return Wrong(what=error.what, where=error.where, allowed=error.allowed, todo=error.todo, band=band)


def _answers(look: CheapLook, last: Answers | None) -> Answers:
    sections = {name: tell(look) for name, tell in TELLERS.items()}
    findings, waiting = findings_told(look)
    missing = bool(look.blocks_missing) or look.skin_missing
    return Answers(
        variant=look.job.variant_name,
        units=look.job.units,
        state="ready",
        wants=[READ] if missing or waiting else [],
        sections=dict(_with_last(sections, last) if missing else sections.items()),
        fill=BandsTold() if look.setup is None else bands_told(look.setup),
        findings=findings,
    )


def _with_last(sections: Mapping[str, Section], last: Answers | None) -> Iterator[tuple[str, Section]]:
    """What rests on something that is still looked for stays as it was, where it was ever known."""
    for name, section in sections.items():
        before = None if last is None else last.sections.get(name)
        if section.old and before is not None and (not before.old or before.old.startswith("from before")):
            yield name, before.model_copy(update={"old": f"from before: {section.old}"})
        else:
            yield name, section


def _refused(desk: Desk, folder: Path, variant: str | None, error: UserError) -> Answers:
    last = desk.last(folder, variant)
    return _aside(last, variant, {"state": "error", "error": wrong_of(error), "old": OLD})


def _waiting(desk: Desk, folder: Path, variant: str | None, update: Mapping[str, object]) -> Answers:
    last = desk.last(folder, variant)
    return _aside(last, variant, {"error": None, "old": "" if last is None else WAITING, **update})


def _aside(last: Answers | None, variant: str | None, update: Mapping[str, object]) -> Answers:
    """What was last known of the job, with what is to be said now."""
    if last is None:
        last = Answers(variant=variant or "", units="metric", state="reading", wants=[])
    return last.model_copy(update={"wants": [], **update})
