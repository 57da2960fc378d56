"""Sheets, bars and saw of a job, as the sawing of its parts takes them."""

from __future__ import annotations

from collections.abc import Mapping

from pourwright.foundation.errors import UserError
from pourwright.foundation.quantities import Quantity
from pourwright.jobs.job import Job
from pourwright.materials.records import Board
from pourwright.mold.wood.defaults import WOOD
from pourwright.mold.wood.stock import BarStock, SawSetup, Sheet, grain_of


def sheets_of(job: Job, boards: Mapping[str, Board]) -> tuple[Sheet, ...]:
    """Take the sheets and offcuts of a job.

    Parameters
    ----------
    job : Job
        As it was read.
    boards : Mapping
        Boards by id; of them a sheet takes what the job does not say.

    Returns
    -------
    tuple of Sheet

    Raises
    ------
    UserError
        For a board that nobody knows.
    """
    sheets = []
    for at, row in enumerate(job.sheet, 1):
        board = _board(job, boards, row.board, f"sheet[{at}].board")
        length, width = row.rectangle() or (board.sheet_length.value, board.sheet_width.value)
        sheets.append(
            Sheet(
                name=row.name or f"{'offcut' if row.offcut else 'sheet'} {at}",
                board=board.id,
                thickness=_si(row.thickness, board.thickness.value),
                length=length,
                width=width,
                count=row.count,
                offcut=row.offcut,
                grain=row.grain or grain_of(board.id),
            )
        )
    return tuple(sheets)


def bars_of(job: Job, boards: Mapping[str, Board]) -> tuple[BarStock, ...]:
    """Take the bars of a job.

    Parameters
    ----------
    job : Job
        As it was read.
    boards : Mapping
        Boards by id.

    Returns
    -------
    tuple of BarStock

    Raises
    ------
    UserError
        For a board that nobody knows.
    """
    return tuple(
        BarStock(
            name=row.name or f"bar {at}",
            board=_board(job, boards, row.board, f"bar[{at}].board").id,
            width=row.width.si,
            thickness=row.thickness.si,
            length=row.length.si,
            count=row.count,
        )
        for at, row in enumerate(job.bar, 1)
    )


def saw_of(job: Job) -> SawSetup:
    """Take what the saw of a job takes."""
    return SawSetup(kerf=_si(job.saw.kerf, WOOD["kerf"].value), trim=_si(job.saw.trim, WOOD["trim"].value))


def oversize_of(job: Job) -> float:
    """Take what is left on every edge of a part that is trimmed later [m]."""
    return _si(job.saw.oversize, WOOD["oversize"].value)


def _si(written: Quantity | None, otherwise: float) -> float:
    return otherwise if written is None else written.si


def _board(job: Job, boards: Mapping[str, Board], name: str, place: str) -> Board:
    if name not in boards:
        raise UserError(f"no board {name!r}", where=job.where(place), allowed=", ".join(sorted(boards)))
    return boards[name]
