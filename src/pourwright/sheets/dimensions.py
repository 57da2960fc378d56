"""Dimension lines: how long something is, between two ticks."""

from __future__ import annotations

from collections.abc import Sequence

from pourwright.sheets.labels import spread
from pourwright.sheets.svg import GREY, INK, PAPER, Canvas, text_width

SIZE, TICK, THIN = 7.0, 2.6, 0.45


def across(canvas: Canvas, span: tuple[float, float], y: float, words: str, aside: int = 0) -> None:
    """Draw a level dimension with its words on the line, or beside it where there is no room.

    Parameters
    ----------
    canvas : Canvas
        The drawing.
    span : tuple of float
        From and to [pt].
    y : float
        Place of the line [pt].
    words : str
        The length; "" where it is told elsewhere.
    aside : int
        Words that do not fit stand left (-1) or right (1) of the line; 0: below it.
    """
    low, high = span
    canvas.line(low, y, high, y, stroke=GREY, stroke_width=THIN)
    for x in span:
        canvas.line(x - TICK, y + TICK, x + TICK, y - TICK, stroke=INK, stroke_width=0.7)
    if not words:
        return
    if fits(span, words):
        _words(canvas, (low + high) / 2, y + 2.4, words, "middle")
    elif aside:
        x = low - 2 * TICK if aside < 0 else high + 2 * TICK
        _words(canvas, x, y + 2.4, words, "end" if aside < 0 else "start")
    else:
        _words(canvas, (low + high) / 2, y + SIZE + 3.0, words, "middle")


def upright(canvas: Canvas, spans: Sequence[tuple[float, float]], x: float, words: Sequence[str]) -> None:
    """Draw a column of upright dimensions, their words to the left, moved apart where they would overlap.

    Parameters
    ----------
    canvas : Canvas
        The drawing.
    spans : sequence of (upper, lower)
        From and to, from above down [pt].
    x : float
        Place of the line [pt].
    words : sequence of str
        The lengths.
    """
    for span in spans:
        canvas.line(x, span[0], x, span[1], stroke=GREY, stroke_width=THIN)
        for y in span:
            canvas.line(x - TICK, y + TICK, x + TICK, y - TICK, stroke=INK, stroke_width=0.7)
    middles = [sum(span) / 2 for span in spans]
    for y, text in zip(spread(middles, [SIZE + 2.0] * len(words), 10.0, canvas.height), words, strict=True):
        _words(canvas, x - 4.5, y + 2.4, text, "end")


def fits(span: tuple[float, float], words: str) -> bool:
    """Whether words stand on a level dimension [pt]."""
    return text_width(words, SIZE) + 6.0 <= span[1] - span[0]


def _words(canvas: Canvas, x: float, y: float, words: str, anchor: str) -> None:
    width = text_width(words, SIZE) + 3.0
    left = {"start": x - 1.5, "middle": x - width / 2, "end": x - width + 1.5}[anchor]
    canvas.rect(left, y - SIZE + 1.0, width, SIZE + 1.0, fill=PAPER)
    canvas.text(x, y, words, SIZE, text_anchor=anchor)
