"""Air, mold and tops against the dew point, hour by hour."""

import math
from collections.abc import Iterator, Sequence

from pourwright.jobs.plan import PlanDocument
from pourwright.jobs.plan_soft import Damp
from pourwright.sheets.axes import Axes, hours_between, nice_step, time_ticks
from pourwright.sheets.svg import ACCENT, GREY, INK, PALE, PAPER, Canvas, text_width
from pourwright.sheets.wording import Wording

SMALL = 7.4
SHADE = "#ecd9cf"
ROOM_ABOVE = 9.0
"""Kelvin above the warmest air that the chart shows; the reaction may warm a top far beyond."""
Series = Sequence[tuple[float, float | None]]


def draw_damp(plan: PlanDocument) -> str:
    """Draw the shop by the hour, shaded where mold or top are too near the dew point or the air too damp.

    Parameters
    ----------
    plan : PlanDocument
        With its damp.

    Returns
    -------
    str
        SVG document.
    """
    assert plan.soft is not None
    return _Chart(plan, plan.soft.damp).render()


class _Chart:
    def __init__(self, plan: PlanDocument, damp: Damp) -> None:
        self.plan, self.damp = plan, damp
        self.words = Wording(plan.job)
        self.canvas = Canvas(510.0, 194.0, f"{plan.job.title}: air, mold and tops against the dew point")
        hours = damp.hours
        self.ceiling = max(*hours.air_degC, *hours.mold_degC) + ROOM_ABOVE
        tops = [top for top in hours.top_degC if top is not None]
        coolest = min(damp.dew_point_degC, *hours.air_degC, *hours.mold_degC, *tops)
        low, high = self._shown(coolest - 1.0), self._shown(self.ceiling)
        self.step = nice_step(high - low, 6)
        floor = math.floor(low / self.step) * self.step
        self.axes = Axes(30.0, 504.0, 24.0, 152.0, hours.time_h[0], hours.time_h[-1], floor, high)

    def render(self) -> str:
        self._shades()
        self._grid()
        self._times()
        hours = self.damp.hours
        self._line(list(zip(hours.time_h, hours.air_degC, strict=True)), GREY, 1.0, "1 2.2")
        self._line(list(zip(hours.time_h, hours.mold_degC, strict=True)), GREY, 0.9, "")
        self._line(list(zip(hours.time_h, hours.top_degC, strict=True)), INK, 1.7, "")
        self._dew()
        self._starts()
        self._legend(189.0)
        return self.canvas.render()

    def _shown(self, celsius: float) -> float:
        return self.words.degrees(celsius)

    def _shades(self) -> None:
        axes = self.axes
        for begin, end in self._damp_times():
            left, right = axes.x(max(begin - 0.5, axes.start_h)), axes.x(min(end + 0.5, axes.end_h))
            self.canvas.rect(left, axes.top, right - left, axes.bottom - axes.top, fill=SHADE)

    def _damp_times(self) -> Iterator[tuple[float, float]]:
        """First and last full hour of each time that is too damp."""
        hours = self.damp.hours
        begin = before = None
        for time, close in zip(hours.time_h, hours.too_close, strict=True):
            if close:
                begin, before = time if begin is None else begin, time
            elif begin is not None and before is not None:
                yield begin, before
                begin = None
        if begin is not None and before is not None:
            yield begin, before

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

    def _times(self) -> None:
        axes, first = self.axes, self.words.local(self.plan.pours[0].start)
        ticks = time_ticks(first, (axes.start_h, axes.end_h), self.canvas.width)
        room = (axes.right - axes.left) / max(len(ticks), 1)
        for tick in ticks:
            x = axes.x(tick.hours)
            self.canvas.line(x, axes.bottom, x, axes.bottom + (4.0 if tick.major else 2.0))
            words = tick.words(room, SMALL, self.words.system)
            half = text_width(words, SMALL) / 2
            if words and axes.left - 8.0 <= x - half and x + half <= axes.right + 4.0:
                weight = "bold" if tick.major else "normal"
                self.canvas.text(
                    x, axes.bottom + 12.0, words, SMALL, text_anchor="middle", font_weight=weight
                )

    def _line(self, series: Series, ink: str, width: float, dash: str) -> None:
        style = {"stroke_dasharray": dash} if dash else {}
        for part in self._shown_parts(series):
            self.canvas.curve(part, stroke=ink, stroke_width=width, **style)

    def _shown_parts(self, series: Series) -> Iterator[list[tuple[float, float]]]:
        """What of a series lies on the chart; a top that is far warmer leaves it."""
        part: list[tuple[float, float]] = []
        for time, value in series:
            if value is not None and value <= self.ceiling:
                part.append((self.axes.x(time), self.axes.y(self._shown(value))))
            elif len(part) > 1:
                yield part
                part = []
        if len(part) > 1:
            yield part

    def _dew(self) -> None:
        axes, dew = self.axes, self.damp.dew_point_degC
        near = axes.y(self._shown(dew + self.damp.margin_K))
        self.canvas.line(
            axes.left, near, axes.right, near, stroke=ACCENT, stroke_width=0.8, stroke_dasharray="2 2"
        )
        y = axes.y(self._shown(dew))
        self.canvas.line(axes.left, y, axes.right, y, stroke=ACCENT, stroke_width=1.4, stroke_dasharray="7 3")
        above = f"{self.words.difference(self.damp.margin_K)} above it"
        for words, height in ((f"dew point {self.words.temperature(dew)}", y), (above, near)):
            wide = text_width(words, SMALL)
            # paper behind the words: the shop's own line may run just there
            self.canvas.rect(axes.right - 5.0 - wide, height - 9.5, wide + 4.0, 8.8, fill=PAPER)
            self.canvas.text(
                axes.right - 3.0, height - 2.5, words, SMALL,
                text_anchor="end", fill=ACCENT, font_weight="bold",
            )  # fmt: skip

    def _starts(self) -> None:
        axes = self.axes
        for pour in self.plan.pours:
            x = axes.x(hours_between(self.plan.pours[0].start, pour.start))
            self.canvas.line(x, axes.top - 3.0, x, axes.bottom, stroke=INK, stroke_width=0.7)
            self.canvas.path(f"M{x - 3.5:.2f} {axes.top - 7:.2f}h7l-3.5 6Z", fill=INK)
            words = str(pour.number) if len(self.plan.pours) > 1 else f"pour {pour.number}"
            self.canvas.text(x, axes.top - 9.5, words, SMALL, text_anchor="middle", font_weight="bold")

    def _legend(self, y: float) -> None:
        entries = [
            ("shop air", GREY, 1.0, "1 2.2"),
            ("mold and glass", GREY, 0.9, ""),
            ("top of the pour", INK, 1.7, ""),
        ]
        x = 30.0
        for words, ink, width, dash in entries:
            style = {"stroke_dasharray": dash} if dash else {}
            self.canvas.line(x, y - 2.6, x + 14.0, y - 2.6, stroke=ink, stroke_width=width, **style)
            self.canvas.text(x + 17.0, y, words, SMALL)
            x += 26.0 + text_width(words, SMALL)
        self.canvas.rect(x, y - 7.0, 13.0, 8.0, fill=SHADE, stroke=GREY, stroke_width=0.5)
        self.canvas.text(x + 17.0, y, "too damp to pour", SMALL)
