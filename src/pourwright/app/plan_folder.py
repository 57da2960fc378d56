"""The folder of a plan."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from pourwright.app.heat_file import heat_file, plan_bytes
from pourwright.app.molding.folder import OF_A_MOLD
from pourwright.app.own_folder import OwnFolder
from pourwright.app.pairing.network import own_names
from pourwright.app.plan_files import HEAT_FILE, PLAN, PLAN_FILE, folder_name
from pourwright.jobs.job import Job
from pourwright.jobs.plan import SCHEMA, PlanDocument
from pourwright.pour.snapshots import Recording
from pourwright.sheets import sheet_files

# as many drawings as pours and pages: those of an older plan with more of them go
FLEETING = ("drawings/temperature-pour-??.*", "drawings/calendar*.svg", "drawings/what-matters-??.svg")
PLAN_FOLDER = OwnFolder(
    "a plan", PLAN_FILE, SCHEMA.partition("/")[0] + "/", (*FLEETING, *(f"mold/{name}" for name in OF_A_MOLD))
)


def plan_place(job: Job, one: Job, folder: Path | None = None) -> Path:
    """Say where the plan of a variant is written.

    Parameters
    ----------
    job : Job
        As loaded.
    one : Job
        One of its variants; each has a folder of its own where the job tells variants.
    folder : Path, optional
        Of all plans; else ``plan`` beside the job file.

    Returns
    -------
    Path
        It need not exist.
    """
    plans = folder or job.path.parent / PLAN
    return plans / folder_name(one.variant_name) if job.variant else plans


def write_plan(
    plan: PlanDocument,
    folder: Path,
    recording: Recording | None = None,
    besides: Mapping[str, bytes] = MappingProxyType({}),
) -> tuple[Path, ...]:
    """Write plan.json, the heat file and all sheets, all or nothing.

    Parameters
    ----------
    plan : PlanDocument
        The plan.
    folder : Path
        Replaced as a whole; what the maker has put beside an older plan is carried over.
    recording : Recording, optional
        Of the plan's final run; without it there is no heat file.
    besides : mapping
        Further files by name.

    Returns
    -------
    tuple of Path
        The files by name.

    Raises
    ------
    UserError
        For a folder that is no place for a plan.
    """
    made = sheet_files(plan, own_names()[-1]) | dict(besides)
    made[PLAN_FILE] = plan_bytes(plan)
    if recording is not None:
        made[HEAT_FILE] = heat_file(plan, recording)
    return tuple(sorted(PLAN_FOLDER.write(folder, made)))
