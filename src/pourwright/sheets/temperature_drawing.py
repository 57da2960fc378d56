"""Temperature against time, with limits, starts and the times when the next pour may go on."""

import math
from collections.abc import Sequence

from pourwright.jobs.plan import PlanDocument, Pour
from pourwright.sheets.axes import Axes, hours_between, nice_step, thinned, time_ticks
from pourwright.sheets.labels import Places
from pourwright.sheets.svg import ACCENT, GREY, INK, PALE, Canvas, text_width
from pourwright.sheets.wording import Wording

SMALL = 7.4
WINDOW_TONE = "#e7ddd6"


def draw_run(plan: PlanDocument) -> str:
    """Draw the whole run, and below it how far the least-cured place is.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    str
        SVG document.
    """
    last = max(pour.history.time_h[-1] for pour in plan.pours)
    title = f"{plan.job.title}: temperature of the whole run"
    return _Chart(plan, plan.pours, (-2.0, max(last, 1.0)), (510.0, 330.0), title).render(cured=True)


def draw_pour(plan: PlanDocument, pour: Pour) -> str:
    """Draw the first two days of one pour.

    Parameters
    ----------
    plan : PlanDocument
        The plan.
    pour : Pour
        The pour to show.

    Returns
    -------
    str
        SVG document.
    """
    start = hours_between(plan.pours[0].start, pour.start)
    end = start + min(max(pour.bonds_until_h + 3.0, 2.0 * pour.peak_after_h, 24.0), 60.0)
    title = f"{plan.job.title}: temperature of pour {pour.number}"
    return _Chart(plan, [pour], (start - 1.0, end), (250.0, 176.0), title).render(cured=False)


def _peak_band(pour: Pour) -> tuple[float, float] | None:
    low, high = pour.peak_temperature_degC_p10, pour.peak_temperature_degC_p90
    return None if low is None or high is None else (low, high)


class _Chart:
    def __init__(
        self,
        plan: PlanDocument,
        pours: Sequence[Pour],
        span_h: tuple[float, float],
        size: tuple[float, float],
        title: str,
    ) -> None:
        self.plan, self.pours = plan, pours
        self.words = Wording(plan.job)
        self.canvas = Canvas(*size, title)
        self.whole = len(pours) == len(plan.pours) and size[0] > 400.0
        self.span_h = span_h
        self.places = Places()

    def render(self, *, cured: bool) -> str:
        width, height = self.canvas.width, self.canvas.height
        bottom = height - (128.0 if cured else 44.0)
        axes = self._axes(30.0, width - 6.0, 24.0, bottom)
        # shades first, then lines, then labels that step aside for those before them
        self._windows(axes)
        self._grid(axes)
        self._times(axes, bottom)
        self._air(axes)
        self._curves(axes)
        self._limits(axes)
        self._starts(axes)
        self._demold(axes)
        self._peaks(axes)
        if cured:
            self._cured(Axes(axes.left, axes.right, bottom + 28.0, height - 36.0, *self.span_h, 0.0, 100.0))
        self._legend(height - 5.0)
        return self.canvas.render()

    def _axes(self, left: float, right: float, top: float, bottom: float) -> Axes:
        values = [self._shown(v) for p in self.pours for v in p.history.hottest_degC]
        air = [self._shown(v) for v in self.plan.heat.air_degC]
        limit = [self._shown(p.peak_limit_degC) for p in self.pours]
        ends = [self._shown(end) for p in self.pours for end in _peak_band(p) or ()]
        # the limit belongs to the picture even where nothing comes near it
        low, high = min([*values, *air]), max([*values, *limit, *air, *ends])
        step = nice_step(high - low, 6)
        floor = math.floor(low / step) * step
        return Axes(left, right, top, bottom, *self.span_h, floor, math.ceil((high * 1.04) / step) * step)

    def _shown(self, celsius: float) -> float:
        return self.words.degrees(celsius)

    def _grid(self, axes: Axes) -> None:
        step = nice_step(axes.high - axes.low, 6)
        count = round((axes.high - axes.low) / step)
        for i in range(count + 1):
            value = axes.low + i * step
            y = axes.y(value)
            self.canvas.line(axes.left, y, axes.right, y, stroke=PALE, stroke_width=0.4)
            self.canvas.text(axes.left - 4.0, y + 2.6, f"{value:.0f}", SMALL, text_anchor="end")
        self.canvas.text(0.0, 9.0, self.words.degree_sign, SMALL, fill=GREY)
        self.canvas.line(axes.left, axes.bottom, axes.right, axes.bottom)
        self.canvas.line(axes.left, axes.top, axes.left, axes.bottom)

    def _times(self, axes: Axes, y: float) -> None:
        first = self.words.local(self.plan.pours[0].start)
        ticks = time_ticks(first, self.span_h, self.canvas.width)
        room = (axes.right - axes.left) / max(len(ticks), 1)
        for tick in ticks:
            x = axes.x(tick.hours)
            self.canvas.line(x, y, x, y + (4.0 if tick.major else 2.0))
            words = tick.words(room, SMALL, self.words.system)
            if words and text_width(words, SMALL) / 2 + x <= axes.right + 4.0:
                weight = "bold" if tick.major else "normal"
                self.canvas.text(x, y + 12.0, words, SMALL, text_anchor="middle", font_weight=weight)

    def _windows(self, axes: Axes) -> None:
        for pour in self.pours:
            # the last pour has no window
            if pour.next_from is None or pour.next_until is None:
                continue
            begin = hours_between(self.plan.pours[0].start, pour.next_from)
            end = hours_between(self.plan.pours[0].start, pour.next_until)
            left, right = axes.x(max(begin, axes.start_h)), axes.x(min(end, axes.end_h))
            if right <= left:
                continue
            self.canvas.rect(left, axes.top, right - left, axes.bottom - axes.top, fill=WINDOW_TONE)
            for x in (left, right):
                self.canvas.line(
                    x, axes.top, x, axes.bottom, stroke=GREY, stroke_width=0.5, stroke_dasharray="1 2"
                )

    def _air(self, axes: Axes) -> None:
        points = zip(self.plan.heat.air_time_h, self.plan.heat.air_degC, strict=True)
        inside = [(axes.x(t), axes.y(self._shown(v))) for t, v in points if axes.inside(t)]
        if inside:
            self.canvas.curve(thinned(inside), stroke=GREY, stroke_width=1.0, stroke_dasharray="1 2.2")

    def _curves(self, axes: Axes) -> None:
        for pour in self.pours:
            self._curve(axes, pour, pour.history.coolest_degC, GREY, 0.8)
            self._curve(axes, pour, pour.history.hottest_degC, INK, 1.7)

    def _curve(self, axes: Axes, pour: Pour, values: Sequence[float], ink: str, width: float) -> None:
        points = zip(pour.history.time_h, values, strict=True)
        shown = [(axes.x(t), axes.y(self._shown(v))) for t, v in points if axes.inside(t)]
        if shown:
            self.canvas.curve(thinned(shown), stroke=ink, stroke_width=width)

    def _limits(self, axes: Axes) -> None:
        limits = {pour.peak_limit_degC for pour in self.pours}
        for limit in sorted(limits):
            y = axes.y(self._shown(limit))
            self.canvas.line(
                axes.left, y, axes.right, y, stroke=ACCENT, stroke_width=1.4, stroke_dasharray="7 3"
            )
            words = f"limit {self.words.temperature(limit)}"
            self.canvas.text(
                axes.right - 3.0, y - 3.5, words, SMALL, text_anchor="end", fill=ACCENT, font_weight="bold"
            )
            left = axes.right - 3.0 - text_width(words, SMALL)
            self.places.take((left, y - 10.0, axes.right, y + 1.0))
            # no label is struck through by the limit
            self.places.take((axes.left, y - 1.0, axes.right, y + 1.0))

    def _starts(self, axes: Axes) -> None:
        for pour in self.pours:
            x = axes.x(hours_between(self.plan.pours[0].start, pour.start))
            self.canvas.line(x, axes.top - 3.0, x, axes.bottom, stroke=INK, stroke_width=0.7)
            self.canvas.path(f"M{x - 3.5:.2f} {axes.top - 7:.2f}h7l-3.5 6Z", fill=INK)
            words = str(pour.number) if len(self.plan.pours) > 1 and self.whole else f"pour {pour.number}"
            self.canvas.text(x, axes.top - 9.5, words, SMALL, text_anchor="middle", font_weight="bold")

    def _demold(self, axes: Axes) -> None:
        if self.plan.demold.at is None:
            return
        hours = hours_between(self.plan.pours[0].start, self.plan.demold.at)
        if axes.inside(hours) and self.whole:
            x = axes.x(hours)
            self.canvas.line(x, axes.top - 3.0, x, axes.bottom, stroke=ACCENT, stroke_width=1.0)
            style = {
                "text_anchor": "end" if x > axes.right - 24.0 else "middle",
                "font_weight": "bold",
                "fill": ACCENT,
            }
            self.canvas.text(x, axes.top - 6.0, "demold", SMALL, **style)

    def _peaks(self, axes: Axes) -> None:
        wide = [text_width(self._peak_words(pour), SMALL) for pour in self.pours]
        # where pours stand close the label keeps to the value; the stroke still shows the band
        tight = sum(wide) > 0.65 * (axes.right - axes.left)
        for pour in self.pours:
            start = hours_between(self.plan.pours[0].start, pour.start)
            x, y = axes.x(start + pour.peak_after_h), axes.y(self._shown(pour.peak_temperature_degC))
            y = min(y, self._peak_band_stroke(axes, x, pour))
            words = self.words.temperature(pour.peak_temperature_degC) if tight else self._peak_words(pour)
            half = text_width(words, SMALL) / 2 + 1.0
            x = min(max(x, axes.left + half), axes.right - half)
            frame = self.places.settle((x - half, y - 12.0, x + half, y - 3.0), 4.0, axes.top)
            self.canvas.text(x, frame[3] - 1.5, words, SMALL, text_anchor="middle", font_weight="bold")

    def _peak_words(self, pour: Pour) -> str:
        return self.words.banded_temperature(
            pour.peak_temperature_degC, pour.peak_temperature_degC_p10, pour.peak_temperature_degC_p90
        )

    def _peak_band_stroke(self, axes: Axes, x: float, pour: Pour) -> float:
        """Draw the band of a peak; gives its upper end on paper."""
        band = _peak_band(pour)
        if band is None:
            return axes.bottom
        low, high = (axes.y(self._shown(end)) for end in band)
        self.canvas.path(
            f"M{x - 2.5:.2f} {high:.2f}h5M{x:.2f} {high:.2f}V{low:.2f}M{x - 2.5:.2f} {low:.2f}h5",
            fill="none", stroke=INK, stroke_width=0.9,
        )  # fmt: skip
        return high

    def _cured(self, axes: Axes) -> None:
        for value in (0.0, 50.0, 100.0):
            y = axes.y(value)
            self.canvas.line(axes.left, y, axes.right, y, stroke=PALE, stroke_width=0.4)
            self.canvas.text(axes.left - 4.0, y + 2.6, f"{value:.0f}", SMALL, text_anchor="end")
        self.canvas.text(0.0, axes.top - 6.0, "% cured, least-cured place of each pour", SMALL, fill=GREY)
        for pour in self.pours:
            points = zip(pour.history.time_h, pour.history.least_cured, strict=True)
            inside = [(axes.x(t), axes.y(100.0 * v)) for t, v in points if axes.inside(t)]
            if inside:
                self.canvas.curve(thinned(inside), stroke=INK, stroke_width=1.2)
                self._mark_half(inside, pour.number)
        self.canvas.line(axes.left, axes.bottom, axes.right, axes.bottom)
        self._times(axes, axes.bottom)

    def _mark_half(self, points: Sequence[tuple[float, float]], number: int) -> None:
        half = min(points, key=lambda point: abs(point[1] - (points[0][1] + points[-1][1]) / 2))
        self.canvas.text(half[0] + 4.0, half[1] + 7.0, str(number), SMALL, font_weight="bold")

    def _legend(self, y: float) -> None:
        wide = self.canvas.width > 400.0
        air = "shop air" if wide else "air"
        entries = [("hottest", INK, 1.7, ""), ("coolest", GREY, 0.8, ""), (air, GREY, 1.0, "1 2.2")]
        x = 30.0 if wide else 4.0
        for words, ink, width, dash in entries:
            style = {"stroke_dasharray": dash} if dash else {}
            self.canvas.line(x, y - 2.6, x + 14.0, y - 2.6, stroke=ink, stroke_width=width, **style)
            self.canvas.text(x + 17.0, y, words, SMALL)
            x += 24.0 + text_width(words, SMALL)
        if all(pour.next_from is None for pour in self.pours):
            return
        self.canvas.rect(x, y - 7.0, 13.0, 8.0, fill=WINDOW_TONE, stroke=GREY, stroke_width=0.5)
        self.canvas.text(x + 17.0, y, "pour the next one here" if wide else "next pour", SMALL)
