"""Say which of a job's parts fit on an offcut that stands in the corner."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from pourwright.app.cutting.credits import cut_sources
from pourwright.app.cutting.folder import CUT_FOLDER
from pourwright.app.cutting.look import CutLook
from pourwright.app.cutting.sawing import FOLLOW, sheet_told
from pourwright.app.document.parts import piece_part
from pourwright.app.molding.look import look_at_mold
from pourwright.app.shaping.piece import PieceRead
from pourwright.app.told import Telling, ToldReport, frame_of
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import parse_quantity
from pourwright.foundation.progress import SILENT, Progress
from pourwright.foundation.quantities import Dimension
from pourwright.jobs.cut_sheet import CutPlan
from pourwright.jobs.job import Job
from pourwright.jobs.offcut_sheet import OffcutSheet
from pourwright.mold.wood.laid import thickness_of
from pourwright.mold.wood.offcut import FromOffcut, parts_from_offcut
from pourwright.mold.wood.part import WoodPart
from pourwright.mold.wood.stock import Sheet, grain_of

_BY = re.compile(r"\s+[xX×]\s+")

OffcutReport = ToldReport[OffcutSheet]


@dataclass(frozen=True)
class OffcutAsked:
    """An offcut as it was asked about.

    Parameters
    ----------
    size : str
        Length along its grain, and width: "900 mm x 450 mm".
    board : str or None
        Id of its board; None where all parts from sheets are of one.
    """

    size: str
    board: str | None = None


def offcut_job(
    path: Path | Job,
    asked: OffcutAsked,
    *,
    variant: str | None = None,
    progress: Progress = SILENT,
    now: datetime | None = None,
) -> OffcutReport:
    """Say which parts of a job fit on an offcut, so that most of it is used.

    Parameters
    ----------
    path : Path or Job
        Job file, or the job as it was read.
    asked : OffcutAsked
        The offcut.
    variant : str, optional
        The variant to look at; else the first.
    progress : Progress
        Told what is done; may raise Cancelled.
    now : datetime, optional
        Aware; the clock where left out.

    Returns
    -------
    OffcutReport

    Raises
    ------
    UserError
        For a job that will not do, for what is no size, and where it is not said of which board it is.
    """
    length, width = _size(asked.size)

    def tell(look: CutLook, at: datetime, progress: Progress) -> OffcutSheet:
        progress.step("the offcut", 0, 1)
        return _told(look, _given(look, length, width, asked.board), at)

    telling = Telling(CUT_FOLDER, _look_at, tell, lambda _look, _sheet: {})
    return telling.report(path, variant, None, progress, now)


def _look_at(job: Job, piece: PieceRead) -> CutLook:
    return CutLook(look_at_mold(job, piece))


def _size(text: str) -> tuple[float, float]:
    sides = [parse_quantity(side, Dimension.LENGTH, where="--offcut").si for side in _BY.split(text)]
    if len(sides) != 2:
        allowed = "900 mm x 450 mm"
        raise UserError(f"'{text}' is no length and width", where="--offcut", allowed=allowed)
    return sides[0], sides[1]


def _given(look: CutLook, length: float, width: float, board: str | None) -> FromOffcut:
    parts, thick = _of_board(look, board)
    offcut = Sheet(
        name="the offcut",
        board=parts[0].board.id,
        thickness=thick,
        length=length,
        width=width,
        offcut=True,
        grain=grain_of(parts[0].board.id),
    )
    return parts_from_offcut(parts, offcut, look.saw, look.mold.system, look.mold.job.seed)


def _of_board(look: CutLook, board: str | None) -> tuple[list[WoodPart], float]:
    """The parts of one board in the thickness of most of its wood, and that thickness."""
    parts = [part for part in look.parts if not part.bar]
    names = sorted({part.board.id for part in parts})
    if board is None and len(names) == 1:
        board = names[0]
    some = [part for part in parts if part.board.id == board]
    if not some:
        what = "no part is sawn from a sheet" if not names else f"no part of board {board!r}"
        if names and board is None:
            what = "the parts are of several boards"
        raise UserError(what, where="--board", allowed=", ".join(names), todo="say of which board it is")
    wood: dict[float, float] = {}
    for part in some:
        thick = thickness_of(part, look.sheets)
        wood[thick] = wood.get(thick, 0.0) + part.length * part.width
    most = max(wood, key=lambda thick: wood[thick])
    return [part for part in some if thickness_of(part, look.sheets) == most], most


def _told(look: CutLook, given: FromOffcut, now: datetime) -> OffcutSheet:
    mold = look.mold
    one = given.sheet
    told = [sheet_told(look, one, look.mold.materials.board[one.sheet.board].name)] if one.placed else []
    follow = [FOLLOW] if told else []
    parts: dict[str, Any] = {"plan": CutPlan(sheets=told, words=[*follow, _words(look, given)])}
    return OffcutSheet(
        **frame_of(mold.job, mold.piece, now, parts, ()),
        piece=piece_part(mold.piece, mold.fill_mass, mold.casting.id, mold.materials, mold.hollow),
        sources=cut_sources(look),
        over=list(given.over),
        proven=given.proven,
        **parts,
    )


def _words(look: CutLook, given: FromOffcut) -> str:
    count, total = len(given.sheet.placed), len(given.sheet.placed) + len(given.over)
    sheet = given.sheet.sheet
    of = f"{look.mold.materials.board[sheet.board].name}, {look.length(sheet.thickness)}"
    if not count:
        return f"None of the {total} parts of {of} fits on it."
    sure = "no other straight cuts use more of it" if given.proven else "other cuts may use more of it"
    return f"{count} of the {total} parts of {of} fit on it; {sure}."
