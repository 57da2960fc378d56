"""Numbers of pours against the days they take and the chance that they go over a limit."""

import math

from pourwright.jobs.plan import PlanDocument
from pourwright.jobs.plan_chances import Chances, Compared
from pourwright.sheets.axes import Axes, nice_step
from pourwright.sheets.labels import Places
from pourwright.sheets.svg import ACCENT, GREY, INK, PALE, PAPER, Canvas, text_width

WIDTH, HEIGHT = 510.0, 172.0
LEFT, TOP, BOTTOM = 92.0, 20.0, 136.0
SMALL = 7.4
MARK = 4.0
LEAST = 1e-3
"""Rarer than this is not told apart."""
STEPS = {LEAST: "1 in 1000 or less", 0.01: "1 in 100", 0.05: "1 in 20", 0.2: "1 in 5", 1.0: "every one"}


def draw_compared(plan: PlanDocument) -> str | None:
    """Draw the plans that keep the limits, one mark per number of pours.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    str or None
        SVG document; None where fewer than two numbers of pours have a plan.
    """
    if plan.chances is None:
        return None
    points = [each for each in plan.chances.compared if each.days is not None and each.over_limit is not None]
    return _Chart(plan.job.title, plan.chances, points).render() if len(points) > 1 else None


def height_of(chance: float) -> float:
    """Place of a chance on the upright axis, in powers of ten.

    Parameters
    ----------
    chance : float
        Share [-].

    Returns
    -------
    float
        0 for one in one, -3 for 1 in 1000 and all that is rarer.

    Examples
    --------
    >>> height_of(0.1), height_of(0.0)
    (-1.0, -3.0)
    """
    return math.log10(min(max(chance, LEAST), 1.0))


class _Chart:
    def __init__(self, title: str, chances: Chances, points: list[Compared]) -> None:
        self.points, self.accepted = points, 1.0 - chances.probability
        self.canvas = Canvas(WIDTH, HEIGHT, f"{title}: pours, days and chance")
        days = [each.days or 0.0 for each in points]
        step = nice_step(max(max(days) - min(days), 1.0), 8)
        low, high = (math.floor(min(days) / step) - 0.5) * step, (math.ceil(max(days) / step) + 0.5) * step
        self.step = step
        self.axes = Axes(LEFT, WIDTH - 8.0, TOP, BOTTOM, max(low, 0.0), high, math.log10(LEAST), 0.0)
        self.places = Places()

    def render(self) -> str:
        self._grid()
        self._days()
        self._accepted()
        # every mark is in the way of every label
        for each in self.points:
            x, y = self._place(each)
            self.places.take((x - MARK - 1.0, y - MARK - 1.0, x + MARK + 1.0, y + MARK + 1.0))
        for each in sorted(self.points, key=lambda each: not each.chosen):
            self._label(each)
        for each in self.points:
            self._mark(each)
        return self.canvas.render()

    def _place(self, each: Compared) -> tuple[float, float]:
        return self.axes.x(each.days or 0.0), self.axes.y(height_of(each.over_limit or 0.0))

    def _grid(self) -> None:
        axes = self.axes
        for chance, words in STEPS.items():
            y = axes.y(height_of(chance))
            self.canvas.line(axes.left, y, axes.right, y, stroke=PALE, stroke_width=0.4)
            self.canvas.text(axes.left - 4.0, y + 2.6, words, SMALL, text_anchor="end")
        self.canvas.line(axes.left, axes.top, axes.left, axes.bottom)
        self.canvas.line(axes.left, axes.bottom, axes.right, axes.bottom)
        self.canvas.text(0.0, 9.0, "castings that go over a limit", SMALL, fill=GREY)

    def _days(self) -> None:
        axes, step = self.axes, self.step
        for index in range(math.ceil(axes.start_h / step - 1e-9), math.floor(axes.end_h / step + 1e-9) + 1):
            x = axes.x(index * step)
            self.canvas.line(x, axes.bottom, x, axes.bottom + 3.0)
            words = f"{index * step:g}"
            self.canvas.text(x, axes.bottom + 11.5, words, SMALL, text_anchor="middle")
        words = "days from the first pour to demolding"
        self.canvas.text(axes.right, HEIGHT - 8.0, words, SMALL, text_anchor="end", fill=GREY)
        x = axes.left + MARK
        for words, tone in (("chosen", INK), ("another plan", PAPER)):
            self.canvas.path(_dot(x, HEIGHT - 10.5), fill=tone, stroke=INK, stroke_width=1.0)
            self.canvas.text(x + 8.0, HEIGHT - 8.0, words, SMALL)
            x += 20.0 + text_width(words, SMALL)

    def _accepted(self) -> None:
        axes = self.axes
        y = axes.y(height_of(self.accepted))
        self.canvas.line(axes.left, y, axes.right, y, stroke=ACCENT, stroke_width=1.2, stroke_dasharray="7 3")
        words, style = "accepted", {"text_anchor": "end", "font_weight": "bold", "fill": ACCENT}
        self.canvas.text(axes.right - 2.0, y - 3.0, words, SMALL, **style)
        self.places.take((axes.right - 2.0 - text_width(words, SMALL), y - 9.5, axes.right, y + 1.0))
        # no label is struck through
        self.places.take((axes.left, y - 1.0, axes.right, y + 1.0))

    def _label(self, each: Compared) -> None:
        x, y = self._place(each)
        words = f"{each.pours} {'pour' if each.pours == 1 else 'pours'}"
        size = text_width(words, SMALL) + 4.0, 9.5
        bounds = (self.axes.left + 2.0, self.axes.top - 8.0, self.axes.right, self.axes.bottom)
        left, top, right, bottom = self.places.nearest((x + size[0] / 2 + MARK + 1.0, y), size, bounds)
        nearest = min(max(x, left), right), min(max(y, top), bottom)
        if math.dist(nearest, (x, y)) > MARK + 3.0:
            self.canvas.line(x, y, *nearest, stroke=GREY, stroke_width=0.5)
        weight = "bold" if each.chosen else "normal"
        self.canvas.text(left + 2.0, bottom - 2.2, words, SMALL, font_weight=weight)

    def _mark(self, each: Compared) -> None:
        x, y = self._place(each)
        self.canvas.path(_dot(x, y), fill=INK if each.chosen else PAPER, stroke=INK, stroke_width=1.0)


def _dot(x: float, y: float) -> str:
    return f"M{x - MARK:.2f} {y:.2f}a{MARK} {MARK} 0 1 0 {2 * MARK} 0a{MARK} {MARK} 0 1 0 {-2 * MARK} 0Z"
