"""Words on a template that keep off its lines and off each other."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from pourwright.sheets.labels import Frame, Places
from pourwright.sheets.svg import GREY, INK, PAPER, Canvas, outline, text_width

REACH = 45.0
"""How far from its point a label may stand [mm]."""
CLEAR = 0.6
"""Between a label and a line [mm]."""
FAR = 5.0
"""From here on a line leads from the point to its label [mm]."""
THIN = 0.13
SHORTEST = 8.0
"""Of an arrow [mm]."""

Point = tuple[float, float]


class PartLabels:
    """Labels within bounds (left, top, right, bottom) of a page [mm]."""

    def __init__(self, canvas: Canvas, bounds: Frame) -> None:
        self.canvas, self.bounds, self.places = canvas, bounds, Places()

    def take(self, frame: Frame) -> None:
        """Keep labels off a box."""
        self.places.take(frame)

    def keep_off(self, corners: Sequence[Point]) -> None:
        """Keep labels off a closed line."""
        for start, end in pairwise([*corners, corners[0]]):
            # a slanting line is covered by many small boxes
            straight = start[0] == end[0] or start[1] == end[1]
            pieces = 1 if straight else max(math.ceil(math.dist(start, end) / 3.0), 1)
            for i in range(pieces):
                self.take(_between(_along(start, end, i / pieces), _along(start, end, (i + 1) / pieces)))

    def inside(self, point: Point, words: str, size: float) -> None:
        """Write words at a point or as near to it as is free, smaller where only that fits."""
        least = min(size, 3.0)
        while size > least and self._find(point, self._room(words, size)) is None:
            size = max(0.8 * size, least)
        self._write(self._settle(point, self._room(words, size)), words, size, "bold")

    def near(self, point: Point, words: str, size: float) -> None:
        """Write words near a point, with a line to them where they stand off."""
        frame = self._settle(point, self._room(words, size))
        nearest = min(max(point[0], frame[0]), frame[2]), min(max(point[1], frame[1]), frame[3])
        if math.dist(point, nearest) > FAR:
            self.canvas.line(*point, *nearest, stroke=GREY, stroke_width=THIN)
        self._write(frame, words, size, "normal")

    def arrow(self, point: Point, length: float, words: str, *, along: bool) -> None:
        """Draw an arrow with two heads along x or y, its words beside it; shorter where only that fits."""
        while length > SHORTEST and self._find(point, self._arrow_room(length, words, along=along)) is None:
            length = max(0.8 * length, SHORTEST)
        left, top, right, bottom = self._settle(point, self._arrow_room(length, words, along=along))
        if along:
            middle = (left + right) / 2
            _arrow(self.canvas, (middle - length / 2, bottom - 2.2), (middle + length / 2, bottom - 2.2))
            self.canvas.text(middle, top + 3.2, words, 3.0, text_anchor="middle")
            return
        middle = (top + bottom) / 2
        _arrow(self.canvas, (left + 2.2, middle + length / 2), (left + 2.2, middle - length / 2))
        self.canvas.text(left + 4.4, middle + 1.0, words, 3.0)

    def _arrow_room(self, length: float, words: str, *, along: bool) -> tuple[float, float]:
        wide = text_width(words, 3.0)
        size = (max(length, wide), 7.0) if along else (wide + 4.0, max(length, 4.0))
        return size[0] + 2 * CLEAR, size[1] + 2 * CLEAR

    def _room(self, words: str, size: float) -> tuple[float, float]:
        return text_width(words, size) + 2 * CLEAR, size + 2 * CLEAR

    def _near(self, point: Point, size: tuple[float, float]) -> Frame:
        (x, y), (wide, high) = point, size
        left, top, right, bottom = self.bounds
        return (
            max(left, x - REACH - wide / 2),
            max(top, y - REACH - high / 2),
            min(right, x + REACH + wide / 2),
            min(bottom, y + REACH + high / 2),
        )

    def _find(self, point: Point, size: tuple[float, float]) -> Frame | None:
        return self.places.found(point, size, self._near(point, size))

    def _settle(self, point: Point, size: tuple[float, float]) -> Frame:
        return self.places.nearest(point, size, self._near(point, size))

    def _write(self, frame: Frame, words: str, size: float, weight: str) -> None:
        left, top, right, bottom = frame
        self.canvas.rect(left, top, right - left, bottom - top, fill=PAPER)
        # the letters stand a quarter of their height below the middle
        base = (top + bottom) / 2 + 0.35 * size
        self.canvas.text((left + right) / 2, base, words, size, text_anchor="middle", font_weight=weight)


def _along(start: Point, end: Point, share: float) -> Point:
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def _between(start: Point, end: Point) -> Frame:
    """The box round a straight piece of a line."""
    (x0, y0), (x1, y1) = start, end
    return min(x0, x1) - CLEAR, min(y0, y1) - CLEAR, max(x0, x1) + CLEAR, max(y0, y1) + CLEAR


def _arrow(canvas: Canvas, start: Point, end: Point) -> None:
    canvas.line(*start, *end, stroke_width=0.25)
    for tip, other in ((start, end), (end, start)):
        span = math.dist(tip, other) or 1.0
        ux, uy = (other[0] - tip[0]) / span, (other[1] - tip[1]) / span
        back = tip[0] + 3.0 * ux, tip[1] + 3.0 * uy
        head = [tip, (back[0] - 0.8 * uy, back[1] + 0.8 * ux), (back[0] + 0.8 * uy, back[1] - 0.8 * ux)]
        canvas.path(outline(head), fill=INK)
