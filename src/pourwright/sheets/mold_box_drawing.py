"""The panels of the box seen from outside: bulge in colours, battens, fastenings, where they go."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from pourwright.foundation.notation import UnitSystem
from pourwright.sheets.contours import Scale, scale_of
from pourwright.sheets.mold_box_panel import (
    RIGHT,
    SMALL,
    PanelDrawing,
    PanelPicture,
    colours_of,
    mark,
    mark_below,
    unit_of,
)
from pourwright.sheets.mold_box_places import places_of
from pourwright.sheets.svg import GREY, Canvas
from pourwright.sheets.wording import Wording

WIDTH = 510.0
LEFT = 52.0
TALLEST = 215.0
HEAD, FOOT, KEY = 40.0, 42.0, 34.0
LEAST_STEP = {UnitSystem.METRIC: 0.01, UnitSystem.US: 0.001}
"""Finest step of the scale, in its unit."""
UNITS = {UnitSystem.METRIC: "mm", UnitSystem.US: "inches"}


def draw_box(title: str, panels: Sequence[PanelPicture], words: Wording) -> str:
    """Draw every kind of panel to one scale.

    Parameters
    ----------
    title : str
        Of the drawing.
    panels : sequence of PanelPicture
        Sides and ends.
    words : Wording
        The maker's units.

    Returns
    -------
    str
        SVG document.
    """
    sizes = [(panel.length, panel.height) for panel in panels]
    places, height = places_of(sizes, (WIDTH, TALLEST), (LEFT, RIGHT), (HEAD, FOOT))
    canvas = Canvas(WIDTH, height + KEY, title)
    scale = _scale(panels, words)
    for panel, place in zip(panels, places, strict=True):
        PanelDrawing(canvas, panel, place, words, scale).draw()
    if scale is not None:
        _key(canvas, height, scale, words)
    _signs(canvas, panels, height, words)
    return canvas.render()


def _scale(panels: Sequence[PanelPicture], words: Wording) -> Scale | None:
    values = [panel.bulge.values.ravel() for panel in panels if panel.bulge is not None]
    if not values:
        return None
    unit, _ = unit_of(words)
    known = np.concatenate([[0.0], *values]) / unit
    return scale_of(known, LEAST_STEP[words.system], 7)


def _key(canvas: Canvas, top: float, scale: Scale, words: Wording) -> None:
    _, unit = unit_of(words)
    wide, x = 26.0, LEFT
    canvas.text(x, top + 6.0, f"bulges by, {unit}", SMALL, fill=GREY)
    for colour, value in zip(colours_of(scale), scale.edges, strict=False):
        canvas.rect(x, top + 10.0, wide, 8.0, fill=colour, stroke=GREY, stroke_width=0.3)
        canvas.text(x, top + 26.0, f"{value:.{scale.digits}f}", SMALL, text_anchor="middle")
        x += wide
    canvas.text(x, top + 26.0, f"{scale.edges[-1]:.{scale.digits}f}", SMALL, text_anchor="middle")


def _signs(canvas: Canvas, panels: Sequence[PanelPicture], top: float, words: Wording) -> None:
    """What the marks stand for, right of the scale."""
    means, x = panels[0].means, WIDTH / 2.0 + 20.0
    canvas.text(x, top + 6.0, f"seen from outside; lengths in {UNITS[words.system]}", SMALL, fill=GREY)
    if means in {"screws", "clamps"}:
        mark(canvas, x + 3.0, top + 20.0, means)
        canvas.text(x + 10.0, top + 22.5, means, SMALL)
        x += 58.0
    if any(panel.base for panel in panels):
        mark_below(canvas, x + 3.0, top + 20.5)
        canvas.text(x + 10.0, top + 22.5, "screws up through the base", SMALL)
