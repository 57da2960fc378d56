"""The picture of what floats."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.molding.look import MoldLook
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.sheets.mold_floats_drawing import draw_floats
from pourwright.sheets.picture_files import png_of
from pourwright.sheets.wording import Wording


def floats_files(look: MoldLook, sheet: MoldSheet) -> Iterator[tuple[str, bytes]]:
    """Draw lift, weight and what is left of it against the level of the rubber.

    Parameters
    ----------
    look : MoldLook
        Not needed: all stands in the sheet.
    sheet : MoldSheet
        With what floats, or without.

    Yields
    ------
    (str, bytes)
        Path and content.
    """
    del look
    if sheet.floats is None:
        return
    svg = draw_floats(sheet.job.title, sheet.floats, Wording(sheet.job))
    yield "drawings/floats.svg", svg.encode()
    yield "drawings/floats.png", png_of(svg)
