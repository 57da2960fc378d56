"""Boards as the shop has them: as thick and as large as the job says, else as they are usual."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from pourwright.app.molding.look import MoldLook
from pourwright.foundation.sources import Kind, Sourced
from pourwright.materials.records import Board
from pourwright.mold.wood.laid import DIGITS
from pourwright.mold.wood.stock import Sheet

THICK = 0.003, 0.1
"""Boards that a master is glued up from [m]; common practice, as for the panels of a box."""


def sheeted(board: Board, look: MoldLook) -> Board:
    """Give a board the sheets that `mold.board_sheet` says the shop has of the box's board.

    Parameters
    ----------
    board : Board
        Any.
    look : MoldLook
        The mold of the job.

    Returns
    -------
    Board
    """
    written = look.job.mold.board_sheet
    if written is None or board.id != look.mold.choices.board.id:
        return board
    short, long = sorted(edge.si for edge in written)
    return replace(board, sheet_length=_said(long), sheet_width=_said(short))


def master_board(look: MoldLook, sheets: Sequence[Sheet]) -> Board:
    """Give the board that the master is glued up from, as thick as the shop has it.

    Parameters
    ----------
    look : MoldLook
        The mold of the job.
    sheets : sequence of Sheet
        That the shop has.

    Returns
    -------
    Board
        Of several thicknesses in the shop the usual one, else the one with most wood; where no sheet is
        stated, as thick as the box of the same board.
    """
    choices = look.mold.choices
    board = sheeted(choices.master_board or choices.board, look)
    wood: dict[float, float] = {}
    for sheet in sheets:
        if sheet.board == board.id and THICK[0] <= sheet.thickness <= THICK[1]:
            thick = round(sheet.thickness, DIGITS)
            wood[thick] = wood.get(thick, 0.0) + sheet.length * sheet.width * sheet.count
    if not wood and choices.board_thickness is not None and board.id == choices.board.id:
        return replace(board, thickness=_said(choices.board_thickness))
    if not wood or round(board.thickness.value, DIGITS) in wood:
        return board
    return replace(board, thickness=_said(max(wood, key=lambda each: wood[each])))


def _said(size: float) -> Sourced:
    return Sourced(size, "m", None, None, Kind.PRACTICE, "common-practice", "as the job says")
