"""The plan that a cost is told from: the one that lies there, else one kept from before, else made now."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from pourwright.app.document.moments import iso
from pourwright.app.document.parts import piece_part
from pourwright.app.filling.look import look_at_fill
from pourwright.app.filling.mineral import mineral_look
from pourwright.app.hands import Work, open_hands
from pourwright.app.learnt.in_force import shop_materials
from pourwright.app.learnt.used import used_by
from pourwright.app.molding.look import look_at_mold
from pourwright.app.molding.ways import ways_look
from pourwright.app.planning import SPACING, plan_variant
from pourwright.app.shaping.piece import read_piece
from pourwright.app.working.answers import answer_key
from pourwright.app.working.standing import plan_of, plan_place_of
from pourwright.foundation.errors import UserError
from pourwright.foundation.files import canonical_json
from pourwright.foundation.progress import SILENT, Progress
from pourwright.jobs.cost_sheet import PlanUsed
from pourwright.jobs.fill_mineral import Mineral
from pourwright.jobs.job import Job
from pourwright.jobs.mold_ways import WayOfMold, Ways
from pourwright.jobs.plan import Piece, PlanDocument
from pourwright.runs import Cache, fingerprint

MOLD_FILE = "mold/mold.json"
AT_ONCE = "from fill and mold of the job, since it goes in at once: no pours are planned for it"


@dataclass(frozen=True)
class Planned:
    """A plan, or a fill that goes in at once; and how its mold is made.

    Parameters
    ----------
    plan : PlanDocument or None
        Whole; None for gypsum and concrete.
    mineral : Mineral or None
        Of those.
    piece : Piece
        As it is poured.
    inputs : mapping
        sha256 of each input file.
    ways : Ways
        Of making the mold, its work and its life in them.
    used : PlanUsed
        Where the plan is from.
    """

    plan: PlanDocument | None
    mineral: Mineral | None
    piece: Piece
    inputs: Mapping[str, str]
    ways: Ways
    used: PlanUsed

    @property
    def way(self) -> tuple[int, WayOfMold]:
        """The way that the job takes, with its place."""
        return next((at, way) for at, way in enumerate(self.ways.ways) if way.in_job)


def planned_for(job: Job, now: datetime, progress: Progress, *, quick: bool = False) -> Planned:
    """Get the plan of a variant.

    A plan that lies beside the job counts as long as it is of today's choices. Else one is made in passing
    and kept with its heat runs; nothing is written into the job's folder.
    """
    if job.casting.material in shop_materials(job).mineral:
        return _filled(job, now, progress)
    there = plan_of(job.path, job.variant_name)
    lying = None if there["document"] is None or there["old"] else lying_plan(job, _reckoned)
    if lying is not None:
        return lying
    key, why = plan_key(job, quick=quick), why_not(there)
    return kept_plan(key, why) or _made(job, key, why, now, progress, quick=quick)


def why_not(there: Mapping[str, Any]) -> str:
    """Say why a plan that should lie there is not taken."""
    if there["document"] is None:
        return "there is no plan yet"
    because = "; ".join(there["because"]) or "another version of the program made it"
    return f"the plan there is old: {because}"


def lying_plan(job: Job, otherwise: Callable[[Job], Ways | None]) -> Planned | None:
    """Read the plan that lies beside a job, of whichever choices it is.

    Parameters
    ----------
    job : Job
        The variant.
    otherwise : callable
        Gives the ways of making its mold where none lie beside the plan.

    Returns
    -------
    Planned or None
        None where none lies there, or no ways are known.
    """
    place = plan_place_of(job.path, job.variant_name)
    try:
        plan = PlanDocument.model_validate(json.loads(place.read_text("utf8")))
    except (OSError, ValueError, ValidationError):
        return None
    ways = _ways_of(place.parent / MOLD_FILE) or otherwise(job)
    if ways is None:
        return None
    where = place.relative_to(job.path.parent).as_posix()
    return _of_plan(plan, ways, PlanUsed(file=where, made=plan.computed_for, words=f"from {where}"))


def _of_plan(plan: PlanDocument, ways: Ways, used: PlanUsed) -> Planned:
    return Planned(plan, None, plan.piece, plan.inputs, ways, used)


def _filled(job: Job, now: datetime, progress: Progress) -> Planned:
    """Fill and mold of what is mixed with water, kept too: some seconds, and nothing is heated."""
    return kept_fill(job) or _filled_anew(job, now, progress)


def kept_fill(job: Job) -> Planned | None:
    """Give fill and mold of an earlier answer, of what is mixed with water; None where they are not there."""
    match Cache().get(_fill_key(job)):
        case (str(mineral), str(told), str(ways), str(inputs), str(moment)):
            fill, piece = Mineral.model_validate_json(mineral), Piece.model_validate_json(told)
            made, used = Ways.model_validate_json(ways), PlanUsed(file="", made=moment, words=AT_ONCE)
            return Planned(None, fill, piece, json.loads(inputs), made, used)
    return None


def _fill_key(job: Job) -> str:
    return plan_key(job, quick=False, what="fill for a cost")


def _filled_anew(job: Job, now: datetime, progress: Progress) -> Planned:
    piece = read_piece(job)
    look = look_at_fill(job, piece)
    told = piece_part(piece, look.piece_mass, look.casting.id, look.materials, look.hollow)
    mineral, ways = mineral_look(look, progress), _reckoned(job, progress)
    assert mineral is not None
    texts = (one.model_dump_json(by_alias=True) for one in (mineral, told, ways))
    Cache().put(_fill_key(job), (*texts, json.dumps(dict(piece.inputs)), iso(now)))
    used = PlanUsed(file="", made=iso(now), words=AT_ONCE)
    return Planned(None, mineral, told, piece.inputs, ways, used)


def planned_beside(job: Job, plan: PlanDocument, place: Path | None) -> Planned:
    """Take a plan as it lies there, old or not, with how its mold is made.

    Parameters
    ----------
    job : Job
        Its variant.
    plan : PlanDocument
        As it was read.
    place : Path or None
        Its folder.

    Returns
    -------
    Planned
    """
    ways = (None if place is None else _ways_of(place / MOLD_FILE)) or _reckoned(job)
    return _of_plan(plan, ways, _apart(plan, "as it lies there"))


def _ways_of(file: Path) -> Ways | None:
    try:
        return Ways.model_validate(json.loads(file.read_text("utf8"))["ways"])
    except (OSError, ValueError, KeyError, ValidationError):
        return None


def _reckoned(job: Job, progress: Progress = SILENT) -> Ways:
    return ways_look(look_at_mold(job, read_piece(job)), progress)


def plan_key(job: Job, *, quick: bool, what: str = "plan for a cost") -> str:
    """Name the plan that is kept for a variant as it is today."""
    learnt = [(one.quantity, one.subject, one.value) for one in used_by(job) if not one.kept_family]
    return fingerprint((what, answer_key("plan", job), learnt, quick))


def kept_plan(key: str, why: str) -> Planned | None:
    """Give a plan that was made for an earlier answer; None where it is no longer there."""
    match Cache().get(key):
        case (str(plan), str(ways)):
            document = PlanDocument.model_validate(json.loads(plan))
            words = f"kept from an earlier answer, since {why}"
            return _of_plan(document, Ways.model_validate(json.loads(ways)), _apart(document, words))
    return None


def _refuse_again(key: str, job: Job) -> None:
    """A plan that could not be made cannot be made a moment later."""
    match Cache().get(key):
        case (str(what), str(place), str(allowed), str(todo)):
            raise UserError(what, where=f"{job.path}{place}", allowed=allowed, todo=todo)


def _made(job: Job, key: str, why: str, now: datetime, progress: Progress, *, quick: bool) -> Planned:
    _refuse_again(key, job)
    try:
        with open_hands(Work(), progress) as hands:
            plan, _ = plan_variant(job, None, SPACING, now, progress, hands, quick=quick)
    except UserError as error:
        # trouble of the computer stands nowhere in the job, and may be gone the next time
        if error.where.startswith(here := str(job.path)):
            Cache().put(key, (error.what, error.where.removeprefix(here), error.allowed, error.todo))
        raise
    ways = _reckoned(job, progress)
    contents = (one.model_dump(mode="json", by_alias=True) for one in (plan, ways))
    Cache().put(key, tuple(canonical_json(one).decode() for one in contents))
    return _of_plan(plan, ways, _apart(plan, f"made for this answer, since {why}"))


def _apart(plan: PlanDocument, words: str) -> PlanUsed:
    return PlanUsed(file="", made=plan.computed_for, words=words)
