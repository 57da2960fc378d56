"""Lift, weight and what is left of it, against the level of the rubber."""

from __future__ import annotations

import math
from collections.abc import Sequence

from pourwright.foundation.notation import UnitSystem
from pourwright.jobs.mold_floats import Floats
from pourwright.sheets.axes import Axes, nice_step
from pourwright.sheets.svg import ACCENT, GREY, INK, PALE, Canvas, fitted, text_width
from pourwright.sheets.wording import Wording

WIDTH, HEIGHT = 510.0, 262.0
SMALL = 7.4
NEWTONS, POUND, INCH, MM = 9.80665, 0.45359237, 0.0254, 0.001


def draw_floats(title: str, floats: Floats, words: Wording) -> str:
    """Draw the forces on the master.

    Parameters
    ----------
    title : str
        Of the job.
    floats : Floats
        As told.
    words : Wording
        The maker's units.

    Returns
    -------
    str
        SVG document.
    """
    return _FloatChart(title, floats, words).render()


class _FloatChart:
    def __init__(self, title: str, floats: Floats, words: Wording) -> None:
        self.floats, self.words = floats, words
        us = words.system is UnitSystem.US
        self.long, self.long_name = (INCH, "in") if us else (MM, "mm")
        self.heavy, self.heavy_name = (POUND, "lb") if us else (1.0, "kg")
        self.canvas = Canvas(WIDTH, HEIGHT, f"{title}: what floats")
        self.weight = self._heavy(floats.master_kg * NEWTONS)
        shown = [0.0, self.weight, *self._net(floats.curve.lift_N), *map(self._heavy, floats.curve.lift_N)]
        shown += self._tight() if floats.held == "screwed" else []
        low, high = min(shown), max(shown)
        self.step = nice_step(max(high - low, 1e-6), 6)
        floor, top = math.floor(low / self.step) * self.step, math.ceil(1.02 * high / self.step) * self.step
        end = max(floats.curve.level_m[-1] / self.long, 1e-6)
        self.axes = Axes(40.0, WIDTH - 12.0, 62.0, HEIGHT - 34.0, 0.0, end, floor, top)

    def _heavy(self, newtons: float) -> float:
        return newtons / NEWTONS / self.heavy

    def _net(self, newtons: Sequence[float]) -> list[float]:
        return [self._heavy(force) - self.weight for force in newtons]

    def _tight(self) -> list[float]:
        return self._net(self.floats.curve.tight_N)

    def render(self) -> str:
        self._legend()
        self._grid()
        self._standing()
        lift = [self._heavy(force) for force in self.floats.curve.lift_N]
        self._curve(lift, stroke=GREY, stroke_width=1.0)
        axes = self.axes
        self.canvas.line(
            axes.left,
            axes.y(self.weight),
            axes.right,
            axes.y(self.weight),
            stroke=GREY,
            stroke_dasharray="5 3",
        )
        if self.floats.held == "screwed":
            self._curve(self._tight(), stroke=INK, stroke_width=1.2, stroke_dasharray="2 2")
            self._mark(self.floats.tight_level_m, max(self._tight()), "tight", INK)
        self._curve(self._net(self.floats.curve.lift_N), stroke=ACCENT, stroke_width=1.8)
        self._mark(self.floats.worst_level_m, self._heavy(self.floats.net_N), "worst", ACCENT)
        return self.canvas.render()

    def _curve(self, values: Sequence[float], **style: str | float) -> None:
        axes = self.axes
        levels = self.floats.curve.level_m
        points = [(axes.x(at / self.long), axes.y(value)) for at, value in zip(levels, values, strict=True)]
        self.canvas.curve(points, **style)

    def _legend(self) -> None:
        under = "the same, tight: no rubber under it" if self.floats.held == "screwed" else ""
        kinds: list[tuple[str, dict[str, str | float]]] = [
            ("lift", {"stroke": GREY, "stroke_width": 1.0}),
            ("the master's weight", {"stroke": GREY, "stroke_dasharray": "5 3"}),
            ("lift less weight", {"stroke": ACCENT, "stroke_width": 1.8}),
            (under, {"stroke": INK, "stroke_width": 1.2, "stroke_dasharray": "2 2"}),
        ]
        x = self.axes.left
        self.canvas.text(
            4.0, 11.0, fitted(f"Forces on the master, {self.heavy_name}: above 0 it floats", 400.0, 8.4), 8.4
        )
        for name, style in kinds:
            if name:
                self.canvas.line(x, 24.0, x + 18.0, 24.0, **style)
                self.canvas.text(x + 22.0, 26.5, name, SMALL)
                x += 34.0 + text_width(name, SMALL)

    def _grid(self) -> None:
        axes, canvas = self.axes, self.canvas
        for index in range(round((axes.high - axes.low) / self.step) + 1):
            value = axes.low + index * self.step
            zero = abs(value) < self.step / 100
            looks: dict[str, str | float]
            looks = {"stroke": INK, "stroke_width": 0.9} if zero else {"stroke": PALE, "stroke_width": 0.5}
            canvas.line(axes.left, axes.y(value), axes.right, axes.y(value), **looks)
            text = f"{round(value, 6):g}" if not zero else "0"
            canvas.text(axes.left - 4.0, axes.y(value) + 2.6, text, SMALL, text_anchor="end")
        for at in self._levels():
            canvas.line(axes.x(at), axes.bottom, axes.x(at), axes.bottom + 3.0, stroke=GREY)
            canvas.text(axes.x(at), axes.bottom + 12.0, f"{at:g}", SMALL, text_anchor="middle")
        told = f"level of the rubber above the box's floor, {self.long_name}"
        canvas.text((axes.left + axes.right) / 2, axes.bottom + 25.0, told, SMALL, text_anchor="middle")

    def _levels(self) -> list[float]:
        step = nice_step(self.axes.end_h, 8)
        return [index * step for index in range(int(self.axes.end_h / step + 1e-9) + 1)]

    def _standing(self) -> None:
        """The second reading along the top edge: how high on the piece as it stands."""
        heights, levels = self.floats.curve.standing_m, self.floats.curve.level_m
        if heights is None:
            return
        axes, canvas = self.axes, self.canvas
        slope = -1.0 if heights[-1] < heights[0] else 1.0
        zero = (levels[0] - slope * heights[0]) / self.long
        step = nice_step(axes.end_h, 8)
        high = max(heights) / self.long
        for index in range(int(high / step + 1e-9) + 1):
            x = axes.x(zero + slope * index * step)
            if axes.left - 0.1 <= x <= axes.right + 0.1:
                canvas.line(x, axes.top - 3.0, x, axes.top, stroke=GREY)
                canvas.text(x, axes.top - 6.0, f"{index * step:g}", SMALL, text_anchor="middle", fill=GREY)
        told = f"the same on the piece as it stands, {self.long_name} from its floor"
        canvas.text(
            (axes.left + axes.right) / 2, axes.top - 17.0, told, SMALL, text_anchor="middle", fill=GREY
        )

    def _mark(self, level: float, value: float, name: str, ink: str) -> None:
        axes = self.axes
        x, y = axes.x(level / self.long), axes.y(value)
        self.canvas.circle(x, y, 3.0, fill=ink)
        text = f"{name}: {self.words.load(abs(value) * self.heavy)}{' down' if value < 0 else ''}"
        text += f" at {self.words.length(level)}"
        left = x + 7.0 + text_width(text, SMALL) < axes.right
        below = 12.0 if y - 10.0 < axes.top else -5.0
        self.canvas.text(
            x + 6.0 if left else x - 6.0,
            y + below,
            text,
            SMALL,
            fill=ink,
            text_anchor="start" if left else "end",
        )
