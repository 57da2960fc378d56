"""The section through the middle with the lights for cracks and halos as marks that also tell in grey."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

from pourwright.jobs.plan import PlanDocument
from pourwright.jobs.plan_cracks import CrackPlace, Cracks
from pourwright.sheets.crossings import reach
from pourwright.sheets.labels import Places
from pourwright.sheets.section_drawing import Frame
from pourwright.sheets.svg import GREY, INK, PAPER, Canvas, fitted, outline, text_width
from pourwright.sheets.wording import Wording

WIDTH, TALLEST = 510.0, 200.0
PICTURE, TEXT = 250.0, 272.0
HEAD, FOOT = 9.0, 20.0
SMALL, LINE, PITCH = 7.6, 9.2, 21.5
SIZE = 12.0
GREEN, AMBER, RED = "#dcebd9", "#e8b64c", "#8f1d14"
RUBBER_TONE, GLASS_TONE = "#efefef", "#e4e1db"
DASHES = "4 3"
LEGEND = (
    ("green", "nothing to fear"),
    ("amber", "look, cool slowly"),
    ("red", "expect it to crack"),
)
EDGE = 0.004
"""A mark stays this far inside the outline [m]."""


def draw_cracks(plan: PlanDocument, found: Cracks) -> str:
    """Draw the lights: a ring is green, a triangle amber, a filled square red.

    Parameters
    ----------
    plan : PlanDocument
        The plan.
    found : Cracks
        Its lights.

    Returns
    -------
    str
        SVG document.
    """
    wording = Wording(plan.job)
    frame, bottom = _frame(plan)
    bottom = max(bottom, HEAD + len(found.places) * PITCH)
    canvas = Canvas(WIDTH, bottom + FOOT, f"{plan.job.title}: where it may crack or turn white")
    _draw_piece(canvas, plan, frame)
    _draw_marks(canvas, plan, found, frame)
    _write_list(canvas, found, wording)
    _legend(canvas, bottom + FOOT - 6.0)
    return canvas.render()


def _frame(plan: PlanDocument) -> tuple[Frame, float]:
    points = [point for line in (*plan.section.rubber, *plan.section.piece) for point in line]
    xs, zs = [x for x, _ in points], [z for _, z in points]
    width, height = max(xs) - min(xs), max(zs) - min(zs)
    scale = min((PICTURE - 10.0) / width, TALLEST / height)
    bottom = HEAD + height * scale
    return Frame(scale, PICTURE / 2, bottom, (max(xs) + min(xs)) / 2, min(zs)), bottom


def _draw_piece(canvas: Canvas, plan: PlanDocument, frame: Frame) -> None:
    shape, rubber = frame.path(plan.section.piece), frame.path(plan.section.rubber)
    canvas.path(rubber, fill=RUBBER_TONE, stroke=GREY, stroke_width=0.5, fill_rule="evenodd")
    canvas.path(shape, fill=PAPER, stroke="none", fill_rule="evenodd")
    clip = canvas.clip(shape)
    for band in plan.fill.bands:
        top, low = frame.y(band.to_m), frame.y(band.from_m)
        if band.kind == "glass":
            canvas.rect(0.0, top, PICTURE, low - top, fill=GLASS_TONE, clip_path=clip)
        canvas.path(f"M0 {low:.2f}H{PICTURE}", stroke=GREY, stroke_width=0.5, clip_path=clip)
    for pour in plan.pours:
        level = f"M0 {frame.y(pour.to_m):.2f}H{PICTURE}"
        canvas.path(level, stroke=INK, stroke_width=0.7, stroke_dasharray=DASHES, clip_path=clip)
    canvas.path(shape, fill="none", stroke=INK, stroke_width=1.3, fill_rule="evenodd")


def _draw_marks(canvas: Canvas, plan: PlanDocument, found: Cracks, frame: Frame) -> None:
    taken = Places()
    bounds = (2.0, HEAD, PICTURE - 2.0, canvas.height - FOOT)
    for place in found.places:
        x, y = _spot(plan, place, frame)
        box = taken.nearest((x, y), (SIZE + 3.0, SIZE + 3.0), bounds)
        middle = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
        if math.dist(middle, (x, y)) > SIZE / 2:
            canvas.line(*middle, x, y, stroke=INK, stroke_width=0.5)
            canvas.rect(x - 1.2, y - 1.2, 2.4, 2.4, fill=INK)
        draw_light(canvas, place.light, place.mark, *middle)


def _spot(plan: PlanDocument, place: CrackPlace, frame: Frame) -> tuple[float, float]:
    """Where a place lies on the section: as far off the middle as it is, inside the outline."""
    x, y, z = place.place_m
    off = math.copysign(math.hypot(x, y), x if abs(x) > 1e-9 else 1.0)
    left, right = reach(plan.section.piece, z)
    return frame.x(min(max(off, left + EDGE), right - EDGE)), frame.y(z)


def draw_light(canvas: Canvas, light: str, mark: str, x: float, y: float) -> None:
    """Draw one mark with its letter.

    Parameters
    ----------
    canvas : Canvas
        To draw on.
    light : str
        ``green``, ``amber`` or ``red``.
    mark : str
        Its letter.
    x, y : float
        Middle [pt].
    """
    ink = _SHAPES[light](canvas, x, y)
    drop = 3.6 if light == "amber" else 2.5
    canvas.text(x, y + drop, mark, 6.6, text_anchor="middle", font_weight="bold", fill=ink)


def _ring(canvas: Canvas, x: float, y: float) -> str:
    turns = [k * math.pi / 16 for k in range(32)]
    corners = [(x + 6.0 * math.cos(turn), y + 6.0 * math.sin(turn)) for turn in turns]
    canvas.path(outline(corners), fill=GREEN, stroke=INK, stroke_width=0.8)
    return INK


def _triangle(canvas: Canvas, x: float, y: float) -> str:
    corners = [(x, y - 7.5), (x + 7.8, y + 6.0), (x - 7.8, y + 6.0)]
    canvas.path(outline(corners), fill=AMBER, stroke=INK, stroke_width=1.1)
    return INK


def _square(canvas: Canvas, x: float, y: float) -> str:
    canvas.rect(x - 6.0, y - 6.0, 12.0, 12.0, fill=RED, stroke=INK, stroke_width=1.2)
    return PAPER


_SHAPES: Mapping[str, Callable[[Canvas, float, float], str]] = {
    "green": _ring,
    "amber": _triangle,
    "red": _square,
}


def _write_list(canvas: Canvas, found: Cracks, wording: Wording) -> None:
    y = HEAD + LINE
    for place in found.places:
        draw_light(canvas, place.light, place.mark, TEXT - 10.0, y - 2.5)
        canvas.text(TEXT, y, fitted(_short(place.where), WIDTH - TEXT, SMALL), SMALL, font_weight="bold")
        used = f"uses {wording.share(place.load)} of what it may bear"
        canvas.text(TEXT, y + LINE, used, SMALL, fill=GREY)
        y += PITCH


def _short(where: str) -> str:
    """Brackets hold the height as the piece stands, as in the section; the table says it in words."""
    return where.replace(" as it stands)", ")")


def _legend(canvas: Canvas, y: float) -> None:
    x = 8.0
    for light, words in LEGEND:
        draw_light(canvas, light, "", x, y - 3.0)
        canvas.text(x + 12.0, y, words, SMALL)
        x += 28.0 + text_width(words, SMALL)
    canvas.rect(x - 6.0, y - 7.0, 11.0, 8.0, fill=GLASS_TONE, stroke=GREY, stroke_width=0.5)
    canvas.text(x + 9.0, y, "glass", SMALL)
    canvas.line(x + 40.0, y - 2.5, x + 58.0, y - 2.5, stroke_dasharray=DASHES)
    canvas.text(x + 62.0, y, "a pour's level", SMALL)
