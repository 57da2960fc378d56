"""The warm box against time: its air, and the hottest and coldest place of the piece in it."""

import math
from collections.abc import Sequence

from pourwright.jobs.plan import PlanDocument
from pourwright.jobs.plan_soft import WarmBox
from pourwright.sheets.axes import Axes, hours_between, nice_step, time_ticks
from pourwright.sheets.svg import ACCENT, GREY, INK, PALE, Canvas, text_width
from pourwright.sheets.wording import Wording

SMALL = 7.4
BEFORE, AFTER = 3.0, 4.0
"""Hours shown before the ramp and after the box may be opened."""


def draw_warm_box(plan: PlanDocument) -> str:
    """Draw the warm box from its ramp to its opening.

    Parameters
    ----------
    plan : PlanDocument
        With a warm box.

    Returns
    -------
    str
        SVG document.
    """
    assert plan.soft is not None
    assert plan.soft.warm_box is not None
    return _Chart(plan, plan.soft.warm_box).render()


class _Chart:
    def __init__(self, plan: PlanDocument, box: WarmBox) -> None:
        self.box, self.words = box, Wording(plan.job)
        self.canvas = Canvas(510.0, 176.0, f"{plan.job.title}: the warm box")
        self.open_h = hours_between(box.begin, box.open_at)
        low = self.words.degrees(min(box.shop_degC, *box.coolest_degC) - 2.0)
        high = self.words.degrees(max(box.hold_degC, *box.hottest_degC) + 4.0)
        self.step = nice_step(high - low, 5)
        floor = math.floor(low / self.step) * self.step
        self.axes = Axes(30.0, 504.0, 18.0, 132.0, -BEFORE, self.open_h + AFTER, floor, high)

    def render(self) -> str:
        self._grid()
        self._times()
        box, axes = self.box, self.axes
        corners = [hours_between(box.begin, moment) for moment in (box.warm_at, box.cool_at, box.shop_at)]
        air = [
            (-BEFORE, box.shop_degC), (0.0, box.shop_degC), (corners[0], box.hold_degC),
            (corners[1], box.hold_degC), (corners[2], box.shop_degC), (axes.end_h, box.shop_degC),
        ]  # fmt: skip
        self._line(air, ACCENT, 1.4, "")
        self._line(list(zip(box.time_h, box.coolest_degC, strict=True)), GREY, 0.9, "")
        self._line(list(zip(box.time_h, box.hottest_degC, strict=True)), INK, 1.7, "")
        self._opening()
        self._legend(172.0)
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

    def _times(self) -> None:
        axes = self.axes
        ticks = time_ticks(self.words.local(self.box.begin), (axes.start_h, axes.end_h), self.canvas.width)
        room = (axes.right - axes.left) / max(len(ticks), 1)
        for tick in ticks:
            x = axes.x(tick.hours)
            self.canvas.line(x, axes.bottom, x, axes.bottom + (4.0 if tick.major else 2.0))
            words = tick.words(room, SMALL, self.words.system)
            if words and x + text_width(words, SMALL) / 2 <= axes.right + 4.0:
                weight = "bold" if tick.major else "normal"
                self.canvas.text(
                    x, axes.bottom + 12.0, words, SMALL, text_anchor="middle", font_weight=weight
                )

    def _line(self, series: Sequence[tuple[float, float]], ink: str, width: float, dash: str) -> None:
        style = {"stroke_dasharray": dash} if dash else {}
        points = [(self.axes.x(time), self.axes.y(self.words.degrees(value))) for time, value in series]
        self.canvas.curve(points, stroke=ink, stroke_width=width, **style)

    def _opening(self) -> None:
        axes = self.axes
        for hours, words, anchor in ((0.0, "begin", "start"), (self.open_h, "not open before", "end")):
            x = axes.x(hours)
            self.canvas.line(x, axes.top - 3.0, x, axes.bottom, stroke=INK, stroke_width=0.7)
            self.canvas.text(x, axes.top - 6.0, words, SMALL, text_anchor=anchor, font_weight="bold")

    def _legend(self, y: float) -> None:
        entries = [
            ("air in the box", ACCENT, 1.4),
            ("hottest place of the piece", INK, 1.7),
            ("coldest place", GREY, 0.9),
        ]
        x = 30.0
        for words, ink, width in entries:
            self.canvas.line(x, y - 2.6, x + 14.0, y - 2.6, stroke=ink, stroke_width=width)
            self.canvas.text(x + 17.0, y, words, SMALL)
            x += 26.0 + text_width(words, SMALL)
