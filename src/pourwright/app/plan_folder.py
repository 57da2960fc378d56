"""The folder of a plan: all of it or nothing, and never at the cost of the maker's other files."""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from pourwright.app.heat_file import heat_file, plan_bytes
from pourwright.foundation.errors import UserError
from pourwright.foundation.files import staged_folder
from pourwright.jobs.plan import SCHEMA, PlanDocument
from pourwright.pour.snapshots import Recording
from pourwright.sheets import sheet_files

PLAN_FILE, HEAT_FILE = "plan.json", "heat.h5"
_ANY_VERSION = SCHEMA.partition("/")[0] + "/"


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
    made = sheet_files(plan) | dict(besides)
    made[PLAN_FILE] = plan_bytes(plan)
    if recording is not None:
        made[HEAT_FILE] = heat_file(plan, recording)
    refuse_foreign(folder)
    with staged_folder(folder) as stage:
        _keep_foreign(folder, stage, made)
        for name, content in made.items():
            place = stage / name
            place.parent.mkdir(parents=True, exist_ok=True)
            place.write_bytes(content)
    return tuple(folder / name for name in sorted(made))


def refuse_foreign(folder: Path) -> None:
    """Refuse a place where a plan cannot be written, or that belongs to something else.

    Parameters
    ----------
    folder : Path
        Where the plan is to go; it need not exist.

    Raises
    ------
    UserError
        For a file, a folder that holds other things and no plan, the folder one is in, and a place
        that cannot be written to.
    """
    _refuse_unwritable(folder)
    if not folder.exists():
        return
    if not folder.is_dir() or (any(folder.iterdir()) and not _is_plan(folder / PLAN_FILE)):
        raise UserError(
            "the folder for the plan holds other things" if folder.is_dir() else "this is a file",
            where=str(folder),
            allowed="a new folder, an empty one, or one that holds a plan",
            todo="name another with --out",
        )


def _refuse_unwritable(folder: Path) -> None:
    place = folder.absolute()
    if place == Path.cwd():
        todo = "name a folder inside it with --out"
        raise UserError("this is the folder you are in", where=str(folder), todo=todo)
    above = next(above for above in place.parents if above.exists())
    if not above.is_dir() or not os.access(above, os.W_OK | os.X_OK):
        what = f"nothing can be written into '{above}'"
        raise UserError(what, where=str(folder), todo="name another folder with --out")


def _is_plan(file: Path) -> bool:
    try:
        found = json.loads(file.read_text("utf8"))
    except (OSError, ValueError):
        return False
    return isinstance(found, dict) and str(found.get("schema")).startswith(_ANY_VERSION)


def _keep_foreign(folder: Path, stage: Path, made: Mapping[str, bytes]) -> None:
    if not folder.is_dir():
        return
    ours = {Path(name) for name in made}
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder)
        if name in ours or (path.is_dir() and not path.is_symlink()):
            continue
        (stage / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy2(path, stage / name, follow_symlinks=False)
