"""The sheets of a job: which there are, how many pages, whether they still belong to its choices."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pourwright.app.papering.pages import page_count
from pourwright.app.papering.told_sheets import kept_sheet, made_sheet
from pourwright.app.plan_folder import plan_place
from pourwright.app.which import chosen_variants
from pourwright.app.working.standing import plan_of, plan_place_of
from pourwright.foundation.errors import NotThereError, UserError
from pourwright.jobs import load_job
from pourwright.jobs.hashes import input_hashes
from pourwright.jobs.job import Job
from pourwright.jobs.plan import JobInfo
from pourwright.sheets.wording import Wording

PLAN, MOLD, CUT, FILL = "plan", "mold", "cut", "fill"
TITLES = {PLAN: "Pour plan", MOLD: "Mold sheet", CUT: "Cut list", FILL: "Fill sheet"}
WORDS = {
    PLAN: "What to buy, the calendar, a ticket for each pour, temperatures, how sure it is, the dip-stick.",
    MOLD: "How the mold is made: box, rubber, space blocks, hold-down, seams, the way out.",
    CUT: "What is sawn from which board, cut by cut; master, panels, space blocks; how they come together.",
    FILL: "What goes into the mold: glass by grade and colour, bands, voids, resin in batches.",
}
CALENDAR = "calendar.ics"


@dataclass(frozen=True)
class Sheet:
    """One sheet on paper.

    Parameters
    ----------
    name : str
        In its address: plan, mold, cut or fill.
    title, words : str
        What it is, and what is on it.
    pages : int
        0 where it is not made yet.
    paper : str
        Size of its pages, as the job says.
    size : int
        Bytes.
    made : str
        When, on the shop's clock; empty where that is not told.
    old : bool
        Whether the job has changed since.
    because : list of str
        What has changed, a sentence each, where that is known.
    can_make : bool
        Whether it is made when somebody asks for it: all but a plan are.
    """

    name: str
    title: str
    words: str
    pages: int
    paper: str
    size: int
    made: str
    old: bool
    because: list[str]
    can_make: bool


@dataclass(frozen=True)
class Found:
    """A sheet that is there: what it holds, when it was made, how it is old."""

    pdf: bytes
    made: str
    paper: str
    old: bool = False
    because: Sequence[str] = ()


@dataclass(frozen=True)
class Papers:
    """The paper of one variant of a job.

    Parameters
    ----------
    file : Path
        The job file.
    plan_folder : Path
        Where its plan is written.
    one : Job or None
        The variant; None while the job file has an error, when only what was made before can be shown.
    several : bool
        Whether the job has other variants.
    """

    file: Path
    plan_folder: Path
    one: Job | None
    several: bool

    @property
    def has_calendar(self) -> bool:
        """Whether there is a calendar file."""
        return (self.plan_folder / CALENDAR).is_file()

    def sheets(self) -> list[Sheet]:
        """List the sheets.

        Returns
        -------
        list of Sheet
            In the order of the work; a plan only where there is one.
        """
        return [sheet for name in TITLES if (sheet := self._sheet(name)) is not None]

    def pdf(self, name: str, *, fresh: bool = False) -> bytes:
        """Give a sheet; all but a plan are made where they are not there yet.

        Parameters
        ----------
        name : str
            Of a sheet.
        fresh : bool
            Whether a sheet other than a plan is made again where the job has changed since.

        Returns
        -------
        bytes
            A PDF file.

        Raises
        ------
        UserError
            For a name that is none, a plan that is not there, a job that will not do.
        """
        if name not in TITLES:
            raise NotThereError(
                f"no sheet called '{name}'", allowed=", ".join(TITLES), todo="name one of these"
            )
        found = self._found(name)
        if found is not None and (name == PLAN or not (fresh and found.old)):
            return found.pdf
        if name == PLAN:
            raise NotThereError("this job has no plan yet", todo="make the plan first")
        # a job file with an error says here where it stands
        one = self.one or load_job(self.file)
        return made_sheet(one, name)

    def calendar(self) -> bytes:
        """Give the calendar file of the plan.

        Returns
        -------
        bytes
            Lines of RFC 5545.

        Raises
        ------
        UserError
            Where there is no plan.
        """
        if not self.has_calendar:
            raise NotThereError("this job has no plan yet, so nothing is due", todo="make the plan first")
        return (self.plan_folder / CALENDAR).read_bytes()

    def _sheet(self, name: str) -> Sheet | None:
        found = self._found(name)
        makes = name != PLAN and self.one is not None
        if found is None and not makes:
            return None
        there = found or Found(b"", "", "A4" if self.one is None else self.one.paper_size)
        return Sheet(
            name=name,
            title=TITLES[name],
            words=WORDS[name],
            pages=page_count(there.pdf) if there.pdf else 0,
            paper=there.paper,
            size=len(there.pdf),
            made=there.made,
            old=there.old,
            because=list(there.because),
            can_make=makes,
        )

    def _found(self, name: str) -> Found | None:
        """The sheet of the present choices where there is one; else an old one."""
        told = [each for each in self._read_all(name) if each is not None]
        fresh = next((each for each in told if not each.old), None)
        if fresh is None and name != PLAN and self.one is not None:
            kept = kept_sheet(self.one, name)
            fresh = None if kept is None else Found(kept, "", self.one.paper_size)
        return fresh or next(iter(told), None)

    def _read_all(self, name: str) -> Iterator[Found | None]:
        """What lies with the plan, and what the maker had written by command."""
        standing = plan_of(self.file, None if self.one is None else self.one.variant_name)
        yield _read(self.plan_folder if name == PLAN else self.plan_folder / name, name, standing)
        if name != PLAN and not self.several:
            folder = self.file.parent / name
            if (folder / f"{name}.json").is_file():
                yield _read(folder, name, self._standing_of(folder / f"{name}.json"))

    def _standing_of(self, document: Path) -> Mapping[str, Any]:
        told = _json(document).get("inputs")
        return {"old": self.one is None or told != input_hashes(self.one), "because": []}


def _read(folder: Path, name: str, standing: Mapping[str, Any]) -> Found | None:
    try:
        pdf, about = (folder / f"{name}.pdf").read_bytes(), _json(folder / f"{name}.json")
        job = JobInfo.model_validate(about["job"])
        made = Wording(job).dated(str(about["computed_for"]))
    except (OSError, ValueError, KeyError):
        return None
    return Found(pdf, made, job.paper, bool(standing["old"]), standing["because"])


def _json(file: Path) -> dict[str, Any]:
    """What a document says; nothing where it cannot be read."""
    try:
        told = json.loads(file.read_text("utf8"))
    except (OSError, ValueError):
        return {}
    return told if isinstance(told, dict) else {}


def papers_of(path: Path, variant: str | None = None) -> Papers:
    """Look at the paper of a job, also where the job file has an error now.

    Parameters
    ----------
    path : Path
        Job file.
    variant : str, optional
        Which variant; else the first.

    Returns
    -------
    Papers

    Raises
    ------
    UserError
        For a variant that the job does not have.
    """
    try:
        job = load_job(path)
    except UserError:
        return Papers(path, plan_place_of(path, variant).parent, None, several=True)
    one = chosen_variants(job, variant)[0]
    return Papers(path, plan_place(job, one), one, several=bool(job.variant))
