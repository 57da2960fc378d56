"""The picture of the seams of a job's mold."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos

import numpy as np

from pourwright.app.molding.bodies import bodies_of
from pourwright.app.molding.bodies_sections import cast_section, poured_section
from pourwright.app.molding.look import MoldLook
from pourwright.app.molding.way_out import way_out_of
from pourwright.geometry import plane_section
from pourwright.geometry.mesh import Floats
from pourwright.jobs.mold_seams import LiquidLeaks
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.jobs.plan_part import Polyline
from pourwright.sheets.mold_section_drawing import MoldSection
from pourwright.sheets.picture_files import png_of
from pourwright.sheets.seams_drawing import SeamLine, SeamView, draw_seams
from pourwright.sheets.wording import Wording

SURE = 1e-6
TITLES = {
    "rubber": "Rubber, as it is poured",
    "resin": "Resin, as it is cast",
    "mixing water": "Water of the slurry, as it is cast",
}


def seams_files(look: MoldLook, sheet: MoldSheet) -> Iterator[tuple[str, bytes]]:
    """Draw the seams, ranked.

    Parameters
    ----------
    look : MoldLook
        The mold.
    sheet : MoldSheet
        With its seams.

    Yields
    ------
    (str, bytes)
        Path and content.
    """
    if sheet.seams is None:
        return
    words = Wording(sheet.job)
    svg = draw_seams([_view(look, sheet, leaks, words) for leaks in sheet.seams.liquids], words)
    yield "drawings/seams.svg", svg.encode()
    yield "drawings/seams.png", png_of(svg)


def _view(look: MoldLook, sheet: MoldSheet, leaks: LiquidLeaks, words: Wording) -> SeamView:
    title, block = TITLES[leaks.liquid], look.mold.choices.way == "block"
    if sheet.bodies is None or not block:
        return SeamView(title, leaks)
    bodies = bodies_of(look)
    if leaks.liquid == "rubber":
        section = poured_section(look, bodies, words)
        return SeamView(title, leaks, section.cuts, tuple(_box_lines(look, leaks, section)))
    return SeamView(title, leaks, cast_section(look, bodies, words).cuts, tuple(_cast_lines(look, leaks)))


def _box_lines(look: MoldLook, leaks: LiquidLeaks, section: MoldSection) -> Iterator[SeamLine]:
    """Foot and corners; the first level of the section is the box's floor as the rubber is poured."""
    half, thick, floor = look.mold.inside[0] / 2, look.mold.choices.thickness, section.levels[0].height
    end = floor + look.mold.pour.level_wanted
    for seam in leaks.seams:
        if seam.kind == "foot":
            foot: tuple[Polyline, ...] = tuple(
                [(side * half, floor), (side * (half + thick), floor)] for side in (-1.0, 1.0)
            )
            yield SeamLine(seam.number, foot, (0.0, floor))
        elif seam.kind == "corners":
            corners: tuple[Polyline, ...] = tuple(
                [(side * half, floor), (side * half, end)] for side in (-1.0, 1.0)
            )
            yield SeamLine(seam.number, corners, (half, (floor + end) / 2))


def _cast_lines(look: MoldLook, leaks: LiquidLeaks) -> Iterator[SeamLine]:
    cuts = list(way_out_of(look).cuts)
    for seam in leaks.seams:
        if seam.kind == "cut" and cuts:
            cut = cuts.pop(0)
            yield _along_wall(look, seam.number, cut.ends_at, 1.0 if cos(cut.angle) > -SURE else -1.0)
        elif seam.kind == "rod":
            rod: Polyline = [(0.0, 0.0), (0.0, -look.mold.base)]
            yield SeamLine(seam.number, (rod,), (0.0, 0.06 * look.piece.size[2]), dashed=True)


def _along_wall(look: MoldLook, number: int, ends: float, side: float) -> SeamLine:
    """The wall of the cavity on one side, from where the cut ends up to the mouth."""
    pieces = [
        piece for line in plane_section(look.piece.mesh, "y", 0.0) for piece in _edges(line, ends, side)
    ]
    top = look.piece.size[2]
    height = (ends + top) / 2
    nearest = min((point for piece in pieces for point in piece), key=lambda point: abs(point[1] - height))
    return SeamLine(number, tuple(pieces), nearest)


def _edges(line: Floats, ends: float, side: float) -> Iterator[Polyline]:
    top = float(line[:, 1].max())
    for one, other in zip(line.tolist(), np.roll(line, -1, axis=0).tolist(), strict=True):
        low, high = sorted((one, other), key=lambda point: float(point[1]))
        beside = side * (one[0] + other[0]) > 0.0
        if beside and high[1] > ends + SURE and low[1] < top - SURE:
            yield [_at(low, high, max(low[1], ends)), (high[0], high[1])]


def _at(low: Sequence[float], high: Sequence[float], height: float) -> tuple[float, float]:
    """The place on an edge at a height between its ends."""
    share = (height - low[1]) / (high[1] - low[1]) if high[1] > low[1] else 0.0
    return low[0] + share * (high[0] - low[0]), height
