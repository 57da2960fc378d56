"""Battens, laths and bars: what is sawn to length from bar stock."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.materials.records import Board
from pourwright.mold.box.battens import Battens
from pourwright.mold.hold.bars import Bars
from pourwright.mold.result import MoldResult, Panel
from pourwright.mold.wood.box_parts import MARKS
from pourwright.mold.wood.part import Belongs, WoodPart

Section = tuple[float, float]


def batten_parts(panel: Panel, battens: Battens, lath: Board, section: Section) -> Iterator[WoodPart]:
    """List the battens of one kind of upright panel.

    Parameters
    ----------
    panel : Panel
        Sides or ends.
    battens : Battens
        On one of them.
    lath : Board
        That they are sawn from.
    section : tuple of float
        Width against the panel and depth off it [m].

    Yields
    ------
    WoodPart
        Level ones as long as the panel; upright ones as high as it, under the one along its rim.
    """
    lengths = [panel.length] * battens.count
    if battens.lie == "upright":
        lengths = [panel.width - section[0]] * (battens.count - 1) + [panel.length]
    for mark in MARKS[panel.name]:
        for number, length in enumerate(lengths, start=1):
            yield _bar(f"batten {number}, {mark}", "box", lath, length, section)


def flange_parts(mold: MoldResult, lath: Board) -> Iterator[WoodPart]:
    """List the laths along the upright edges of the ends, where clamps squeeze them to the sides.

    Parameters
    ----------
    mold : MoldResult
        With its joint; nothing comes of one without flanges.
    lath : Board
        That they are sawn from.

    Yields
    ------
    WoodPart
        As wide and as thick as the jaws of a clamp reach.
    """
    wide = mold.choices.joint.flange
    height = next(panel.width for panel in mold.panels if panel.name == "end")
    for mark in MARKS["end"] if wide else ():
        for edge in ("front", "back"):
            yield _bar(f"lath, {edge} edge, {mark}", "box", lath, height, (wide, wide))


def hanging_parts(bars: Bars, thickness: float) -> Iterator[WoodPart]:
    """List the bars that a master hangs from.

    Parameters
    ----------
    bars : Bars
        Across the rim.
    thickness : float
        Of the panels they lie on [m].

    Yields
    ------
    WoodPart
        They end flush with the outside of the box.
    """
    for number in range(1, bars.count + 1):
        length = bars.span + thickness
        yield _bar(f"bar {number}", "hold-down", bars.board, length, (bars.width, bars.height))


def _bar(mark: str, belongs: Belongs, board: Board, length: float, section: Section) -> WoodPart:
    return WoodPart(
        mark=mark, belongs=belongs, board=board, length=length,
        width=section[0], thickness=section[1], grain="length", face="any", bar=True,
    )  # fmt: skip
