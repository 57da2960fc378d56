"""The level in the mold against what is poured, with bands and pours, in both readings of the height."""

from collections.abc import Callable, Sequence

from pourwright.foundation.quantities import UNITS, Dimension
from pourwright.jobs.plan import Band, DipRow, PlanDocument
from pourwright.sheets.axes import Axes, nice_step
from pourwright.sheets.labels import spread
from pourwright.sheets.svg import ACCENT, GREY, INK, PALE, Canvas, fitted, text_width
from pourwright.sheets.tables import Columns
from pourwright.sheets.tones import tones_of
from pourwright.sheets.wording import UPRIGHT, Wording, readings_differ

WIDTH, HEIGHT = 510.0, 360.0
LEFT, TOP, BOTTOM = 40.0, 24.0, 312.0
NAMES = 176.0
"""Paper right of the chart for the second reading and the names of bands [pt]."""
SMALL = 7.4
STEPS = 8


def draw_level(plan: PlanDocument, rows: Sequence[DipRow]) -> str:
    """Draw the level against the volume.

    Parameters
    ----------
    plan : PlanDocument
        The plan.
    rows : sequence of DipRow
        From the empty mold to the full one.

    Returns
    -------
    str
        SVG document.
    """
    return _Level(plan, rows).render()


class _Level:
    def __init__(self, plan: PlanDocument, rows: Sequence[DipRow]) -> None:
        self.plan, self.rows = plan, rows
        self.words, self.columns = Wording(plan.job), Columns(plan)
        self.canvas = Canvas(WIDTH, HEIGHT, f"{plan.job.title}: level against volume")
        self.length = float(UNITS[Dimension.LENGTH][self.columns.length_unit].factor)
        self.volume = float(UNITS[Dimension.VOLUME][self.columns.volume_unit].factor)
        top, most = rows[-1].height_m, max(row.cavity_m3 for row in rows)
        self.axes = Axes(LEFT, WIDTH - NAMES, TOP, BOTTOM, 0.0, most * 1.03, 0.0, top * 1.03)

    def render(self) -> str:
        self._bands()
        self._heights()
        self._volumes()
        self._pours()
        self._curve(lambda row: row.cavity_m3, stroke=GREY, stroke_width=1.1, stroke_dasharray="5 2.5")
        self._curve(lambda row: row.liquid_m3, stroke=INK, stroke_width=1.8)
        self._legend()
        return self.canvas.render()

    def _curve(self, pick: Callable[[DipRow], float], **style: str | float) -> None:
        self.canvas.curve([(self.axes.x(pick(row)), self.axes.y(row.height_m)) for row in self.rows], **style)

    def _bands(self) -> None:
        axes, bands = self.axes, self.plan.fill.bands
        tones = tones_of(bands)
        for band in bands:
            upper, lower = axes.y(band.to_m), axes.y(band.from_m)
            ground = tones[band.grade, band.colour].ground
            self.canvas.rect(
                axes.left, upper, axes.right - axes.left, lower - upper, fill=ground, fill_opacity=0.45
            )
            self.canvas.line(axes.left, upper, axes.right + 3.0, upper, stroke=GREY, stroke_width=0.5)
        middles = [axes.y((band.from_m + band.to_m) / 2) for band in reversed(bands)]
        places = spread(middles, [11.0] * len(middles), axes.top, axes.bottom)
        left = axes.right + (34.0 if self._differs() else 8.0)
        for band, y in zip(reversed(bands), places, strict=True):
            self.canvas.text(left, y + 2.6, fitted(_named(band), WIDTH - left, SMALL), SMALL)

    def _differs(self) -> bool:
        return readings_differ(self.plan) and self.plan.piece.up in UPRIGHT

    def _heights(self) -> None:
        axes, top = self.axes, self.rows[-1].height_m
        step = nice_step(top / self.length, STEPS) * self.length
        for index in range(int(top / step + 1e-9) + 1):
            y = axes.y(index * step)
            self.canvas.line(axes.left, y, axes.right, y, stroke=PALE, stroke_width=0.4)
            words = f"{index * step / self.length:.10g}"
            self.canvas.text(axes.left - 4.0, y + 2.6, words, SMALL, text_anchor="end")
            if self._differs() and index * step <= self.plan.piece.height_m:
                place = axes.y(self._turned(index * step))
                self.canvas.line(axes.right, place, axes.right + 3.0, place)
                self.canvas.text(axes.right + 5.0, place + 2.6, words, SMALL, fill=GREY)
        unit = self.columns.length_unit
        self.canvas.text(0.0, 9.0, f"up, as poured [{unit}]", SMALL, fill=GREY)
        if self._differs():
            self.canvas.text(axes.right, 9.0, f"as it stands [{unit}]", SMALL, fill=GREY)
            self.canvas.line(axes.right, axes.top, axes.right, axes.bottom)
        self.canvas.line(axes.left, axes.top, axes.left, axes.bottom)

    def _turned(self, standing: float) -> float:
        height = self.plan.piece.height_m
        return height - standing if self.plan.piece.flipped else standing

    def _volumes(self) -> None:
        axes, most = self.axes, self.axes.end_h
        step = nice_step(most / self.volume, STEPS) * self.volume
        for index in range(int(most / step + 1e-9) + 1):
            x = axes.x(index * step)
            self.canvas.line(x, axes.bottom, x, axes.bottom + 3.0)
            words = f"{index * step / self.volume:.10g}"
            self.canvas.text(x, axes.bottom + 11.5, words, SMALL, text_anchor="middle")
        self.canvas.line(axes.left, axes.bottom, axes.right, axes.bottom)
        words = f"in the mold [{self.columns.volume_unit}]"
        self.canvas.text(axes.right, axes.bottom + 22.0, words, SMALL, text_anchor="end", fill=GREY)

    def _pours(self) -> None:
        for pour in self.plan.pours:
            y = self.axes.y(pour.to_m)
            self.canvas.line(self.axes.left, y, self.axes.right, y, stroke=ACCENT, stroke_width=0.9)
            words = (
                f"pour {pour.number}: {self.words.length(pour.to_m)}, dip {self.words.length(pour.dip_to_m)}"
            )
            style = {"fill": ACCENT, "font_weight": "bold"}
            # the curves run from the lower left to the upper right: words keep to the free side
            low = pour.to_m < self.axes.high / 2
            x, anchor = (self.axes.right - 4.0, "end") if low else (self.axes.left + 4.0, "start")
            self.canvas.text(x, y - 2.5, words, SMALL, text_anchor=anchor, **style)

    def _legend(self) -> None:
        x, y = LEFT, HEIGHT - 8.0
        for words, ink, width, dash in (
            ("with the glass in", INK, 1.8, ""),
            ("empty mold", GREY, 1.1, "5 2.5"),
            ("end of a pour", ACCENT, 0.9, ""),
        ):
            style = {"stroke_dasharray": dash} if dash else {}
            self.canvas.line(x, y - 2.6, x + 16.0, y - 2.6, stroke=ink, stroke_width=width, **style)
            self.canvas.text(x + 19.0, y, words, SMALL)
            x += 30.0 + text_width(words, SMALL)


def _named(band: Band) -> str:
    if band.kind == "neat":
        return f"{band.name}, no glass"
    return f"{band.name}, {band.grade} {band.colour}"
