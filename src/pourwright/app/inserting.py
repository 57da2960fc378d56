"""The inserts of a job, set into its piece, or why one cannot be."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from pourwright.app.hollowing import Hollowed, largest_grain
from pourwright.app.shaping.piece import PieceRead
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem
from pourwright.jobs.hollow_section import FACES, Insert as Written
from pourwright.jobs.job import Job
from pourwright.materials import Materials
from pourwright.mold.hollow.insert import Insert, InsertChoice, apart
from pourwright.mold.hollow.insert_place import placed


def inserted(job: Job, piece: PieceRead, hollow: Hollowed | None, materials: Materials) -> tuple[Insert, ...]:
    """Set every insert of a job into its piece.

    Parameters
    ----------
    job : Job
        As written.
    piece : PieceRead
        Its piece.
    hollow : Hollowed, optional
        Its core.
    materials : Materials
        For the grains.

    Returns
    -------
    tuple of Insert
        In the order of the job file.

    Raises
    ------
    UserError
        For one that lies outside, too near an edge, in the core or in another one, with its line.
    """
    grain, units = largest_grain(job, materials), UnitSystem(job.units)
    core = None if hollow is None else hollow.body.core
    choices = [_choice(job, number, written) for number, written in enumerate(job.insert, 1)]
    found = tuple(placed(choice, piece.mesh, core, grain, units) for choice in choices)
    _refuse_overlap(found)
    return found


def _choice(job: Job, number: int, written: Written) -> InsertChoice:
    across, up = (getattr(written, name).si for name in FACES[written.face])
    return InsertChoice(
        name=written.name or f"{written.kind} {number}",
        kind=written.kind,
        face=written.face,
        at=(across, up),
        diameter=written.diameter.si,
        depth=None if written.depth is None else written.depth.si,
        mass=None if written.mass is None else written.mass.si,
        where=job.where(f"insert[{number}]"),
    )


def _refuse_overlap(found: Sequence[Insert]) -> None:
    for one, other in combinations(found, 2):
        # a tube may end in a recess: that is how a wire comes to a light
        if apart(one, other) < 0.0 and {one.choice.kind, other.choice.kind} != {"tube", "light"}:
            raise UserError(
                f"{other.choice.name} lies in {one.choice.name}",
                where=other.choice.where,
                allowed="inserts beside each other; only a tube and a light may meet",
                todo="move one of them",
            )
