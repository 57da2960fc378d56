"""Whether the panels of a box can be sawn from the sheets there are."""

from __future__ import annotations

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import format_length
from pourwright.jobs.job import Job
from pourwright.mold import MoldResult


def refuse_larger_than_a_sheet(job: Job, mold: MoldResult) -> None:
    """Refuse a box with a panel larger than any sheet of its board.

    Parameters
    ----------
    job : Job
        As written.
    mold : MoldResult
        Its mold.

    Raises
    ------
    UserError
        With the panel, the sheet and the line; also for a sheet without size.
    """
    long, wide = sheet_of(job, mold)
    for panel in mold.panels:
        longer, shorter = max(panel.length, panel.width), min(panel.length, panel.width)
        if longer > long + 1e-9 or shorter > wide + 1e-9:
            raise UserError(
                f"the {panel.name} of the box, {_size(job, longer, shorter)}, is larger than any sheet of "
                f"{mold.choices.board.name}",
                where=job.where("mold.board_sheet" if job.mold.board_sheet else "mold.board"),
                allowed=f"up to {_size(job, long, wide)}",
                todo='write the sheets of your shop as mold.board_sheet = ["2800 mm", "2070 mm"], or make '
                "the piece in parts",
            )


def sheet_of(job: Job, mold: MoldResult) -> tuple[float, float]:
    """Length and width of the largest sheet of the box's board.

    Parameters
    ----------
    job : Job
        As written.
    mold : MoldResult
        Its mold.

    Returns
    -------
    tuple of float
        The longer first [m].

    Raises
    ------
    UserError
        For a sheet that has no size.
    """
    board, written = mold.choices.board, job.mold.board_sheet
    if written is None:
        return board.sheet_length.value, board.sheet_width.value
    for edge in written:
        if not 0.05 <= edge.si <= 20.0:
            raise UserError(
                f"a sheet with an edge of {edge.text} in mold.board_sheet",
                where=job.where("mold.board_sheet"),
                allowed="50 mm to 20 m",
                todo="write the length and the width of the sheet that lies in the shop",
            )
    first, second = (edge.si for edge in written)
    return max(first, second), min(first, second)


def _size(job: Job, *edges: float) -> str:
    return " x ".join(format_length(edge, job.units) for edge in edges)
