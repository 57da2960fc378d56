"""What a logger saw of a pour, over what its plan said."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.sheets.axes import Axes, nice_step
from pourwright.sheets.svg import ACCENT, GREY, INK, PALE, Canvas, fitted, outline, text_width, wrapped
from pourwright.sheets.wording import Wording

WIDTH, HEIGHT = 510.0, 320.0
LEFT, TOP, FOOT = 34.0, 52.0, 52.0
SMALL, HEAD = 7.4, 8.6
SHADE = "#e7ddd6"
Curve = Sequence[tuple[float, float]]


@dataclass(frozen=True)
class MeasuredHeat:
    """What the drawing shows; all times are hours after the pour went in, all temperatures degC.

    Parameters
    ----------
    title : str
        Of the drawing.
    told : str
        The answer in one sentence.
    measured : sequence of (float, float)
        Readings.
    planned : sequence of (float, float)
        The place by the plan.
    place : str
        What the planned line is.
    coolest, hottest : sequence of (float, float)
        Ends of the casting by the plan; empty for what is no casting.
    peak : tuple of float, optional
        When the planned peak is, and the ends of its band.
    limit : float, optional
        Of the casting.
    """

    title: str
    told: str
    measured: Curve
    planned: Curve
    place: str
    coolest: Curve = ()
    hottest: Curve = ()
    peak: tuple[float, float, float] | None = None
    limit: float | None = None


def draw_measured_heat(shown: MeasuredHeat, words: Wording) -> str:
    """Draw measured over planned.

    Parameters
    ----------
    shown : MeasuredHeat
        Curves and words.
    words : Wording
        The maker's units.

    Returns
    -------
    str
        SVG document.
    """
    return _Drawing(shown, words).render()


class _Drawing:
    def __init__(self, shown: MeasuredHeat, words: Wording) -> None:
        self.shown, self.words = shown, words
        self.canvas = Canvas(WIDTH, HEIGHT, f"{shown.title}. {shown.told}")
        self.axes = self._axes()

    def render(self) -> str:
        for line, text in enumerate(wrapped(self.shown.told, WIDTH, HEAD, 2)):
            self.canvas.text(0.0, 11.0 + 12.0 * line, text, HEAD, font_weight="bold")
        self._casting()
        self._grid()
        self._limit()
        self._curve(self.shown.planned, GREY, 1.2, "5 3")
        self._peak()
        self._curve(self.shown.measured, INK, 1.7)
        self._legend()
        return self.canvas.render()

    def _axes(self) -> Axes:
        shown = self.shown
        curves = (shown.measured, shown.planned, shown.coolest, shown.hottest)
        points = [point for curve in curves for point in curve]
        ends = [*(shown.peak or ())[1:], *([shown.limit] if shown.limit is not None else [])]
        values = [self.words.degrees(value) for value in [*(value for _, value in points), *ends]]
        step = nice_step(max(max(values) - min(values), 1.0), 8)
        low, high = math.floor(min(values) / step) * step, math.ceil((max(values) + 0.2 * step) / step) * step
        times = [time for time, _ in points]
        return Axes(LEFT, WIDTH - 6.0, TOP, HEIGHT - FOOT, min(*times, 0.0), max(times), low, high)

    def _place(self, point: tuple[float, float]) -> tuple[float, float]:
        return self.axes.x(point[0]), self.axes.y(self.words.degrees(point[1]))

    def _casting(self) -> None:
        """Everything between the coolest and the hottest place of the casting."""
        band = [*self.shown.hottest, *reversed(self.shown.coolest)]
        if band:
            self.canvas.path(outline(map(self._place, band)), fill=SHADE)

    def _grid(self) -> None:
        axes = self.axes
        step = nice_step(axes.high - axes.low, 8)
        for index in range(round((axes.high - axes.low) / step) + 1):
            y = axes.y(axes.low + index * step)
            self.canvas.line(axes.left, y, axes.right, y, stroke=PALE, stroke_width=0.4)
            value = f"{axes.low + index * step:g}"
            self.canvas.text(axes.left - 4.0, y + 2.6, value, SMALL, text_anchor="end")
        step = nice_step(axes.end_h - axes.start_h, 10)
        for index in range(math.ceil(axes.start_h / step), math.floor(axes.end_h / step) + 1):
            x = axes.x(index * step)
            self.canvas.line(x, axes.bottom, x, axes.bottom + 3.0)
            self.canvas.text(x, axes.bottom + 12.0, f"{index * step:g}", SMALL, text_anchor="middle")
        self.canvas.text(0.0, TOP - 8.0, self.words.degree_sign, SMALL, fill=GREY)
        hours = "hours after the pour went in"
        self.canvas.text(axes.right, axes.bottom + 24.0, hours, SMALL, text_anchor="end", fill=GREY)
        self.canvas.line(axes.left, axes.bottom, axes.right, axes.bottom)
        self.canvas.line(axes.left, axes.top, axes.left, axes.bottom)

    def _limit(self) -> None:
        if self.shown.limit is None:
            return
        y = self.axes.y(self.words.degrees(self.shown.limit))
        dash = {"stroke_dasharray": "7 3"}
        self.canvas.line(self.axes.left, y, self.axes.right, y, stroke=ACCENT, stroke_width=1.4, **dash)
        told = f"limit {self.words.temperature(self.shown.limit)}"
        bold = {"text_anchor": "end", "fill": ACCENT, "font_weight": "bold"}
        self.canvas.text(self.axes.right - 3.0, y - 3.5, told, SMALL, **bold)

    def _curve(self, curve: Curve, ink: str, width: float, dash: str = "") -> None:
        style = {"stroke_dasharray": dash} if dash else {}
        self.canvas.curve([self._place(point) for point in curve], stroke=ink, stroke_width=width, **style)

    def _peak(self) -> None:
        if self.shown.peak is None:
            return
        after, low, high = self.shown.peak
        (x, bottom), (_, top) = self._place((after, low)), self._place((after, high))
        stroke = f"M{x - 3:.2f} {top:.2f}h6M{x:.2f} {top:.2f}V{bottom:.2f}M{x - 3:.2f} {bottom:.2f}h6"
        self.canvas.path(stroke, fill="none", stroke=INK, stroke_width=1.1)
        self.canvas.text(x, top - 4.0, "8 in 10 peaks", SMALL, text_anchor="middle")

    def _legend(self) -> None:
        x, y = LEFT, HEIGHT - 8.0
        lines = [("measured", INK, 1.7, ""), (f"planned: {self.shown.place}", GREY, 1.2, "5 3")]
        for told, ink, width, dash in lines:
            style = {"stroke_dasharray": dash} if dash else {}
            self.canvas.line(x, y - 2.6, x + 16.0, y - 2.6, stroke=ink, stroke_width=width, **style)
            text = fitted(told, 230.0, SMALL)
            self.canvas.text(x + 20.0, y, text, SMALL)
            x += 30.0 + text_width(text, SMALL)
        if self.shown.hottest:
            self.canvas.rect(x, y - 7.0, 13.0, 8.0, fill=SHADE)
            told = "casting, coolest to hottest"
            self.canvas.text(x + 17.0, y, fitted(told, WIDTH - x - 17.0, SMALL), SMALL)
