"""A body measured with a tape: its outline, the readings, and how far the outline may lie off."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.foundation.notation import UnitSystem, format_length
from pourwright.sheets.axes import nice_step
from pourwright.sheets.labels import spread
from pourwright.sheets.svg import ACCENT, GREY, INK, PALE, Canvas, fitted, outline

Floats = NDArray[np.float64]
WIDTH, HIGH = 510.0, 330.0
LEFT, TOP, FOOT = 46.0, 34.0, 62.0
LABELS = 176.0
SMALL, LINE = 7.4, 10.0
SHADE = "#e3d5c8"
EXAGGERATED = (1, 2, 5, 10, 20)
BARELY_SEEN = 5.0
"""Width of a band that is still seen on paper [pt]."""


@dataclass(frozen=True, slots=True)
class DrawnReading:
    """One reading: where, how far out on both views where it was read, and in words."""

    height: float
    halves: tuple[float, float] | None
    words: str


@dataclass(frozen=True, slots=True, eq=False)
class MeasuredOutline:
    """What the drawing shows.

    Parameters
    ----------
    title : str
        Of the piece.
    levels : array (n,)
        Rising [m].
    halves : array (n, 2)
        Half of width and depth [m].
    doubt : array (n,)
        How far the half-width may lie off, one in ten beyond on either side [m].
    readings : sequence of DrawnReading
        From the bottom up.
    following : float, optional
        Where one more reading would gain most [m].
    told : str
        Volume and its band, in words.
    """

    title: str
    levels: Floats
    halves: Floats
    doubt: Floats
    readings: Sequence[DrawnReading]
    following: float | None
    told: str


def draw_measured(shown: MeasuredOutline, system: UnitSystem) -> str:
    """Draw front and, where it differs, side.

    Parameters
    ----------
    shown : MeasuredOutline
        Outline and readings.
    system : UnitSystem
        Of the lengths.

    Returns
    -------
    str
        SVG document.
    """
    return _Drawing(shown, system).render()


class _Drawing:
    def __init__(self, shown: MeasuredOutline, system: UnitSystem) -> None:
        self.shown, self.system = shown, system
        self.views = [0, 1] if np.ptp(shown.halves, axis=1).max() > 0.01 * shown.halves.max() else [0]
        self.low, self.high = float(shown.levels[0]), float(shown.levels[-1])
        room = (WIDTH - LEFT - LABELS) / len(self.views)
        widest = 2 * (shown.halves.max() + shown.doubt.max())
        self.scale = min((room - 14.0) / widest, HIGH / (self.high - self.low))
        self.height = self.scale * (self.high - self.low)
        self.middles = [LEFT + room * (view + 0.5) for view in self.views]
        widths = 2 * self.scale * float(shown.doubt.max())
        self.wider = next((each for each in EXAGGERATED if each * widths > BARELY_SEEN), EXAGGERATED[-1])
        self.canvas = Canvas(WIDTH, TOP + self.height + FOOT, f"{shown.title}: measured with a tape")

    def render(self) -> str:
        self.canvas.text(0.0, 10.0, fitted(self.shown.told, WIDTH, 8.6), 8.6, font_weight="bold")
        self._ruler()
        for view, middle in zip(self.views, self.middles, strict=True):
            self._view(view, middle)
        self._next()
        self._labels()
        self._legend()
        return self.canvas.render()

    def _y(self, height: float) -> float:
        return float(TOP + self.height - self.scale * (height - self.low))

    def _ruler(self) -> None:
        inch = self.system is UnitSystem.US
        unit = 0.0254 if inch else 0.001
        step = nice_step((self.high - self.low) / unit, 8) * unit
        for index in range(int((self.high - self.low) / step + 1e-9) + 1):
            y = self._y(self.low + index * step)
            self.canvas.line(LEFT - 8.0, y, WIDTH - LABELS, y, stroke=PALE, stroke_width=0.4)
            words = format_length(self.low + index * step, self.system)
            self.canvas.text(LEFT - 10.0, y + 2.6, words, SMALL, text_anchor="end", fill=GREY)

    def _view(self, view: int, middle: float) -> None:
        shown, wide = self.shown, self.shown.halves[:, view]
        y = [self._y(float(level)) for level in shown.levels]
        for side in (-1.0, 1.0):
            out = middle + side * self.scale * (wide + self.wider * shown.doubt)
            inward = middle + side * self.scale * np.maximum(wide - self.wider * shown.doubt, 0.0)
            band = [*zip(out, y, strict=True), *zip(inward[::-1], y[::-1], strict=True)]
            self.canvas.path(outline(band), fill=SHADE)
        both = [*zip(middle - self.scale * wide, y, strict=True)]
        both += [*zip((middle + self.scale * wide)[::-1], y[::-1], strict=True)]
        self.canvas.path(outline(both), fill="none", stroke=INK, stroke_width=1.1, stroke_linejoin="round")
        self.canvas.line(
            middle, TOP - 4.0, middle, TOP + self.height + 4.0, stroke=GREY, stroke_dasharray="8 2 2 2"
        )
        for reading in shown.readings:
            if reading.halves is None:
                continue
            for side in (-1.0, 1.0):
                self._dot(middle + side * self.scale * reading.halves[view], self._y(reading.height))
        if len(self.views) > 1:
            name = ("width", "depth")[view]
            self.canvas.text(middle, TOP - 8.0, name, SMALL, text_anchor="middle", fill=GREY)

    def _dot(self, x: float, y: float) -> None:
        r = 2.4
        self.canvas.path(f"M{x - r:.2f} {y:.2f}a{r} {r} 0 1 0 {2 * r} 0a{r} {r} 0 1 0 {-2 * r} 0Z", fill=INK)

    def _next(self) -> None:
        if self.shown.following is None:
            return
        y = self._y(self.shown.following)
        self.canvas.line(LEFT, y, WIDTH - LABELS, y, stroke=ACCENT, stroke_width=1.0, stroke_dasharray="5 3")

    def _labels(self) -> None:
        """What was read, beside its height, and where the next reading goes."""
        rows = [(each.height, each.words, INK) for each in self.shown.readings]
        if self.shown.following is not None:
            following = format_length(self.shown.following, self.system)
            rows.append((self.shown.following, f"measure next: {following}", ACCENT))
        rows.sort(key=lambda row: -row[0])
        wanted = [self._y(height) for height, _, _ in rows]
        places = spread(wanted, [LINE] * len(rows), TOP - LINE, TOP + self.height + LINE)
        x = WIDTH - LABELS
        for (_, words, tone), y, place in zip(rows, wanted, places, strict=True):
            self.canvas.curve([(x, y), (x + 10.0, place), (x + 14.0, place)], stroke=tone, stroke_width=0.5)
            self.canvas.text(x + 17.0, place + 2.6, fitted(words, LABELS - 17.0, SMALL), SMALL, fill=tone)

    def _legend(self) -> None:
        y = TOP + self.height + 26.0
        self.canvas.rect(LEFT, y - 7.0, 14.0, 8.0, fill=SHADE)
        drawn = f", drawn {self.wider} times as wide" if self.wider > 1 else ""
        words = f"where the outline lies in 8 of 10 cases{drawn}"
        self.canvas.text(LEFT + 20.0, y, words, SMALL)
        self._dot(LEFT + 7.0, y + 11.0)
        self.canvas.text(LEFT + 20.0, y + 14.0, "what was read", SMALL)
