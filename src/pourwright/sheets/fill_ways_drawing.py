"""The front through the glass of every band, above how the resin thickens, on one axis of time."""

from __future__ import annotations

from bisect import bisect_left
from math import log10

from pourwright.jobs.fill_ways import BandWays, Filling
from pourwright.materials.batches import MIXING_TIME
from pourwright.sheets.axes import Axes, nice_step
from pourwright.sheets.svg import ACCENT, GREY, INK, PALE, Canvas, fitted
from pourwright.sheets.wording import Wording

WIDTH, HEIGHT = 510.0, 250.0
LEFT, RIGHT = 58.0, WIDTH - 110.0
TOP, MIDDLE, BOTTOM = 22.0, 132.0, HEIGHT - 28.0
GAP = 16.0
SMALL = 7.0
TIMES = (30 / 3600, 1 / 60, 2 / 60, 5 / 60, 10 / 60, 20 / 60, 0.5, 1, 2, 5, 10, 24, 48, 96, 192, 480)
"""Marks of the axis of time [h]."""
DASHES = ("", "5 2", "2 2", "8 2 2 2")
LEAST = 20 / 3600
"""Where the axis of time begins [h], from the first resin that is poured."""
MIXED = MIXING_TIME.value / 3600.0


def draw_filling(title: str, part: Filling, words: Wording) -> str:
    """Draw both curves.

    Parameters
    ----------
    title : str
        Of the job.
    part : Filling
        With its curves.
    words : Wording
        The maker's units.

    Returns
    -------
    str
        SVG document.
    """
    canvas = Canvas(WIDTH, HEIGHT, f"{title}: the front through the glass, and how the resin thickens")
    end = 1.15 * part.thick_h[-1]
    deepest = max(band.depth_m for band in part.bands)
    upper = Axes(LEFT, RIGHT, TOP, MIDDLE - GAP, log10(LEAST), log10(end), -1.05 * deepest, 0.0)
    thickest = 3.0 * max(part.pours_to_Pa_s, part.viscosity_Pa_s)
    lowest = 0.5 * min(part.thick_Pa_s)
    lower = Axes(LEFT, RIGHT, MIDDLE, BOTTOM, log10(LEAST), log10(end), log10(lowest), log10(thickest))
    _time_axis(canvas, upper, lower, words)
    _depths(canvas, upper, deepest, words)
    labels: list[float] = []
    for number, band in enumerate(part.bands):
        _front(canvas, upper, band, DASHES[number % len(DASHES)], labels)
    _thickness(canvas, lower, part)
    return canvas.render()


def _logarithm(hours: float) -> float:
    """Place on the axis of time of hours from mixing."""
    return log10(max(hours - MIXED, LEAST))


def _time_axis(canvas: Canvas, upper: Axes, lower: Axes, words: Wording) -> None:
    free = LEFT
    for hours in TIMES:
        if not lower.inside(log10(hours)):
            continue
        x = lower.x(log10(hours))
        canvas.line(x, upper.top, x, lower.bottom, stroke=PALE, stroke_width=0.4)
        if x >= free:
            canvas.text(x, lower.bottom + 10.0, words.duration(hours), SMALL, text_anchor="middle", fill=GREY)
            free = x + 34.0
    for axes in (upper, lower):
        canvas.rect(
            LEFT, axes.top, RIGHT - LEFT, axes.bottom - axes.top, fill="none", stroke=INK, stroke_width=0.6
        )
    middle = 0.5 * (LEFT + RIGHT)
    canvas.text(
        middle, lower.bottom + 21.0, "after the first resin is poured", SMALL, text_anchor="middle", fill=GREY
    )


def _depths(canvas: Canvas, axes: Axes, deepest: float, words: Wording) -> None:
    unit = 0.0254 if words.job.units == "us" else 0.001
    step = nice_step(deepest / unit, 4) * unit
    for number in range(int(deepest / step + 1e-9) + 1):
        y = axes.y(-number * step)
        canvas.line(LEFT - 3.0, y, LEFT, y)
        canvas.text(LEFT - 5.0, y + 2.5, words.length(number * step), SMALL, text_anchor="end", fill=GREY)
    canvas.text(LEFT, TOP - 7.0, "how far down the resin is in the glass of each band", 8.0)


def _front(canvas: Canvas, axes: Axes, band: BandWays, dashes: str, labels: list[float]) -> None:
    points = [
        (axes.x(_logarithm(hours)), axes.y(-depth))
        for hours, depth in zip(band.front_h, band.front_m, strict=True)
    ]
    style = {"stroke_dasharray": dashes} if dashes else {}
    canvas.curve(points, stroke_width=1.4, **style)
    x, y = points[-1]
    down = band.dry.down_after_h is not None
    canvas.circle(x, y, 2.2, fill=INK if down else ACCENT)
    if not down:
        floor = axes.y(-band.depth_m)
        canvas.line(LEFT, floor, RIGHT, floor, stroke=GREY, stroke_width=0.5, stroke_dasharray="1 2")
    place = y
    while any(abs(place - other) < 9.0 for other in labels):
        place -= 9.0
    labels.append(place)
    told = f"{band.band}{'' if down else ': not down'}"
    canvas.line(x + 3.0, y, RIGHT + 3.0, place, stroke=GREY, stroke_width=0.3)
    canvas.text(RIGHT + 5.0, place + 2.5, fitted(told, WIDTH - RIGHT - 6.0, SMALL), SMALL)


def _thickness(canvas: Canvas, axes: Axes, part: Filling) -> None:
    top = 10.0**axes.high
    count = max(bisect_left(part.thick_Pa_s, top), 1)
    curve = list(zip(part.thick_h, part.thick_Pa_s, strict=True))[:count]
    points = [(axes.x(_logarithm(h)), axes.y(log10(thick))) for h, thick in curve]
    if count < len(part.thick_h):
        points.append((axes.x(_logarithm(part.thick_h[count])), axes.top))
    canvas.curve(points, stroke_width=1.4)
    y = axes.y(log10(part.pours_to_Pa_s))
    canvas.line(LEFT, y, RIGHT, y, stroke=ACCENT, stroke_width=0.8, stroke_dasharray="4 2")
    canvas.text(RIGHT + 5.0, y + 2.5, "too thick to run", SMALL, fill=ACCENT)
    for power in range(-2, 4):
        for share in (1.0, 3.0):
            value = share * 10.0**power
            if axes.low <= log10(value) <= axes.high:
                mark = axes.y(log10(value))
                canvas.line(LEFT - 3.0, mark, LEFT, mark)
                canvas.text(LEFT - 5.0, mark + 2.5, f"{value:g} Pa s", SMALL, text_anchor="end", fill=GREY)
    canvas.text(LEFT, axes.top - 5.0, "how thick the resin is there", 8.0)
