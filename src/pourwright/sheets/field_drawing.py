"""A field in an upright cut: bands of colour, lines of equal value, outlines, a scale and a mark."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from pourwright.sheets.contours import LARGE, Field, scale_of
from pourwright.sheets.crossings import reach
from pourwright.sheets.field_cut import Captions, FieldCut, Frame
from pourwright.sheets.labels import Places, spread
from pourwright.sheets.ramps import Ramp
from pourwright.sheets.svg import ACCENT, GREY, INK, PAPER, Canvas, fitted, outline, text_width

Array = NDArray[np.float64]
WIDTH = 510.0
LEFT, RIGHT = 104.0, 140.0
HEAD, FOOT = 42.0, 19.0
TALLEST = 272.0
SMALL, TINY = 7.4, 6.4
LEADING = 9.6
KEY = "thick line: the piece; thin lines: rubber and box; dashed: level after a pour"
RUBBER_TONE, BOX_TONE = "#efefef", "#d6d2ca"


def draw_field(cut: FieldCut, words: Captions, ramp: Ramp) -> str:
    """Draw a field in an upright cut.

    Parameters
    ----------
    cut : FieldCut
        The field.
    words : Captions
        Everything that is written.
    ramp : Ramp
        Its colours, from the low to the high end of the scale.

    Returns
    -------
    str
        SVG document.
    """
    return _Picture(cut, words, ramp).render()


class _Picture:
    def __init__(self, cut: FieldCut, words: Captions, ramp: Ramp) -> None:
        self.cut, self.words = cut, words
        self.scale = scale_of(cut.values, cut.least_step)
        self.colours = ramp.colours(self.scale.count)
        self.frame, bottom = self._framed()
        self.canvas = Canvas(WIDTH, bottom + FOOT, words.title)
        self.places = Places()

    def _framed(self) -> tuple[Frame, float]:
        lines = [*self.cut.outlines.piece, *self.cut.outlines.rubber, *self.cut.outlines.panels]
        xs, zs = zip(*(point for line in lines for point in line), strict=True)
        width, height = max(xs) - min(xs), max(zs) - min(zs)
        # one scale both ways: a picture that stretches a piece cannot be measured on
        scale = min((WIDTH - LEFT - RIGHT) / width, TALLEST / height)
        bottom = HEAD + max(height * scale, self._least_height())
        floor = bottom - (bottom - HEAD - height * scale) / 2.0
        middle = (LEFT + WIDTH - RIGHT) / 2.0
        return Frame(scale, middle, floor, (max(xs) + min(xs)) / 2.0, min(zs)), bottom

    def _least_height(self) -> float:
        notes = sum(LEADING * len(text) + 5.0 for _, text in self.words.levels)
        return max(notes, 11.0 * self.scale.count + LEADING * (len(self.words.mark_lines) + 3))

    def render(self) -> str:
        self._write_head()
        self._paint()
        self._draw_outlines()
        self._draw_levels()
        self._draw_mark()
        self._draw_scale()
        self._label_lines()
        return self.canvas.render()

    def _write_head(self) -> None:
        title = fitted(self.words.title, WIDTH, 10.0)
        self.canvas.text(0.0, 10.0, title, 10.0, font_weight="bold")
        room = WIDTH - text_width(title, 10.0) - 20.0
        if room > 40.0:
            style: dict[str, str | float] = {"text_anchor": "end", "fill": GREY}
            self.canvas.text(WIDTH, 10.0, fitted(self.words.owner, room, SMALL), SMALL, **style)
        self.canvas.text(0.0, self.canvas.height - 3.0, KEY, SMALL, fill=GREY)
        for row, line in enumerate(self.words.lines):
            self.canvas.text(0.0, 21.5 + LEADING * row, fitted(line, WIDTH, SMALL), SMALL, fill=GREY)

    def _paint(self) -> None:
        cut, frame, canvas = self.cut, self.frame, self.canvas
        around = [*cut.outlines.rubber, *cut.outlines.panels]
        for lines, tone in ((cut.outlines.rubber, RUBBER_TONE), (cut.outlines.panels, BOX_TONE)):
            canvas.path(frame.path(lines), fill=tone, fill_rule="evenodd")
        self.field = Field(cut.across, cut.up, cut.values)
        inside = canvas.clip(frame.path(around if cut.whole else cut.outlines.piece))
        known = canvas.clip(frame.path([_rectangle(cut.across, cut.up)]))
        for colour, (low, high) in zip(self.colours, self._bands(), strict=True):
            canvas.within(
                inside, known, frame.path(self.field.band(low, high)), fill=colour, fill_rule="evenodd"
            )
        # lines over the bands: in a grey copy they are what is read
        for value in self.scale.edges[1:-1]:
            data = "".join(outline(map(frame.point, line), closed=False) for line in self.field.lines(value))
            if data:
                canvas.within(inside, known, data, fill="none", stroke=INK, stroke_width=0.45)
        self._leave_empty()

    def _bands(self) -> Iterable[tuple[float, float]]:
        # the ends take what rounding has put a hair outside the scale
        edges = [-LARGE, *self.scale.edges[1:-1], LARGE]
        return pairwise(edges)

    def _leave_empty(self) -> None:
        tops = [z for line in self.cut.outlines.piece for _, z in line]
        if max(tops) - self.cut.filled_to < 1e-4:
            return
        left, right = float(self.cut.across[0]), float(self.cut.across[-1])
        shape = self.canvas.clip(self.frame.path(self.cut.outlines.piece))
        above = [
            (left, self.cut.filled_to),
            (right, self.cut.filled_to),
            (right, max(tops)),
            (left, max(tops)),
        ]
        self.canvas.path(self.frame.path([above]), fill=PAPER, clip_path=shape)
        x, y = self.frame.point((0.0, (self.cut.filled_to + max(tops)) / 2.0))
        room = (max(tops) - self.cut.filled_to) * self.frame.scale
        if room > 16.0:
            self.canvas.text(x, y + 2.5, self.words.empty, SMALL, text_anchor="middle", fill=GREY)

    def _draw_outlines(self) -> None:
        outlines = self.cut.outlines
        for lines, width in ((outlines.rubber, 0.5), (outlines.panels, 0.7), (outlines.piece, 1.3)):
            self.canvas.path(
                self.frame.path(lines), fill="none", stroke=INK, stroke_width=width, fill_rule="evenodd"
            )

    def _draw_levels(self) -> None:
        levels = sorted(self.words.levels, key=lambda level: -level[0])
        wanted = [self.frame.point((0.0, height))[1] for height, _ in levels]
        sizes = [LEADING * len(text) + 5.0 for _, text in levels]
        low, high = HEAD, self.canvas.height - 2.0
        for (height, text), center in zip(levels, spread(wanted, sizes, low, high), strict=True):
            left, right = reach(self.cut.outlines.piece, height)
            (x1, y), (x2, _) = self.frame.point((left, height)), self.frame.point((right, height))
            style: dict[str, str | float] = {"stroke": ACCENT, "stroke_width": 1.1, "stroke_dasharray": "4 2"}
            self.canvas.line(x1 - 5.0, y, x2 + 5.0, y, **style)
            # no number of a line may stand on the dashes
            self.places.take((x1 - 5.0, y - 1.5, x2 + 5.0, y + 1.5))
            ends = max(text_width(line, SMALL) for line in text) + 3.0
            points = [(ends, center), (max(ends + 4.0, LEFT - 10.0), center), (LEFT - 2.0, y), (x1 - 5.0, y)]
            self.canvas.curve(points, stroke=ACCENT, stroke_width=0.5)
            self._write(0.0, center - LEADING * len(text) / 2.0 + 7.4, text, ACCENT)

    def _draw_mark(self) -> None:
        x, y = self.frame.point(self.words.mark)
        left, top = WIDTH - RIGHT + 12.0, self._note_top(y)
        lead = [(x, y), (left - 8.0, top - 2.5), (left - 3.0, top - 2.5)]
        # white beneath black: to be seen on light and on dark
        for ink, width in ((PAPER, 2.2), (INK, 0.7)):
            self.canvas.curve(lead, stroke=ink, stroke_width=width)
        for radius, ink in ((4.2, PAPER), (3.1, INK), (1.7, PAPER)):
            self.canvas.path(_circle(x, y, radius), fill=ink)
        self._write(left, top, self.words.mark_lines, INK)
        self._take_line(lead[0], lead[1])
        self.places.take((x - 7.0, y - 7.0, x + 7.0, y + 7.0))

    @property
    def _note_room(self) -> float:
        return LEADING * len(self.words.mark_lines)

    @property
    def _scale_on_top(self) -> bool:
        middle = (HEAD + self.canvas.height - FOOT) / 2.0
        return self.frame.point(self.words.mark)[1] > middle

    @property
    def _scale_span(self) -> tuple[float, float]:
        """Top and bottom of the coloured scale: in the half that the mark leaves free."""
        room = self.canvas.height - FOOT - HEAD - self._note_room - 3.0 * LEADING
        tall = min(room, 17.0 * self.scale.count)
        bottom = HEAD + 14.0 + tall if self._scale_on_top else self.canvas.height - FOOT - 3.0
        return bottom - tall, bottom

    def _note_top(self, mark: float) -> float:
        """First baseline of the note: as near to its mark as the scale lets it."""
        top, bottom = self._scale_span
        low, high = HEAD + 7.0, top - LEADING - self._note_room
        if self._scale_on_top:
            low, high = bottom + 2.0 * LEADING, self.canvas.height - FOOT - self._note_room + LEADING
        return max(min(mark, high), low)

    def _draw_scale(self) -> None:
        left = WIDTH - RIGHT + 12.0
        top, bottom = self._scale_span
        pitch = (bottom - top) / self.scale.count
        for place, colour in enumerate(self.colours):
            y = bottom - pitch * (place + 1)
            self.canvas.rect(left, y, 20.0, pitch, fill=colour, stroke=INK, stroke_width=0.45)
        for place, value in enumerate(self.scale.edges):
            y = bottom - pitch * place
            self.canvas.line(left + 20.0, y, left + 23.0, y, stroke_width=0.5)
            self.canvas.text(left + 26.0, y + 2.6, self._shown(value), SMALL)
        self.canvas.text(left, top - 7.0, self.words.unit, SMALL, font_weight="bold")

    def _shown(self, value: float) -> str:
        return f"{value:.{self.scale.digits}f}"

    def _label_lines(self) -> None:
        """Write each line's value once, on its longest piece inside, where there is room."""
        for value in self.scale.edges[1:-1]:
            text = self._shown(value)
            half = text_width(text, TINY) / 2.0 + 1.0
            for x, y in self._spots(value):
                frame = (x - half, y - 4.0, x + half, y + 4.0)
                if self.places.free(frame):
                    self.places.take(frame)
                    self.canvas.text(
                        x, y + 2.3, text, TINY, text_anchor="middle",
                        stroke=PAPER, stroke_width=1.8, stroke_linejoin="round", paint_order="stroke",
                    )  # fmt: skip
                    break

    def _spots(self, value: float) -> Iterator[tuple[float, float]]:
        """Places on the lines of a value, well inside what is coloured: long lines first, middles first."""
        for line in sorted(self.field.lines(value), key=len, reverse=True):
            # the middle of a line is farthest from where others crowd it
            inside = line[self._seen(line)]
            order = np.argsort(np.abs(np.arange(len(inside)) - len(inside) / 2.0), kind="stable")
            yield from (self.frame.point(point) for point in inside[order].tolist())

    def _seen(self, points: Array) -> NDArray[np.bool_]:
        """Where a label around a point lies in one coloured zone, clear of its outline."""
        wide, tall = 9.0 / self.frame.scale, 5.5 / self.frame.scale
        zones = self.cut.zones(points)
        seen = zones > 0
        for dx in (-wide, 0.0, wide):
            for dz in (-tall, tall):
                seen &= self.cut.zones(points + np.array([dx, dz])) == zones
        return seen

    def _take_line(self, start: tuple[float, float], end: tuple[float, float]) -> None:
        """Keep labels off a slanting line: small boxes along it."""
        for share in np.linspace(0.0, 1.0, 40).tolist():
            x, y = (a + share * (b - a) for a, b in zip(start, end, strict=True))
            self.places.take((x - 2.0, y - 2.0, x + 2.0, y + 2.0))

    def _write(self, x: float, y: float, lines: Sequence[str], ink: str) -> None:
        room = RIGHT - 12.0 if x > 0.0 else LEFT - 6.0
        for row, line in enumerate(lines):
            weight = "bold" if row == 0 else "normal"
            short = fitted(line, room, SMALL)
            self.canvas.text(
                x, y + LEADING * row, short, SMALL, fill=ink if row == 0 else INK, font_weight=weight
            )


def _rectangle(across: Array, up: Array) -> list[tuple[float, float]]:
    left, right, low, high = float(across[0]), float(across[-1]), float(up[0]), float(up[-1])
    return [(left, low), (right, low), (right, high), (left, high)]


def _circle(x: float, y: float, radius: float) -> str:
    half = f"a{radius} {radius} 0 1 0"
    return f"M{x - radius:.2f} {y:.2f}{half} {2 * radius} 0{half} {-2 * radius} 0Z"
