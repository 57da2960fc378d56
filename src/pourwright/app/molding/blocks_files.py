"""The picture of the space blocks on their panels."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.molding.look import MoldLook
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.sheets.mold_blocks_drawing import draw_blocks
from pourwright.sheets.picture_files import png_of
from pourwright.sheets.wording import Wording


def blocks_files(look: MoldLook, sheet: MoldSheet) -> Iterator[tuple[str, bytes]]:  # noqa: ARG001 - one shape for all
    """Draw the panels with their blocks.

    Parameters
    ----------
    look : MoldLook
        Not needed.
    sheet : MoldSheet
        With its blocks, or none.

    Yields
    ------
    (str, bytes)
        Path and content.
    """
    if sheet.blocks is None or not sheet.blocks.blocks:
        return
    svg = draw_blocks(sheet.blocks, sheet.job.title, Wording(sheet.job))
    yield "drawings/space-blocks.svg", svg.encode()
    yield "drawings/space-blocks.png", png_of(svg)
