"""Say how the mold of a job is made, without any heat run."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from pourwright.app.castable import refuse_uncastable_piece
from pourwright.app.document.parts import piece_part
from pourwright.app.molding.credits import mold_sources
from pourwright.app.molding.folder import MOLD_FOLDER, mold_files
from pourwright.app.molding.look import MoldLook, look_at_mold
from pourwright.app.molding.looks import LOOKS
from pourwright.app.shaping.piece import PieceRead
from pourwright.app.told import Telling, ToldReport, frame_of, parts_of
from pourwright.foundation.progress import SILENT, Progress
from pourwright.jobs.job import Job
from pourwright.jobs.mold_sheet import MoldSheet

MoldReport = ToldReport[MoldSheet]
"""The mold of a job: all that is told, and what was written."""


def mold_job(
    path: Path | Job,
    *,
    variant: str | None = None,
    out: Path | None = None,
    progress: Progress = SILENT,
    now: datetime | None = None,
) -> MoldReport:
    """Say how the mold of a job is made.

    Parameters
    ----------
    path : Path or Job
        Job file, or the job as it was read.
    variant : str, optional
        The variant to look at; else the first.
    out : Path, optional
        Folder for sheet, pictures and bodies; replaced in one step.
    progress : Progress
        Told what is done; may raise Cancelled.
    now : datetime, optional
        Aware; the clock where left out.

    Returns
    -------
    MoldReport

    Raises
    ------
    UserError
        For a job or a shape that no mold can be made for, with the line.
    """
    return Telling(MOLD_FOLDER, _look_at, mold_sheet, mold_files).report(path, variant, out, progress, now)


def _look_at(job: Job, piece: PieceRead) -> MoldLook:
    look = look_at_mold(job, piece)
    refuse_uncastable_piece(job, look.piece)
    return look


def mold_sheet(look: MoldLook, now: datetime, progress: Progress = SILENT) -> MoldSheet:
    """Tell every part of a mold.

    Parameters
    ----------
    look : MoldLook
        The mold.
    now : datetime
        Aware; the only time stamp in the document.
    progress : Progress
        Told what is done; may raise Cancelled.

    Returns
    -------
    MoldSheet
    """
    parts = parts_of(look, LOOKS, progress)
    return MoldSheet(
        **frame_of(look.job, look.piece, now, parts, look.mold.warnings),
        piece=piece_part(look.piece, look.fill_mass, look.casting.id, look.materials, look.hollow),
        sources=mold_sources(look),
        **parts,
    )
