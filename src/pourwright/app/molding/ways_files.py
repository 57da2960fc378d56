"""The picture of the ways of making a mold."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from pourwright.app.molding.look import MoldLook
from pourwright.app.molding.ways import designed
from pourwright.geometry import outline_area, plane_section, simplified
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.jobs.mold_ways import WayOfMold, Ways
from pourwright.jobs.plan_part import Polyline
from pourwright.mold import MoldResult
from pourwright.mold.ways.facts import Axis, opens_along
from pourwright.sheets.mold_ways_drawing import Rect, WayPicture, draw_ways
from pourwright.sheets.picture_files import png_of
from pourwright.sheets.wording import Wording

FINE = 5e-4
HELD = {"bed": "laid in clay", "hung": "hung", "screwed": "screwed down"}


def ways_files(look: MoldLook, sheet: MoldSheet) -> Iterator[tuple[str, bytes]]:
    """Draw the ways side by side.

    Parameters
    ----------
    look : MoldLook
        The mold.
    sheet : MoldSheet
        With its ways.

    Yields
    ------
    (str, bytes)
        Path and content.
    """
    if sheet.ways is None:
        return
    words = Wording(sheet.job)
    pictures = [_picture(way, sheet.ways, look, words) for way in sheet.ways.ways]
    svg = draw_ways(sheet.job.title, pictures)
    yield "drawings/ways.svg", svg.encode()
    yield "drawings/ways.png", png_of(svg)


def _picture(way: WayOfMold, ways: Ways, look: MoldLook, words: Wording) -> WayPicture:
    lying, turned = way.held == "bed", way.held == "screwed"
    axis: Axis = "y"
    if lying:
        # the section shows the parting from its end
        axis = "y" if opens_along(look.piece.mesh) == "x" else "x"
    mold = designed(look, "hung" if way.held == "hung" else "screwed", wood=way.space_blocks)
    lines = _outlines(look, axis)
    across = mold.inside[0 if axis == "y" else 1]
    high = mold.inside[2]
    skin = ways.skin_m if way.way == "skin" else 0.0
    shell = ways.shell_m if way.way == "skin" else 0.0
    return WayPicture(
        title=f"{way.words}, {HELD[way.held]}",
        lines=(_amount(way, words), _result(way)),
        piece=[_placed(line, mold, lying=lying, turned=turned) for line in lines],
        box=(-high / 2, 0.0, high / 2, across) if lying else _box(across, high, lines, skin + shell),
        thickness=mold.choices.thickness,
        blocks=_blocks(mold, turned=turned) if way.space_blocks else (),
        clay_to=across / 2 if lying else 0.0,
        skin=skin,
        shell=shell,
        bars=way.held == "hung",
        taken=way.recommended,
        possible=way.possible,
    )


def _box(across: float, high: float, lines: Sequence[Polyline], around: float) -> Rect:
    """Box, or the board of a skin with its shell."""
    if not around:
        return (-across / 2, 0.0, across / 2, high)
    xs, zs = zip(*[point for line in lines for point in line], strict=True)
    side = max(*xs, *(-x for x in xs)) + around
    return (-side, 0.0, side, max(zs) - min(zs) + around)


def _outlines(look: MoldLook, axis: Axis) -> list[Polyline]:
    """Master in the pour frame, largest outline first."""
    found = [simplified(line, FINE) for line in plane_section(look.piece.mesh, axis, 0.0)]
    found.sort(key=lambda line: -abs(outline_area(line)))
    return [[(float(x), float(z)) for x, z in line] for line in found]


def _placed(line: Polyline, mold: MoldResult, *, lying: bool, turned: bool) -> Polyline:
    """An outline where the master is while rubber is poured: z = 0 on the floor of the box."""
    high = mold.inside[2] - mold.base
    if lying:
        across = mold.inside[0] if np.ptp([x for x, _ in line]) < mold.inside[0] else mold.inside[1]
        return [(z + mold.base - mold.inside[2] / 2, x + across / 2) for x, z in line]
    return [(x, high - z) if turned else (x, z + mold.base) for x, z in line]


def _blocks(mold: MoldResult, *, turned: bool) -> tuple[Rect, ...]:
    """Space blocks that the section meets."""
    high = mold.inside[2] - mold.base
    cut = [block for block in mold.blocks if block.lower[1] <= 0 <= block.upper[1]]
    spans = [(block.lower[0], block.lower[2], block.upper[0], block.upper[2]) for block in cut]
    if turned:
        return tuple((x0, high - z1, x1, high - z0) for x0, z0, x1, z1 in spans)
    return tuple((x0, z0 + mold.base, x1, z1 + mold.base) for x0, z0, x1, z1 in spans)


def _amount(way: WayOfMold, words: Wording) -> str:
    return f"{words.volume(way.rubber_volume_m3)}, {words.mass(way.mixed_kg)} to mix"


def _result(way: WayOfMold) -> str:
    if not way.possible:
        return "cannot be made so"
    lines = ("no line", "a line down one side", "a line all round", "lines down two sides")[way.parting_lines]
    return f"{way.work_h:.0f} h, {lines}"
