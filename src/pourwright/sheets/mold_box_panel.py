"""One panel of the box on paper: bulge in colours, battens, fastenings, where they go."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from pourwright.foundation.notation import UnitSystem
from pourwright.sheets.contours import LARGE, Field, Scale
from pourwright.sheets.dimensions import across as level_dimension, fits, upright
from pourwright.sheets.mold_box_places import Place, chain
from pourwright.sheets.ramps import WARM
from pourwright.sheets.svg import GREY, INK, PAPER, Canvas, number, outline, wrapped
from pourwright.sheets.wording import Wording

Array = NDArray[np.float64]
RIGHT = 44.0
"""Room for dimensions right of a panel [pt]."""
SMALL = 6.8
BOARD, LATH = "#f1ede6", "#e3d3b4"
DARKEST = 3
"""Colours at the dark end that are left out: lines and dots have to be seen on them."""


@dataclass(frozen=True, eq=False)
class BulgePicture:
    """Bulge in cells: edges across and up [m], values (up, across) [m]."""

    across: Array
    up: Array
    values: Array


@dataclass(frozen=True, kw_only=True, eq=False)
class PanelPicture:
    """One kind of upright panel.

    Parameters
    ----------
    name : str
        With how many.
    length, height, wet : float
        Of the board, and of what lies between its supports, in its middle [m].
    bulge : BulgePicture or None
        None where it cannot be reckoned.
    note : str
        Why not.
    lie : str
        "level", "upright" or "" for no battens.
    battens : tuple of float
        Their middles, above the foot or from the left edge of what is wet [m].
    lath : float
        Width of a batten as it is seen [m].
    means : str
        "screws", "clamps", "bands" or "".
    corner : tuple of float
        Heights of the corners' fasteners on this panel [m].
    corner_out : float
        How far outside of what is wet they sit [m].
    flange : float
        Width of the laths along its upright edges [m]; 0 for none.
    base : tuple of float
        Screws through the base board, from the left edge of what is wet [m].
    """

    name: str
    length: float
    height: float
    wet: float
    bulge: BulgePicture | None
    note: str
    lie: str
    battens: tuple[float, ...]
    lath: float
    means: str
    corner: tuple[float, ...]
    corner_out: float
    flange: float
    base: tuple[float, ...]

    @property
    def edge(self) -> float:
        """From the left end of the board to what is wet [m]."""
        return (self.length - self.wet) / 2.0


def unit_of(words: Wording) -> tuple[float, str]:
    """Say what the scale counts in.

    Parameters
    ----------
    words : Wording
        The maker's units.

    Returns
    -------
    tuple
        Its unit [m], and its name.
    """
    return (0.001, "mm") if words.system is UnitSystem.METRIC else (0.0254, "in")


def colours_of(scale: Scale) -> list[str]:
    """Colour the steps of a scale.

    Parameters
    ----------
    scale : Scale
        Of the bulge.

    Returns
    -------
    list of str
        As ``#rrggbb``, pale to dark.
    """
    return WARM.colours(scale.count + DARKEST)[: scale.count]


def mark(canvas: Canvas, x: float, y: float, means: str) -> None:
    """Draw the sign of a fastener of a corner.

    Parameters
    ----------
    canvas : Canvas
        The drawing.
    x, y : float
        Where [pt].
    means : str
        "screws" or "clamps".
    """
    if means == "clamps":
        canvas.rect(x - 3.2, y - 2.2, 6.4, 4.4, fill=INK)
        return
    canvas.circle(x, y, 2.3, fill=PAPER, stroke=INK, stroke_width=0.7)
    canvas.path(f"M{number(x - 1.6)} {number(y - 1.6)}l3.2 3.2m-3.2 0l3.2 -3.2", stroke=INK, stroke_width=0.6)


def mark_below(canvas: Canvas, x: float, y: float) -> None:
    """Draw the sign of a screw that comes up through the base board.

    Parameters
    ----------
    canvas : Canvas
        The drawing.
    x, y : float
        Where it goes into the edge of the panel [pt].
    """
    canvas.line(x, y + 5.0, x, y - 9.0, stroke_width=1.1)
    canvas.path(f"M{number(x - 2.4)} {number(y + 5.0)}h4.8", stroke=INK, stroke_width=1.4)


@dataclass(frozen=True)
class PanelDrawing:
    """One panel as it is drawn.

    Parameters
    ----------
    canvas : Canvas
        The drawing.
    panel : PanelPicture
        What is drawn.
    place : Place
        Where.
    words : Wording
        The maker's units.
    scale : Scale or None
        Of the bulge; None where none is known.
    """

    canvas: Canvas
    panel: PanelPicture
    place: Place
    words: Wording
    scale: Scale | None

    def draw(self) -> None:
        """Draw the panel with all that is on it."""
        panel, canvas = self.panel, self.canvas
        x, y = self.place.at(0.0, panel.height)
        canvas.text(x, self.place.top + 9.0, panel.name, 8.0, font_weight="bold")
        size = self.words.size((panel.length, panel.height))
        canvas.text(x, self.place.top + 18.0, f"board {size}", SMALL, fill=GREY)
        canvas.rect(x, y, *self._size(panel.length, panel.height), fill=BOARD)
        self._paint()
        self._lay_battens()
        canvas.rect(x, y, *self._size(panel.length, panel.height), fill="none", stroke=INK, stroke_width=0.9)
        self._fasten()
        self._dimension()

    def _size(self, wide: float, high: float) -> tuple[float, float]:
        return wide * self.place.scale, high * self.place.scale

    def _paint(self) -> None:
        panel, place = self.panel, self.place
        if panel.bulge is None or self.scale is None:
            x, y = place.at(panel.length / 2.0, panel.height / 2.0)
            room = max(panel.length * place.scale - 10.0, 60.0)
            for row, words in enumerate(wrapped(panel.note, room, SMALL, 8)):
                self.canvas.text(x, y + 9.0 * row, words, SMALL, text_anchor="middle")
            return
        unit, _ = unit_of(self.words)
        field = Field(panel.bulge.across + panel.edge, panel.bulge.up, panel.bulge.values / unit)
        edges = [-LARGE, *self.scale.edges[1:-1], LARGE]
        for colour, (low, high) in zip(colours_of(self.scale), pairwise(edges), strict=True):
            data = "".join(outline(place.at(*point) for point in line) for line in field.band(low, high))
            if data:
                self.canvas.path(data, fill=colour, fill_rule="evenodd")
        for value in self.scale.edges[1:-1]:
            for line in field.lines(value):
                self.canvas.curve([place.at(*point) for point in line], stroke=INK, stroke_width=0.4)

    def _lay_battens(self) -> None:
        panel, half = self.panel, self.panel.lath / 2.0
        if panel.lie == "level":
            for height in panel.battens:
                # that along the rim lies flush with it
                middle = min(height, panel.height - half)
                self._lath(0.0, middle - half, panel.length, middle + half)
        if panel.lie == "upright":
            for across in panel.battens:
                middle = panel.edge + across
                self._lath(middle - half, 0.0, middle + half, panel.height - panel.lath)
            self._lath(0.0, panel.height - panel.lath, panel.length, panel.height)
        if panel.flange:
            for left in (0.0, panel.length - panel.flange):
                self._lath(left, 0.0, left + panel.flange, panel.height)

    def _lath(self, x0: float, z0: float, x1: float, z1: float) -> None:
        x, y = self.place.at(x0, z1)
        wide, high = self._size(x1 - x0, z1 - z0)
        style: dict[str, str | float] = {"fill": LATH, "stroke": INK, "stroke_width": 0.5}
        self.canvas.rect(x, y, wide, high, **style, fill_opacity=0.85)

    def _fasten(self) -> None:
        panel, place, canvas = self.panel, self.place, self.canvas
        for across in panel.base:
            mark_below(canvas, *place.at(panel.edge + across, 0.0))
        for height in panel.corner:
            if panel.means == "bands":
                (x0, y), (x1, _) = place.at(0.0, height), place.at(panel.length, height)
                canvas.line(x0 - 3.0, y, x1 + 3.0, y, stroke_width=2.2)
                continue
            for across in (panel.edge - panel.corner_out, panel.length - panel.edge + panel.corner_out):
                mark(canvas, *place.at(across, height), panel.means)

    def _dimension(self) -> None:
        panel, place = self.panel, self.place
        left, foot = place.at(0.0, 0.0)
        right = place.at(panel.length, 0.0)[0]
        self._up(panel.corner or (), left - 9.0)
        if panel.lie == "level":
            self._up(panel.battens[:-1], right + RIGHT - 6.0)
        if panel.base:
            self._across([panel.edge + across for across in panel.base], foot + 14.0)
        self._across([], foot + (31.0 if panel.base else 14.0))
        if panel.lie == "upright":
            middles = [panel.edge + across for across in panel.battens]
            self._across(middles, place.at(0.0, panel.height)[1] - 6.0)

    def _up(self, heights: Sequence[float], x: float) -> None:
        spans = chain(heights, self.panel.height)[::-1]
        drawn = [(self.place.at(0.0, high)[1], self.place.at(0.0, low)[1]) for low, high in spans]
        upright(self.canvas, drawn, x, [self._whole(high - low) for low, high in spans])

    def _across(self, middles: Sequence[float], y: float) -> None:
        spans = chain(middles, self.panel.length)
        drawn = [(self.place.at(low, 0.0)[0], self.place.at(high, 0.0)[0]) for low, high in spans]
        told = [self._whole(high - low) for low, high in spans]
        crowded = not all(fits(span, words) for span, words in zip(drawn, told, strict=True))
        for span, words in zip(drawn, told, strict=True):
            level_dimension(self.canvas, span, y, "" if crowded else words)
        if crowded:
            text = told[0] if len(told) == 1 else f"{told[0]}, then {told[1]} apart"
            middle = (drawn[0][0] + drawn[-1][1]) / 2.0
            self.canvas.text(middle, y + 9.0, text, SMALL, text_anchor="middle")

    def _whole(self, metres: float) -> str:
        """A length to be marked, without its unit."""
        return self.words.length(round(metres, 3)).rpartition(" ")[0]
