"""A sheet or offcut as it is cut: the parts where they lie, the cuts in their order, what is left."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.foundation.notation import format_share
from pourwright.jobs.cut_nested import LeftPiece, NestedSheet, PlacedPart, SheetCut
from pourwright.sheets.cut_tags import CutTags, hatch, write_list
from pourwright.sheets.dimensions import across, upright
from pourwright.sheets.labels import Frame
from pourwright.sheets.svg import ACCENT, GREY, INK, PALE, Canvas, fitted, outline
from pourwright.sheets.wording import Wording

WIDTH, TALLEST = 510.0, 400.0
LEFT, TOP, BELOW = 60.0, 30.0, 24.0
"""Room for the upright dimension, the heading and the level dimension [pt]."""
SMALL = 7.2
BOARD_TONE = "#f1ede6"


@dataclass(frozen=True, slots=True)
class SheetPlace:
    """Where a sheet lies on the paper: its floor [pt] and how large a metre is [pt/m]."""

    floor: float
    scale: float

    def at(self, x: float, y: float) -> tuple[float, float]:
        """Where a point of the sheet [m] lies [pt]."""
        return LEFT + x * self.scale, self.floor - y * self.scale

    def box(self, piece: PlacedPart | LeftPiece) -> Frame:
        """Left, top, right and bottom of a piece [pt]."""
        left, bottom = self.at(piece.x_m, piece.y_m)
        right, top = self.at(piece.x_m + piece.length_m, piece.y_m + piece.width_m)
        return left, top, right, bottom


def draw_cut_sheet(sheet: NestedSheet, words: Wording) -> str:
    """Draw a sheet with its parts, its cuts numbered, and what is left shaded.

    Parameters
    ----------
    sheet : NestedSheet
        The sheet.
    words : Wording
        The maker's units.

    Returns
    -------
    str
        SVG document.
    """
    scale = min((WIDTH - LEFT - 6.0) / sheet.length_m, TALLEST / sheet.width_m)
    place = SheetPlace(TOP + sheet.width_m * scale, scale)
    canvas = Canvas(WIDTH, place.floor + BELOW, f"{sheet.name}: cuts")
    _head(canvas, sheet, words)
    _Drawn(canvas, sheet, place, words).draw()
    return canvas.render()


def cut_words(cut: SheetCut, words: Wording) -> str:
    """Say where a cut goes, measured on the piece in hand.

    Parameters
    ----------
    cut : SheetCut
        The cut.
    words : Wording
        The maker's units.

    Returns
    -------
    str
        As ``303 mm from the left edge``.
    """
    return f"{words.length(cut.at_m)} from the {'left' if cut.axis == 'x' else 'lower'} edge"


def _head(canvas: Canvas, sheet: NestedSheet, words: Wording) -> None:
    size = words.size((sheet.length_m, sheet.width_m, sheet.thickness_m))
    what = "offcut, " if sheet.offcut else ""
    canvas.text(0.0, 10.0, fitted(f"{sheet.name}: {what}{sheet.board}, {size}", WIDTH, 8.6), 8.6)
    told = [f"{format_share(sheet.used_share)} becomes parts"]
    if sheet.kerf_m:
        told.append(f"kerf {words.length(sheet.kerf_m)}")
    if sheet.trim_m:
        told.append(f"trim {words.length(sheet.trim_m)} off every edge first, hatched")
    if sheet.grain:
        told.append("grain " + {"length": "↔", "width": "↕"}.get(sheet.grain, sheet.grain))
    if any(part.turned for part in sheet.parts):
        told.append("↻ lies turned")
    canvas.text(0.0, 21.0, fitted("; ".join(told), WIDTH, SMALL), SMALL, fill=GREY)


class _Drawn:
    """One sheet on its canvas."""

    def __init__(self, canvas: Canvas, sheet: NestedSheet, place: SheetPlace, words: Wording) -> None:
        self.canvas, self.sheet, self.place, self.words = canvas, sheet, place, words
        self.tags = CutTags(canvas)

    def draw(self) -> None:
        """Draw wood first, then cuts, then words."""
        self._ground()
        for cut in self.sheet.cuts:
            self._saw(cut)
        for cut in self.sheet.cuts:
            start, end = self._line(cut)
            self.tags.number(start, end, str(cut.number))
        for part in self.sheet.parts:
            name = f"{part.mark} ↻" if part.turned else part.mark
            self.tags.tell(self.place.box(part), name, self.words.size((part.length_m, part.width_m)))
        for piece in self.sheet.left:
            size = self.words.size((piece.length_m, piece.width_m))
            self.tags.tell_left(self.place.box(piece), size)
        self._dimensions()
        self._below()

    def _ground(self) -> None:
        sheet, canvas = self.sheet, self.canvas
        whole = self._rectangle(0.0)
        (left, bottom), (right, top) = whole[0], whole[2]
        if sheet.trim_m:
            data = outline(whole) + outline(self._rectangle(sheet.trim_m))
            hatch(canvas, data, (left, top, right, bottom))
        for piece in sheet.left:
            self._fill(self.place.box(piece), PALE)
        for part in sheet.parts:
            self._fill(self.place.box(part), BOARD_TONE)
        canvas.path(outline(whole), fill="none", stroke=INK, stroke_width=0.9)

    def _rectangle(self, inset: float) -> list[tuple[float, float]]:
        right, high = self.sheet.length_m - inset, self.sheet.width_m - inset
        corners = ((inset, inset), (right, inset), (right, high), (inset, high))
        return [self.place.at(*corner) for corner in corners]

    def _fill(self, box: Frame, tone: str) -> None:
        left, top, right, bottom = box
        style: dict[str, str | float] = {"fill": tone, "stroke": INK, "stroke_width": 0.4}
        self.canvas.rect(left, top, right - left, bottom - top, **style)

    def _line(self, cut: SheetCut) -> tuple[tuple[float, float], tuple[float, float]]:
        """The middle of the blade's way."""
        half = self.sheet.kerf_m / 2
        if cut.axis == "x":
            x = cut.x_m + half
            return self.place.at(x, cut.y_m), self.place.at(x, cut.y_m + cut.length_m)
        y = cut.y_m + half
        return self.place.at(cut.x_m, y), self.place.at(cut.x_m + cut.length_m, y)

    def _saw(self, cut: SheetCut) -> None:
        start, end = self._line(cut)
        width = max(self.sheet.kerf_m * self.place.scale, 0.7)
        self.canvas.line(*start, *end, stroke=ACCENT, stroke_width=width)

    def _dimensions(self) -> None:
        sheet = self.sheet
        left, right = (self.place.at(x, 0.0)[0] for x in (0.0, sheet.length_m))
        across(self.canvas, (left, right), self.place.floor + 11.0, self.words.length(sheet.length_m))
        top = self.place.at(0.0, sheet.width_m)[1]
        upright(self.canvas, [(top, self.place.floor)], LEFT - 8.0, [self.words.length(sheet.width_m)])

    def _below(self) -> None:
        end = self.place.floor + BELOW
        if self.tags.keys:
            end = write_list(self.canvas, self.tags.keys, end) + 6.0
        self.canvas.height = end + 6.0
