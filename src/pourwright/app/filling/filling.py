"""Say what goes into the mold of a job, without any heat run."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from pathlib import Path

from pourwright.app.castable import refuse_uncastable_piece
from pourwright.app.document.parts import piece_part
from pourwright.app.filling.credits import fill_sources
from pourwright.app.filling.folder import FILL_FOLDER, fill_files
from pourwright.app.filling.look import FillLook, look_at_fill
from pourwright.app.filling.looks import LOOKS
from pourwright.app.jamming import refuse_jammed
from pourwright.app.shaping.piece import PieceRead
from pourwright.app.told import Telling, ToldReport, frame_of, parts_of
from pourwright.foundation.progress import SILENT, Progress
from pourwright.jobs.fill_sheet import FillSheet
from pourwright.jobs.job import Job

FillReport = ToldReport[FillSheet]
"""The fill of a job: all that is told, and what was written."""


def fill_job(
    path: Path | Job,
    *,
    variant: str | None = None,
    out: Path | None = None,
    heat: bool = False,
    progress: Progress = SILENT,
    now: datetime | None = None,
) -> FillReport:
    """Say what goes into the mold of a job.

    Parameters
    ----------
    path : Path or Job
        Job file, or the job as it was read.
    variant : str, optional
        The variant to look at; else the first.
    out : Path, optional
        Folder for sheet and pictures; replaced in one step.
    heat : bool
        Whether to run the heat of setting, for a casting material mixed with water.
    progress : Progress
        Told what is done; may raise Cancelled.
    now : datetime, optional
        Aware; the clock where left out.

    Returns
    -------
    FillReport

    Raises
    ------
    UserError
        For a job or a shape that cannot be filled, with the line.
    """

    def look_at(job: Job, piece: PieceRead) -> FillLook:
        look = replace(look_at_fill(job, piece), heat=heat)
        refuse_uncastable_piece(job, look.piece)
        if look.setup is not None:
            refuse_jammed(look.setup)
        return look

    telling = Telling(FILL_FOLDER, look_at, fill_sheet, fill_files)
    return telling.report(path, variant, out, progress, now)


def fill_sheet(look: FillLook, now: datetime, progress: Progress = SILENT) -> FillSheet:
    """Tell every part of a fill.

    Parameters
    ----------
    look : FillLook
        The fill.
    now : datetime
        Aware; the only time stamp in the document.
    progress : Progress
        Told what is done; may raise Cancelled.

    Returns
    -------
    FillSheet
    """
    parts = parts_of(look, LOOKS, progress)
    first = look.fill.warnings if look.fill is not None else ()
    return FillSheet(
        **frame_of(look.job, look.piece, now, parts, first),
        piece=piece_part(look.piece, look.piece_mass, look.casting.id, look.materials, look.hollow),
        sources=fill_sources(look),
        **parts,
    )
