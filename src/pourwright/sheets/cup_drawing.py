"""A cup test on paper: what the logger read, what the fitted resin does, and how sure that is."""

from __future__ import annotations

import math
from collections.abc import Sequence

from pourwright.foundation.notation import ZERO_CELSIUS, UnitSystem, format_temperature
from pourwright.jobs.fit import FitCup, FitDocument
from pourwright.sheets.axes import Axes, nice_step
from pourwright.sheets.svg import ACCENT, GREY, INK, PALE, Canvas, outline, text_width

SMALL = 7.4
WIDTH, HEIGHT = 510.0, 300.0
BAND_TONE = "#e3c9bb"
DOT = 1.3


def draw_cup(document: FitDocument, cup: FitCup) -> str:
    """Draw measured against fitted, with the band of the fit.

    Parameters
    ----------
    document : FitDocument
        The fit.
    cup : FitCup
        One of its cup tests.

    Returns
    -------
    str
        SVG document.
    """
    return _CupChart(document, cup).render()


class _CupChart:
    def __init__(self, document: FitDocument, cup: FitCup) -> None:
        self.cup = cup
        self.us = document.units == "us"
        invented = " (invented data)" if document.invented else ""
        self.title = f"{document.name}: {cup.label}{invented}"
        self.canvas = Canvas(WIDTH, HEIGHT, self.title)
        shown = [*cup.measured_degC, *cup.fitted_degC, *cup.air_degC]
        low, high = (self._degrees(end) for end in (min(shown), max(shown)))
        step = nice_step(high - low, 6)
        self.step = step
        floor, top = math.floor(low / step) * step, math.ceil((high + 0.04 * (high - low)) / step) * step
        self.axes = Axes(34.0, WIDTH - 8.0, 30.0, HEIGHT - 52.0, 0.0, max(cup.time_h[-1], 1e-6), floor, top)

    def _degrees(self, celsius: float) -> float:
        return celsius * 9 / 5 + 32 if self.us else celsius

    def _points(self, time: Sequence[float], values: Sequence[float]) -> list[tuple[float, float]]:
        axes = self.axes
        pairs = zip(time, values, strict=True)
        return [(axes.x(t), min(max(axes.y(self._degrees(v)), axes.top), axes.bottom)) for t, v in pairs]

    def render(self) -> str:
        cup, canvas = self.cup, self.canvas
        self._frame()
        upper = self._points(cup.time_h, cup.fitted_degC_p90)
        lower = self._points(cup.time_h, cup.fitted_degC_p10)
        canvas.path(outline([*upper, *reversed(lower)]), fill=BAND_TONE)
        inside = [(t, v) for t, v in zip(cup.air_time_h, cup.air_degC, strict=True) if t <= cup.time_h[-1]]
        if len(inside) > 1:
            times, values = zip(*inside, strict=True)
            canvas.curve(self._points(times, values), stroke=GREY, stroke_width=0.9, stroke_dasharray="1 2.2")
        canvas.curve(self._points(cup.time_h, cup.fitted_degC), stroke=ACCENT, stroke_width=1.5)
        for x, y in self._points(cup.time_h, cup.measured_degC):
            canvas.rect(x - DOT / 2, y - DOT / 2, DOT, DOT, fill=INK)
        self._peak()
        self._legend()
        return canvas.render()

    def _frame(self) -> None:
        axes, canvas = self.axes, self.canvas
        canvas.text(0.0, 9.0, self.title, 8.5, font_weight="bold")
        canvas.text(0.0, 21.0, "°F" if self.us else "°C", SMALL, fill=GREY)
        for i in range(round((axes.high - axes.low) / self.step) + 1):
            value = axes.low + i * self.step
            y = axes.y(value)
            canvas.line(axes.left, y, axes.right, y, stroke=PALE, stroke_width=0.4)
            canvas.text(axes.left - 4.0, y + 2.6, f"{value:.0f}", SMALL, text_anchor="end")
        hours = nice_step(axes.end_h, 8)
        for i in range(int(axes.end_h / hours) + 1):
            x = axes.x(i * hours)
            canvas.line(x, axes.bottom, x, axes.bottom + 4.0)
            canvas.text(x, axes.bottom + 13.0, f"{i * hours:g} h", SMALL, text_anchor="middle")
        canvas.line(axes.left, axes.bottom, axes.right, axes.bottom)
        canvas.line(axes.left, axes.top, axes.left, axes.bottom)

    def _peak(self) -> None:
        top = max(range(len(self.cup.fitted_degC)), key=self.cup.fitted_degC.__getitem__)
        celsius = self.cup.fitted_degC[top]
        words = format_temperature(celsius + ZERO_CELSIUS, UnitSystem.US if self.us else UnitSystem.METRIC)
        x, y = self.axes.x(self.cup.time_h[top]), self.axes.y(self._degrees(celsius))
        half = text_width(words, SMALL) / 2
        x = min(max(x, self.axes.left + half), self.axes.right - half)
        self.canvas.text(x, max(y - 5.0, self.axes.top + 6.0), words, SMALL, text_anchor="middle")

    def _legend(self) -> None:
        y, x = HEIGHT - 10.0, 34.0
        canvas = self.canvas
        for _ in range(4):
            canvas.rect(x + 3.5 * _, y - 3.2, DOT, DOT, fill=INK)
        canvas.text(x + 18.0, y, "measured", SMALL)
        x += 26.0 + text_width("measured", SMALL)
        canvas.line(x, y - 2.6, x + 14.0, y - 2.6, stroke=ACCENT, stroke_width=1.5)
        canvas.text(x + 18.0, y, "fitted", SMALL)
        x += 26.0 + text_width("fitted", SMALL)
        canvas.rect(x, y - 7.0, 13.0, 8.0, fill=BAND_TONE)
        canvas.text(x + 18.0, y, "8 of 10 readings", SMALL)
        x += 26.0 + text_width("8 of 10 readings", SMALL)
        canvas.line(x, y - 2.6, x + 14.0, y - 2.6, stroke=GREY, stroke_width=0.9, stroke_dasharray="1 2.2")
        canvas.text(x + 18.0, y, "air", SMALL)
