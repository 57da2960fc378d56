"""Values of a job that only the piece and the materials show to be slips."""

from __future__ import annotations

from pourwright.app.shaping.piece import PieceRead
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import format_density
from pourwright.jobs.job import Job
from pourwright.materials import Materials

# from foam to solid steel
LIGHTEST_MASTER, HEAVIEST_MASTER = 10.0, 9000.0


def refuse_doubtful(job: Job, piece: PieceRead, materials: Materials) -> None:
    """Refuse values that cannot be meant.

    Parameters
    ----------
    job : Job
        As written.
    piece : PieceRead
        Its piece.
    materials : Materials
        The families and the shop's own records.

    Raises
    ------
    UserError
        For the first of them, with its line.
    """
    _unknown_grades(job, materials)
    _impossible_master(job, piece)


def _unknown_grades(job: Job, materials: Materials) -> None:
    known = [grade.id for grade in materials.find("glass", job.fill.glass, job.where("fill.glass")).grades]
    for grade in job.bottles.crush_yield:
        if grade not in known:
            raise UserError(
                f"no grade called '{grade}'",
                where=job.where(("bottles", "yield", grade)),
                allowed=", ".join(known),
                todo="choose one of these",
            )


def _impossible_master(job: Job, piece: PieceRead) -> None:
    """A mass that was read in the wrong unit shows in the density it would mean."""
    if job.master.mass is None:
        return
    density = job.master.mass.si / piece.solid.volume
    if not LIGHTEST_MASTER <= density <= HEAVIEST_MASTER:
        came, least, most = (
            format_density(value, job.units) for value in (density, LIGHTEST_MASTER, HEAVIEST_MASTER)
        )
        raise UserError(
            f"a master of {job.master.mass.text} would have a density of {came}",
            where=job.where("master.mass"),
            allowed=f"{least} to {most}",
            todo="weigh it again, or leave the line out",
        )
