"""Say what is sawn for a job, from what, and how it comes together; without any heat run."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import Any

from pourwright.app.cutting.assembly import assembly_of
from pourwright.app.cutting.credits import cut_sources
from pourwright.app.cutting.folder import CUT_FOLDER, cut_files
from pourwright.app.cutting.look import CutLook
from pourwright.app.cutting.master import master_of
from pourwright.app.cutting.parts import list_of
from pourwright.app.cutting.sawing import plan_of
from pourwright.app.document.parts import piece_part
from pourwright.app.molding.look import look_at_mold
from pourwright.app.shaping.piece import PieceRead, read_piece
from pourwright.app.told import Telling, ToldReport, frame_of
from pourwright.foundation.progress import SILENT, Progress
from pourwright.jobs.cut_sheet import CutSheet
from pourwright.jobs.job import Job

CutReport = ToldReport[CutSheet]
"""Everything wooden of a job: all that is told, and what was written."""


def cut_job(
    path: Path | Job,
    *,
    variant: str | None = None,
    out: Path | None = None,
    progress: Progress = SILENT,
    now: datetime | None = None,
) -> CutReport:
    """Say what is sawn for a job.

    Parameters
    ----------
    path : Path or Job
        Job file, or the job as it was read.
    variant : str, optional
        The variant to look at; else the first.
    out : Path, optional
        Folder for sheet, drawings and templates; replaced in one step.
    progress : Progress
        Told what is done; may raise Cancelled.
    now : datetime, optional
        Aware; the clock where left out.

    Returns
    -------
    CutReport

    Raises
    ------
    UserError
        For a job, a shape or a stock of wood that will not do, with the line or the part.
    """
    return Telling(CUT_FOLDER, _look_at, cut_sheet, cut_files).report(path, variant, out, progress, now)


def cut_with_paper(job: Job, now: datetime, progress: Progress = SILENT) -> tuple[CutSheet, bytes]:
    """Say what is sawn for a job, on paper too, and write nothing.

    Parameters
    ----------
    job : Job
        One variant.
    now : datetime
        Aware.
    progress : Progress
        Told what is done; may raise Cancelled.

    Returns
    -------
    tuple of (CutSheet, bytes)
        The document and its PDF.

    Raises
    ------
    UserError
        As `cut_job`.
    """
    progress.step("reading the shape", 0, 1)
    look = _look_at(job, read_piece(job))
    sheet = cut_sheet(look, now, progress)
    progress.step("drawing sheets and parts", 2, 3)
    return sheet, cut_files(look, sheet)["cut.pdf"]


def _look_at(job: Job, piece: PieceRead) -> CutLook:
    return CutLook(look_at_mold(job, piece))


def cut_sheet(look: CutLook, now: datetime, progress: Progress = SILENT) -> CutSheet:
    """Tell every part.

    Parameters
    ----------
    look : CutLook
        Everything wooden.
    now : datetime
        Aware; the only time stamp in the document.
    progress : Progress
        Told what is done; may raise Cancelled.

    Returns
    -------
    CutSheet
    """
    progress.step("the master", 0, 3)
    parts: dict[str, Any] = {"master": master_of(look), "list": list_of(look)}
    progress.step("the sheets", 1, 3)
    parts |= {"plan": plan_of(look), "assembly": assembly_of(look)}
    mold = look.mold
    return CutSheet(
        **frame_of(mold.job, mold.piece, now, parts, ()),
        piece=piece_part(mold.piece, mold.fill_mass, mold.casting.id, mold.materials, mold.hollow),
        sources=cut_sources(look),
        **parts,
    )
