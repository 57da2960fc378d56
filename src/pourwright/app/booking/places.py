"""Where the book of a shop lies, and the plans that lie beside a job."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from pourwright.foundation.errors import ConflictError, NotThereError, UserError
from pourwright.jobs import read_plan
from pourwright.jobs.plan import PlanDocument
from pourwright.records import BOOK_FILE, Book, Plan, document_of, keep_plan, plan_by_hash

_ABOVE = 4


def book_place(folder: Path) -> Path:
    """Say where the book of a shop lies.

    Parameters
    ----------
    folder : Path
        Of the shop, or of one of its jobs.

    Returns
    -------
    Path
        In the nearest folder upwards that has a book, else that has ``shop.toml`` or ``materials``; else
        beside the jobs' folders. It need not exist.
    """
    here = folder.resolve()
    above = (here, *here.parents[:_ABOVE])
    for marks in ((BOOK_FILE,), ("shop.toml", "materials")):
        for each in above:
            if any((each / mark).exists() for mark in marks):
                return each / BOOK_FILE
    return (here.parent if (here / "job.toml").exists() else here) / BOOK_FILE


def job_folder(job: Path) -> Path:
    """Find a job's folder.

    Parameters
    ----------
    job : Path
        The folder, or the job file in it.

    Returns
    -------
    Path

    Raises
    ------
    NotThereError
        Where there is no job.
    """
    folder = job if job.is_dir() else job.parent
    if not job.exists() or not (folder / "job.toml").is_file():
        raise NotThereError("no job is there", where=str(job), todo="name its folder or its job.toml")
    return folder


@dataclass(frozen=True)
class PlanOnDisk:
    """A plan as it lies in a job's folder.

    Parameters
    ----------
    job : str
        Name of the job's folder.
    text : str
        Its plan.json.
    plan : PlanDocument
        The same, read.
    hash : str
        sha256 of the file.
    place : Path, optional
        Its folder; None where only the book has it.
    """

    job: str
    text: str
    plan: PlanDocument
    hash: str
    place: Path | None = None

    @property
    def variant(self) -> str:
        """Which variant of the job it plans."""
        return self.plan.job.variant

    def kept(self, book: Book) -> Plan:
        """The plan in the book, put there where it is not."""
        said = self.plan
        return keep_plan(
            book,
            Plan(
                id=0,
                hash=self.hash,
                version=said.version,
                job=self.job,
                variant=said.job.variant,
                title=said.job.title,
                made=_made(said.computed_for),
            ),
            self.text,
        )


def plans_on_disk(folder: Path) -> tuple[PlanOnDisk, ...]:
    """Read the plans of a job.

    Parameters
    ----------
    folder : Path
        Of the job.

    Returns
    -------
    tuple of PlanOnDisk
        One for each variant that has one.

    Raises
    ------
    UserError
        For a plan that cannot be read.
    """
    plans = folder / "plan"
    files = [plans / "plan.json", *sorted(plans.glob("*/plan.json"))]
    return tuple(_read(folder, file) for file in files if file.is_file())


def plan_on_disk(folder: Path, variant: str | None = None) -> PlanOnDisk:
    """Read the plan of a job that is meant.

    Parameters
    ----------
    folder : Path
        Of the job.
    variant : str, optional
        Needed where the job has plans of several.

    Returns
    -------
    PlanOnDisk

    Raises
    ------
    NotThereError
        Where there is no such plan.
    UserError
        Where it is not said which of several.
    """
    found = plans_on_disk(folder)
    if not found:
        raise NotThereError(
            "this job has no plan yet", where=str(folder), todo="make one: pourwright plan JOB"
        )
    names = ", ".join(one.variant for one in found)
    if variant is None and len(found) > 1:
        raise UserError("which variant is it?", where="--variant", allowed=names, todo="name one")
    for one in found:
        if variant in (None, one.variant):
            return one
    what = f"no plan of a variant '{variant}'"
    raise NotThereError(what, where="--variant", allowed=names, todo="name one, or plan it first")


def plan_of_hash(book: Book, folder: Path, sha256: str) -> PlanOnDisk:
    """Find a plan by its hash, beside the job or in the book.

    Parameters
    ----------
    book : Book
        Open.
    folder : Path
        Of the job.
    sha256 : str
        Of its plan.json.

    Returns
    -------
    PlanOnDisk

    Raises
    ------
    ConflictError
        Where there is no such plan any more.
    """
    for one in plans_on_disk(folder):
        if one.hash == sha256:
            return one
    kept = plan_by_hash(book, sha256, folder.resolve().name) or plan_by_hash(book, sha256)
    if kept is None:
        raise ConflictError(
            "the plan that this was entered under is no longer there",
            where="plan",
            todo="enter it again under the plan of today",
        )
    text = document_of(book, kept.id)
    return PlanOnDisk(kept.job, text, read_plan(json.loads(text)), sha256)


def _read(folder: Path, file: Path) -> PlanOnDisk:
    try:
        content = file.read_bytes()
        text = content.decode("utf8")
        raw = json.loads(text)
    except (OSError, ValueError) as error:
        what = f"the plan cannot be read: {error}"
        raise UserError(what, where=str(file), todo="make it again: pourwright plan JOB") from None
    plan = read_plan(raw, str(file))
    return PlanOnDisk(folder.resolve().name, text, plan, hashlib.sha256(content).hexdigest(), file.parent)


def _made(computed_for: str) -> datetime:
    moment = datetime.fromisoformat(computed_for)
    return moment if moment.tzinfo else moment.replace(tzinfo=UTC)
