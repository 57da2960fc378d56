"""Hottest and coldest place of gypsum or concrete against time, as it sets."""

import math
from collections.abc import Sequence

from pourwright.jobs.fill_setting_heat import SettingHeat
from pourwright.jobs.plan import JobInfo
from pourwright.sheets.axes import Axes, nice_step
from pourwright.sheets.svg import ACCENT, GREY, INK, PALE, Canvas, text_width
from pourwright.sheets.wording import Wording

SMALL = 7.4
WIDTH, HEIGHT = 510.0, 190.0


def draw_setting_heat(part: SettingHeat, job: JobInfo) -> str:
    """Draw how warm the casting is until it has cooled.

    Parameters
    ----------
    part : SettingHeat
        With its history.
    job : JobInfo
        Title and units.

    Returns
    -------
    str
        SVG document.
    """
    return _Chart(part, job).render()


class _Chart:
    def __init__(self, part: SettingHeat, job: JobInfo) -> None:
        self.part, self.words = part, Wording(job)
        self.canvas = Canvas(WIDTH, HEIGHT, f"{job.title}: warmth as it sets")
        low = self.words.degrees(min(part.shop_degC, *part.coldest_degC) - 1.0)
        high = self.words.degrees(part.peak_degC + 4.0)
        self.step = nice_step(high - low, 6)
        last = min(part.time_h[-1], max(4.0 * part.peak_h, 1.2 * (part.open_h or 0.0)))
        self.axes = Axes(30.0, 504.0, 28.0, 146.0, 0.0, last, math.floor(low / self.step) * self.step, high)

    def render(self) -> str:
        self._grid()
        part = self.part
        self._line(part.coldest_degC, GREY, 0.9)
        self._line(part.hottest_degC, INK, 1.7)
        moments = [(part.peak_h, f"hottest, {self.words.temperature(part.peak_degC)}", GREY)]
        if part.open_h is not None and part.open_h <= self.axes.end_h:
            moments.append((part.open_h, f"open, after {self.words.duration(part.open_h)}", ACCENT))
        # the earlier one's words stand higher, so that the later line does not cross them
        for above, moment in zip((15.0, 6.0), sorted(moments), strict=False):
            self._moment(*moment, above)
        self._legend(HEIGHT - 6.0)
        return self.canvas.render()

    def _grid(self) -> None:
        axes = self.axes
        for i in range(int((axes.high - axes.low) / self.step + 1e-9) + 1):
            value = axes.low + i * self.step
            y = axes.y(value)
            self.canvas.line(axes.left, y, axes.right, y, stroke=PALE, stroke_width=0.4)
            self.canvas.text(axes.left - 4.0, y + 2.6, f"{value:.0f}", SMALL, text_anchor="end")
        self.canvas.text(0.0, 9.0, self.words.degree_sign, SMALL, fill=GREY)
        self.canvas.line(axes.left, axes.bottom, axes.right, axes.bottom)
        self.canvas.line(axes.left, axes.top, axes.left, axes.bottom)
        each = nice_step(axes.end_h, 10)
        for i in range(int(axes.end_h / each + 1e-9) + 1):
            x = axes.x(i * each)
            self.canvas.line(x, axes.bottom, x, axes.bottom + 3.0)
            self.canvas.text(x, axes.bottom + 12.0, f"{i * each:g} h", SMALL, text_anchor="middle")

    def _line(self, values: Sequence[float], ink: str, width: float) -> None:
        told = [
            (self.axes.x(time), self.axes.y(self.words.degrees(value)))
            for time, value in zip(self.part.time_h, values, strict=True)
            if time <= self.axes.end_h
        ]
        self.canvas.curve(told, stroke=ink, stroke_width=width)

    def _moment(self, hours: float, words: str, ink: str, above: float) -> None:
        axes, x = self.axes, self.axes.x(hours)
        self.canvas.line(x, axes.top - above + 2.0, x, axes.bottom, stroke=ink, stroke_width=0.9)
        anchor = "end" if x > axes.right - 100.0 else "start"
        self.canvas.text(x, axes.top - above, words, SMALL, text_anchor=anchor, font_weight="bold")

    def _legend(self, y: float) -> None:
        x = 30.0
        for words, ink, width in (("hottest place", INK, 1.7), ("coldest place", GREY, 0.9)):
            self.canvas.line(x, y - 2.6, x + 14.0, y - 2.6, stroke=ink, stroke_width=width)
            self.canvas.text(x + 17.0, y, words, SMALL)
            x += 26.0 + text_width(words, SMALL)
