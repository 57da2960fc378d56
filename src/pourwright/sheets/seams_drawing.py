"""Seams ranked: where they run in the section, and what each loses before its liquid gels."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import sqrt

from pourwright.jobs.mold_seams import LiquidLeaks, SeamLeak
from pourwright.jobs.plan_part import Polyline
from pourwright.sheets.mold_section_drawing import TONES, Cut
from pourwright.sheets.section_drawing import Frame
from pourwright.sheets.svg import ACCENT, GREY, INK, PALE, PAPER, Canvas, fitted
from pourwright.sheets.wording import Wording

WIDTH, HEAD, GAP = 510.0, 26.0, 22.0
SECTION, TALLEST = 158.0, 122.0
LEFT, RIGHT = 184.0, 496.0
ROW, BAR = 35.0, 9.0
LETTERS, SMALL = 7.8, 7.0
FULL = 3.0
"""Bars end at so many times what may be lost."""
THIN, THICK = 1.4, 4.2
"""Lines of a seam that loses nothing, and of the worst [pt]."""


@dataclass(frozen=True, slots=True)
class SeamLine:
    """Where a seam runs in a section [m], and where its number stands."""

    number: int
    pieces: tuple[Polyline, ...]
    mark: tuple[float, float]
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class SeamView:
    """One liquid: its leaks, the bodies of the section, the seams in it; no bodies where none is drawn."""

    title: str
    leaks: LiquidLeaks
    cuts: Sequence[Cut] = ()
    lines: Sequence[SeamLine] = ()


def draw_seams(views: Sequence[SeamView], words: Wording) -> str:
    """Draw the seams of every liquid, one below the other.

    Parameters
    ----------
    views : sequence of SeamView
        One a liquid.
    words : Wording
        The maker's units.

    Returns
    -------
    str
        SVG document.
    """
    heights = [_height(view) for view in views]
    canvas = Canvas(WIDTH, sum(heights) + GAP * (len(views) - 1) + 14.0, "Where it may leak")
    top = 0.0
    for view, height in zip(views, heights, strict=True):
        _draw_view(canvas, view, top, words)
        top += height + GAP
    _legend(canvas, canvas.height - 3.0)
    return canvas.render()


def _height(view: SeamView) -> float:
    rows = HEAD + ROW * max(len(view.leaks.seams), 1) + 12.0
    return max(rows, HEAD + _size(view)[1] + 12.0) if view.cuts else rows


def _extent(view: SeamView) -> tuple[float, float, float, float]:
    xs, zs = zip(*(point for cut in view.cuts for line in cut.lines for point in line), strict=True)
    return min(xs), max(xs), min(zs), max(zs)


def _scale(view: SeamView) -> float:
    left, right, low, high = _extent(view)
    return min((SECTION - 12.0) / (right - left), TALLEST / (high - low))


def _size(view: SeamView) -> tuple[float, float]:
    left, right, low, high = _extent(view)
    scale = _scale(view)
    return (right - left) * scale, (high - low) * scale


def _draw_view(canvas: Canvas, view: SeamView, top: float, words: Wording) -> None:
    canvas.text(0.0, top + 9.0, view.title, 8.6, font_weight="bold")
    if view.cuts:
        _draw_section(canvas, view, top)
    if not view.leaks.seams:
        canvas.text(LEFT, top + HEAD + 8.0, "no seam is reached", LETTERS, fill=GREY)
        return
    _draw_bars(canvas, view.leaks, top + HEAD, words)


def _draw_section(canvas: Canvas, view: SeamView, top: float) -> None:
    left, right, low, _ = _extent(view)
    wide, high = _size(view)
    frame = Frame(_scale(view), wide / 2 + 6.0, top + HEAD + high, (left + right) / 2, low)
    for cut in view.cuts:
        if not cut.beside:
            tone = TONES[cut.kind]
            canvas.path(frame.path(cut.lines), fill=tone, stroke=GREY, stroke_width=0.5, fill_rule="evenodd")
    worst = max((seam.lost_kg for seam in view.leaks.seams), default=0.0)
    lost = {seam.number: seam.lost_kg for seam in view.leaks.seams}
    for line in view.lines:
        share = sqrt(lost[line.number] / worst) if worst else 0.0
        style: dict[str, str | float] = {
            "stroke": ACCENT,
            "stroke_width": THIN + (THICK - THIN) * share,
            "stroke_linecap": "round",
        }
        style |= {"stroke_dasharray": "1.5 6"} if line.dashed else {}
        for piece in line.pieces:
            canvas.curve([(frame.x(x), frame.y(z)) for x, z in piece], **style)
    for line in view.lines:
        _number(canvas, line.number, frame.x(line.mark[0]), frame.y(line.mark[1]))


def _number(canvas: Canvas, number: int, x: float, y: float) -> None:
    canvas.circle(x, y, 6.0, fill=PAPER, stroke=ACCENT, stroke_width=0.9)
    canvas.text(x, y + 2.7, str(number), LETTERS, text_anchor="middle", fill=ACCENT, font_weight="bold")


def _draw_bars(canvas: Canvas, leaks: LiquidLeaks, top: float, words: Wording) -> None:
    most = max(max(seam.lost_kg, seam.lost_paper_kg) for seam in leaks.seams)
    full = max(1.3 * leaks.may_lose_kg, min(most, FULL * leaks.may_lose_kg)) or 1.0
    scale = (RIGHT - LEFT - 14.0) / full
    x = LEFT + 14.0 + leaks.may_lose_kg * scale
    for row, seam in enumerate(leaks.seams):
        y = top + ROW * row
        _draw_row(canvas, seam, y, scale, words)
        canvas.line(x, y + 5.5, x, y + 8.0 + BAR + 1.5, stroke=INK, stroke_width=1.6)
    told = f"{words.mass(leaks.may_lose_kg)} may be lost"
    canvas.text(RIGHT, top - 9.0, f"black mark: {told}", SMALL, text_anchor="end", font_weight="bold")


def _draw_row(canvas: Canvas, seam: SeamLeak, y: float, scale: float, words: Wording) -> None:
    x, room = LEFT + 14.0, RIGHT - LEFT - 14.0
    _number(canvas, seam.number, LEFT + 2.0, y + 8.0)
    canvas.text(x, y + 4.5, fitted(seam.name, room, LETTERS), LETTERS, fill=GREY if seam.supposed else INK)
    paper, own = (min(mass * scale, room) for mass in (seam.lost_paper_kg, seam.lost_kg))
    canvas.rect(x, y + 8.0, paper, BAR, fill="none", stroke=GREY, stroke_width=0.7, stroke_dasharray="2 1.5")
    canvas.rect(x, y + 8.0, own, BAR, fill=PALE if seam.supposed else ACCENT)
    told = " · ".join(_told(seam, words))
    canvas.text(x, y + 25.0, fitted(told, room + 14.0, SMALL), SMALL, fill=INK)


def _told(seam: SeamLeak, words: Wording) -> Iterator[str]:
    yield f"{words.mass(seam.lost_kg)} through {words.gap(seam.gap_m)}"
    yield f"if paper fits {words.mass(seam.lost_paper_kg)}"
    if seam.widest_gap_m is not None:
        yield f"at most {words.gap(seam.widest_gap_m)}"


def _legend(canvas: Canvas, y: float) -> None:
    canvas.rect(0.0, y - 6.5, 16.0, 7.0, fill=ACCENT)
    canvas.text(20.0, y, "through the gap one expects", SMALL)
    canvas.rect(
        150.0, y - 6.5, 16.0, 7.0, fill="none", stroke=GREY, stroke_width=0.7, stroke_dasharray="2 1.5"
    )
    canvas.text(170.0, y, "through a gap that paper fits", SMALL)
    canvas.text(WIDTH, y, "thicker line: loses more", SMALL, text_anchor="end", fill=GREY)
