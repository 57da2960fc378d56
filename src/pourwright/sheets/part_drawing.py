"""A part at its true size as one page shows it: outlines, grooves, holes, grain."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from pourwright.foundation.notation import UnitSystem
from pourwright.jobs.cut_part import CutGroove, CutHole, CutPart
from pourwright.sheets.part_labels import PartLabels
from pourwright.sheets.part_pages import Box, Page
from pourwright.sheets.svg import GREY, INK, Canvas, outline, text_width
from pourwright.sheets.wording import Wording

FINE, BROAD = 0.18, 0.35
"""Widths of lines [mm]: ISO 128-2, a line group of 0.35 mm and its half."""
DASHES = "4 2"
HATCH = 4.0
"""Between two lines of the hatching [mm]."""
SMALL, LARGEST = 3.0, 12.0
"""Height of the letters [mm]."""
ARROW = 40.0

Point = tuple[float, float]


def millimetres(metres: float) -> float:
    """Turn a length into millimetres without the dust of binary fractions.

    Parameters
    ----------
    metres : float
        Length [m].

    Returns
    -------
    float
        [mm], to a millionth.

    Examples
    --------
    >>> millimetres(0.21 - 0.005)
    205.0
    """
    return round(1000.0 * metres, 6)


def outlines_of(part: CutPart) -> list[list[Point]]:
    """What is left of the part when it is finished.

    Parameters
    ----------
    part : CutPart
        The part.

    Returns
    -------
    list of outline
        Corners [mm] from the left lower corner of the part.
    """
    whole = [(0.0, 0.0), (part.length_m, 0.0), (part.length_m, part.width_m), (0.0, part.width_m)]
    return [[(millimetres(x), millimetres(y)) for x, y in line] for line in part.outlines_m or [whole]]


def sawn_of(part: CutPart) -> list[Point]:
    """Corners of the part as it leaves the saw.

    Parameters
    ----------
    part : CutPart
        The part.

    Returns
    -------
    list of point
        [mm] from the left lower corner of the finished part.
    """
    over = millimetres(part.oversize_m)
    right, high = (millimetres(edge - part.oversize_m) for edge in part.sawn_m)
    return [(-over, -over), (right, -over), (right, high), (-over, high)]


def groove_words(groove: CutGroove, part: CutPart, words: Wording) -> str:
    """Say what is cut into a part, as "step 18 mm wide, 6 mm deep".

    Parameters
    ----------
    groove : CutGroove
        What is cut.
    part : CutPart
        Into this.
    words : Wording
        The maker's units.

    Returns
    -------
    str
    """
    near = 1e-6
    name = "step" if groove.start_m < near or groove.end_m > part.length_m - near else "groove"
    wide = words.length(groove.end_m - groove.start_m)
    return f"{name} {wide} wide, {words.length(groove.depth_m)} deep"


def hole_words(hole: CutHole, words: Wording) -> str:
    """Say how wide a hole is: thousandths of an inch choose a drill better than sixteenths.

    Parameters
    ----------
    hole : CutHole
        The hole.
    words : Wording
        The maker's units.

    Returns
    -------
    str
    """
    metric = words.system is UnitSystem.METRIC
    return f"Ø {words.length(hole.diameter_m) if metric else words.gap(hole.diameter_m)}"


class PartDrawing:
    """One part on one page."""

    def __init__(self, canvas: Canvas, part: CutPart, page: Page, words: Wording) -> None:
        self.canvas, self.part, self.page, self.words = canvas, part, page, words
        left, low, right, high = page.window
        self.clip = canvas.clip(self._path([(left, low), (right, low), (right, high), (left, high)]))
        self.labels = PartLabels(canvas, self._bounds())

    def draw(self) -> None:
        """Draw all that the page shows."""
        lines = outlines_of(self.part)
        face = "".join(self._path(line) for line in lines)
        for groove in self.part.grooves:
            self._cut(groove, face)
        if self.part.oversize_m:
            self._line(self._path(sawn_of(self.part)), FINE, stroke_dasharray=DASHES)
            self.labels.keep_off(self._on_paper(sawn_of(self.part)))
        self._line(face, BROAD)
        for line in lines:
            self.labels.keep_off(self._on_paper(line))
        shown = [hole for hole in self.part.holes if self._shows(hole)]
        for hole in shown:
            self._drill(hole)
        self._mark()
        self._grain()
        for hole in shown:
            self.labels.near(self._at_m(*hole.at_m), hole_words(hole, self.words), SMALL)
        for groove in self.part.grooves:
            self._tell(groove)

    def _path(self, points: Iterable[Point]) -> str:
        return outline(self.page.at(*point) for point in points)

    def _on_paper(self, points: Sequence[Point]) -> list[Point]:
        return [self.page.at(*point) for point in points]

    def _at_m(self, x: float, y: float) -> Point:
        return self.page.at(1000.0 * x, 1000.0 * y)

    def _line(self, data: str, width: float, **style: str | float) -> None:
        plain: dict[str, str | float] = {"fill": "none", "stroke": INK, "stroke_width": width}
        self.canvas.path(data, **(plain | {"clip_path": self.clip} | style))

    def _bounds(self) -> Box:
        """Where labels may stand: left, top, right, bottom on the paper."""
        left, low, right, high = self.page.usable
        return (*self.page.at(left, high), *self.page.at(right, low))

    def _shows(self, hole: CutHole) -> bool:
        left, top, right, bottom = self._bounds()
        x, y = self._at_m(*hole.at_m)
        return left <= x <= right and top <= y <= bottom

    def _seen(self) -> Box:
        """The part's rectangle within the bounds, on the paper."""
        left, top, right, bottom = self._bounds()
        x0, y0 = self._at_m(0.0, self.part.width_m)
        x1, y1 = self._at_m(self.part.length_m, 0.0)
        return max(left, x0), max(top, y0), min(right, x1), min(bottom, y1)

    def _cut(self, groove: CutGroove, face: str) -> None:
        """Hatch what is cut of the face, within the window."""
        left, low, right, high = self.page.window
        x0, y0 = self._at_m(groove.start_m, self.part.width_m)
        x1, y1 = self._at_m(groove.end_m, 0.0)
        style: dict[str, str | float] = {"fill": "none", "stroke": GREY, "stroke_width": FINE}
        inside = self.canvas.clip(face)
        edges = _rectangle(x0, y0, x1, y1)
        self.canvas.within(self.clip, inside, edges, **style, stroke_dasharray="2 1")
        (a, b), (c, d) = self.page.at(left, high), self.page.at(right, low)
        box = max(x0, a), max(y0, b), min(x1, c), min(y1, d)
        if box[0] < box[2] and box[1] < box[3]:
            count = int((x1 - x0 + y1 - y0) / HATCH)
            starts = [x0 + HATCH * (i + 0.5) for i in range(count + 1)]
            slants = "".join(outline([(x, y0), (x - (y1 - y0), y1)], closed=False) for x in starts)
            self.canvas.within(inside, self.canvas.clip(_rectangle(*box)), slants, **style)

    def _drill(self, hole: CutHole) -> None:
        x, y = self._at_m(*hole.at_m)
        radius = 500.0 * hole.diameter_m
        arm = max(radius + 1.5, 3.0)
        self.canvas.circle(x, y, radius, fill="none", stroke=INK, stroke_width=FINE)
        self.canvas.line(x - arm, y, x + arm, y, stroke_width=FINE)
        self.canvas.line(x, y - arm, x, y + arm, stroke_width=FINE)
        self.labels.take((x - arm, y - arm, x + arm, y + arm))

    def _mark(self) -> None:
        left, top, right, bottom = self._seen()
        if right <= left or bottom <= top:
            return
        room = 0.7 * (right - left) / max(text_width(self.part.mark, 1.0), 1.0)
        size = max(min(room, 0.35 * (bottom - top), LARGEST), SMALL)
        self.labels.inside(((left + right) / 2, (top + bottom) / 2), self.part.mark, size)

    def _grain(self) -> None:
        left, top, right, bottom = self._seen()
        if self.part.grain == "any" or right <= left or bottom <= top:
            return
        along = self.part.grain == "length"
        length = min(ARROW, 0.7 * (right - left if along else bottom - top))
        self.labels.arrow(((left + right) / 2, (top + bottom) / 2), length, "grain", along=along)

    def _tell(self, groove: CutGroove) -> None:
        left, top, right, bottom = self._bounds()
        x0, y0 = self._at_m(groove.start_m, self.part.width_m)
        x1, y1 = self._at_m(groove.end_m, 0.0)
        box = max(x0, left), max(y0, top), min(x1, right), min(y1, bottom)
        if box[0] < box[2] and box[1] < box[3]:
            middle = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
            self.labels.near(middle, groove_words(groove, self.part, self.words), SMALL)


def _rectangle(left: float, top: float, right: float, bottom: float) -> str:
    return outline([(left, top), (right, top), (right, bottom), (left, bottom)])
