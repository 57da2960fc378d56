"""The picture of the way out."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from pourwright.app.molding.look import MoldLook
from pourwright.app.molding.way_out import MOST, way_out_of
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.sheets.body_view import Mark
from pourwright.sheets.mold_way_out_drawing import OutPicture, draw_way_out
from pourwright.sheets.picture_files import png_of


def way_out_files(look: MoldLook, sheet: MoldSheet) -> Iterator[tuple[str, bytes]]:
    """Draw the piece with its undercuts, cut, air and pull.

    Parameters
    ----------
    look : MoldLook
        The mold.
    sheet : MoldSheet
        With its way out.

    Yields
    ------
    (str, bytes)
        Path and content.
    """
    if sheet.way_out is None:
        return
    out = way_out_of(look)
    marks = [Mark(np.asarray(held.place), str(number)) for number, held in enumerate(out.held[:MOST], 1)]
    air = [(np.array(inlet.place), np.array(inlet.way)) for inlet in out.inlets]
    angle = out.cuts[0].angle if out.cuts else 0.0
    picture = OutPicture(sheet.job.title, look.piece.mesh, out.leans, angle, marks, out.lines, air)
    svg = draw_way_out(picture)
    yield "drawings/way-out.svg", svg.encode()
    yield "drawings/way-out.png", png_of(svg)
