"""Bars as they are cut to length: the parts in order, the cuts numbered, what is left."""

from __future__ import annotations

from collections.abc import Sequence

from pourwright.foundation.notation import format_share
from pourwright.jobs.cut_nested import NestedBar
from pourwright.sheets.cut_tags import CutTags, hatch, write_list
from pourwright.sheets.labels import spread
from pourwright.sheets.svg import ACCENT, GREY, INK, PALE, Canvas, fitted, outline
from pourwright.sheets.wording import Wording

WIDTH, EDGE = 510.0, 4.0
THICK, ABOVE, BELOW = 24.0, 16.0, 20.0
"""Height of a bar, and room above and below it [pt]."""
SMALL = 7.2
BOARD_TONE = "#f1ede6"
HAIR = 1e-6


def draw_cut_bars(bars: Sequence[NestedBar], words: Wording) -> str:
    """Draw bars below each other, all to one scale along their length.

    Parameters
    ----------
    bars : sequence of NestedBar
        The bars.
    words : Wording
        The maker's units.

    Returns
    -------
    str
        SVG document.
    """
    scale = (WIDTH - 2 * EDGE) / max((bar.length_m for bar in bars), default=1.0)
    canvas = Canvas(WIDTH, 10.0, "bars: cuts")
    tags = CutTags(canvas)
    top = 0.0
    for bar in bars:
        _draw_bar(canvas, bar, top + ABOVE, scale, words, tags)
        top += ABOVE + THICK + BELOW
    canvas.height = write_list(canvas, tags.keys, top) + 8.0
    return canvas.render()


def cuts_of(bar: NestedBar) -> list[float]:
    """Where the saw goes through a bar, from its left end.

    Parameters
    ----------
    bar : NestedBar
        The bar.

    Returns
    -------
    list of float
        The side of the blade towards the left end [m], in order; the kerf lies beyond. The first one trims.
    """
    ends = [part.x_m + part.length_m for part in bar.parts]
    trim = [bar.trim_m - min(bar.kerf_m, bar.trim_m)] if bar.trim_m else []
    return trim + [end for end in ends if end < bar.length_m - HAIR]


def _draw_bar(
    canvas: Canvas, bar: NestedBar, top: float, scale: float, words: Wording, tags: CutTags
) -> None:
    size = words.size((bar.length_m, bar.width_m, bar.thickness_m))
    kerf = f", kerf {words.length(bar.kerf_m)}" if bar.kerf_m else ""
    told = f"{bar.name}: {bar.board}, {size}; {format_share(bar.used_share)} becomes parts{kerf}"
    canvas.text(0.0, top - 5.0, fitted(told, WIDTH, SMALL), SMALL)
    _ground(canvas, bar, top, scale)
    for part in bar.parts:
        left, right = EDGE + part.x_m * scale, EDGE + (part.x_m + part.length_m) * scale
        canvas.rect(left, top, right - left, THICK, fill=BOARD_TONE, stroke=INK, stroke_width=0.4)
        tags.tell((left, top, right, top + THICK), part.mark, words.length(part.length_m))
    _rest(canvas, bar, top, scale, words, tags)
    _saw(canvas, bar, top, scale)


def _ground(canvas: Canvas, bar: NestedBar, top: float, scale: float) -> None:
    for left, right in ((0.0, bar.trim_m), (bar.length_m - bar.trim_m, bar.length_m)):
        if bar.trim_m:
            box = EDGE + left * scale, top, EDGE + right * scale, top + THICK
            corners = [(box[0], box[1]), (box[2], box[1]), (box[2], box[3]), (box[0], box[3])]
            hatch(canvas, outline(corners), box, 2.0)
    canvas.rect(EDGE, top, bar.length_m * scale, THICK, fill="none", stroke=INK, stroke_width=0.9)


def _rest(canvas: Canvas, bar: NestedBar, top: float, scale: float, words: Wording, tags: CutTags) -> None:
    if bar.left_m <= HAIR:
        return
    right = EDGE + (bar.length_m - bar.trim_m) * scale
    left = right - bar.left_m * scale
    canvas.rect(left, top, right - left, THICK, fill=PALE, stroke=INK, stroke_width=0.4)
    tags.tell_left((left, top, right, top + THICK), words.length(bar.left_m))


def _saw(canvas: Canvas, bar: NestedBar, top: float, scale: float) -> None:
    cuts = [EDGE + (x + bar.kerf_m / 2) * scale for x in cuts_of(bar)]
    width = max(bar.kerf_m * scale, 0.7)
    for x in cuts:
        canvas.line(x, top - 1.5, x, top + THICK + 3.0, stroke=ACCENT, stroke_width=width)
    seats = spread(cuts, [11.0] * len(cuts), 0.0, WIDTH)
    for number, (x, seat) in enumerate(zip(cuts, seats, strict=True), 1):
        canvas.line(x, top + THICK + 3.0, seat, top + THICK + 6.5, stroke=GREY, stroke_width=0.4)
        canvas.text(seat, top + THICK + 13.0, str(number), 6.5, text_anchor="middle")
