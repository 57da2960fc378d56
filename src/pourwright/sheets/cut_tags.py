"""Names and sizes inside the rectangles of a cutting plan; a letter where only that has room."""

from __future__ import annotations

import math
import textwrap
from collections.abc import Iterable, Iterator, Sequence

from pourwright.sheets.labels import Frame, Places
from pourwright.sheets.part_pages import page_letters
from pourwright.sheets.svg import GREY, INK, PAPER, Canvas, fitted, number, text_width

SIZES = (7.5, 6.5, 5.5)
"""Of the letters, tried in this order [pt]."""
EDGE = 1.5
"""Between letters and the edge of their rectangle [pt]."""
REACH = 40.0
"""How far a letter or a number stands from what it tells of [pt]."""
ROW = 9.6
COLUMN = 250.0

Point = tuple[float, float]
Way = tuple[list[str], float, bool]
"""Lines, size of their letters [pt], and whether they run upwards."""


def key_letters(count: int) -> str:
    """Letters of one more rectangle that is told below the drawing.

    Parameters
    ----------
    count : int
        How many there are already.

    Returns
    -------
    str

    Examples
    --------
    >>> key_letters(0), key_letters(25), key_letters(27)
    ('a', 'z', 'ab')
    """
    return page_letters(count).lower()


class CutTags:
    """Labels of one drawing, and what is told below it instead."""

    def __init__(self, canvas: Canvas) -> None:
        self.canvas, self.places = canvas, Places()
        self.keys: list[str] = []

    def tell(self, frame: Frame, name: str, size: str) -> None:
        """Write a name and a size into a box (left, top, right, bottom) [pt]; else a letter."""
        if not self._told(frame, _ways(name, size)):
            self._by_letter(frame, f"{name}, {size}")

    def tell_left(self, frame: Frame, size: str) -> None:
        """Write what is left over into its box where there is room [pt]; what is smaller is waste."""
        if not self._told(frame, _ways("left over", size)):
            self._told(frame, [([size], SIZES[-1], turned) for turned in (False, True)])

    def number(self, start: Point, end: Point, told: str) -> None:
        """Write a number in a circle onto a line, near its start, where nothing stands [pt]."""
        radius = max(text_width(told, 5.5) / 2 + 1.2, 4.2)
        span = math.dist(start, end)
        first = min(radius + 1.0, span / 2)
        steps = max(int((span - first - radius) / 3.0), 0)
        boxes = [_round(start, end, (first + 3.0 * i) / max(span, 1e-9), radius) for i in range(steps + 1)]
        box = next((one for one in boxes if self.places.free(one)), None)
        if box is None:
            middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
            box = self._beside(middle, (2 * radius, 2 * radius))
        else:
            self.places.take(box)
        x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
        self.canvas.circle(x, y, radius, fill=PAPER, stroke=INK, stroke_width=0.5)
        self.canvas.text(x, y + 2.0, told, 5.5, text_anchor="middle")

    def _told(self, frame: Frame, ways: Iterable[Way]) -> bool:
        middle = (frame[0] + frame[2]) / 2, (frame[1] + frame[3]) / 2
        for lines, letters, turned in ways:
            room = _room(lines, letters)
            room = room[::-1] if turned else room
            fits = room[0] <= frame[2] - frame[0] and room[1] <= frame[3] - frame[1]
            if fits and (box := self.places.found(middle, room, frame)):
                self.places.take(box)
                self._write(box, lines, letters, turned=turned)
                return True
        return False

    def _by_letter(self, frame: Frame, told: str) -> None:
        letter = key_letters(len(self.keys))
        self.keys.append(f"{letter}: {told}")
        if not self._told(frame, [([letter], SIZES[-1], False)]):
            middle = (frame[0] + frame[2]) / 2, (frame[1] + frame[3]) / 2
            box = self._beside(middle, _room([letter], SIZES[-1]))
            self._write(box, [letter], SIZES[-1], turned=False)

    def _beside(self, point: Point, room: tuple[float, float]) -> Frame:
        """Take the free place nearest to a point, with a line from there."""
        near = point[0] - REACH, point[1] - REACH, point[0] + REACH, point[1] + REACH
        box = self.places.nearest(point, room, near)
        middle = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
        self.canvas.line(*point, *middle, stroke=INK, stroke_width=0.35)
        self.canvas.rect(box[0], box[1], *room, fill=PAPER)
        return box

    def _write(self, box: Frame, lines: Sequence[str], letters: float, *, turned: bool) -> None:
        x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
        high = 1.2 * letters
        style: dict[str, str | float] = {"text_anchor": "middle"}
        if turned:
            style["transform"] = f"rotate(-90 {number(x)} {number(y)})"
        for i, line in enumerate(lines):
            weight = "bold" if i == 0 else "normal"
            base = y + (i - (len(lines) - 1) / 2) * high + 0.35 * letters
            self.canvas.text(x, base, line, letters, font_weight=weight, **style)


def write_list(canvas: Canvas, lines: Sequence[str], top: float, letters: float = 6.8) -> float:
    """Write lines below a drawing in two columns.

    Parameters
    ----------
    canvas : Canvas
        The drawing.
    lines : sequence of str
        What is told.
    top : float
        Where they begin [pt].
    letters : float
        Size of the letters [pt].

    Returns
    -------
    float
        Where they end [pt].
    """
    rows = (len(lines) + 1) // 2
    for i, line in enumerate(lines):
        x, y = (COLUMN + 10.0) * (i // max(rows, 1)), top + ROW * (i % max(rows, 1) + 1)
        canvas.text(x, y, fitted(line, COLUMN, letters), letters)
    return top + ROW * rows


def hatch(canvas: Canvas, data: str, frame: Frame, step: float = 3.0) -> None:
    """Fill a shape with slanting lines.

    Parameters
    ----------
    canvas : Canvas
        The drawing.
    data : str
        The shape, as path data.
    frame : tuple of float
        Box round it: left, top, right, bottom [pt].
    step : float
        Between two lines [pt].
    """
    left, top, right, bottom = frame
    high = bottom - top
    starts = [left + step * i for i in range(int((right - left + high) / step) + 1)]
    slants = "".join(f"M{number(x)} {number(top)}L{number(x - high)} {number(bottom)}" for x in starts)
    canvas.path(slants, fill="none", stroke=GREY, stroke_width=0.35, clip_path=canvas.clip(data))


def _ways(name: str, size: str) -> Iterator[Way]:
    for letters in SIZES:
        for turned in (False, True):
            yield [name, size], letters, turned
            yield [f"{name}, {size}"], letters, turned
    broken = [*textwrap.wrap(name, max(len(size), 1)), size]
    yield from ((broken, SIZES[-1], turned) for turned in (False, True))


def _room(lines: Sequence[str], letters: float) -> tuple[float, float]:
    wide = max(text_width(line, letters) for line in lines)
    return wide + 2 * EDGE, 1.2 * letters * len(lines) + EDGE


def _round(start: Point, end: Point, share: float, radius: float) -> Frame:
    x, y = start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])
    return x - radius, y - radius, x + radius, y + radius
