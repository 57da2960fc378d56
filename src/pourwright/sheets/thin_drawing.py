"""A body tinted by its thickness from two sides, with numbered places and what is said of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pourwright.geometry import Mesh
from pourwright.sheets.body_view import Drawn, Mark, draw_body
from pourwright.sheets.ramps import HARD
from pourwright.sheets.svg import ACCENT, GREY, INK, Canvas, text_width, wrapped

Array = npt.NDArray[np.float64]
SIDES = (((0.55, -1.0, 0.62), "from the front, above"), ((-0.55, 1.0, -0.5), "from the back, below"))
ROOM, GAP, SMALL, LINE = 250.0, 14.0, 7.5, 10.2
PARTS = 6
"""Of each line, drawn where nothing lies before its middle."""
PALEST = 2
"""Colours at the pale end of the ramp that are left out: shading would make them white."""


@dataclass(frozen=True, slots=True, eq=False)
class ThinPicture:
    """What is drawn of a body.

    Parameters
    ----------
    title : str
        Its name.
    mesh : Mesh
        In the frame of the pour, cut finely enough to be tinted face by face.
    classes : array (m,)
        Class of thickness of each face, 0 for the thinnest.
    names : tuple of str
        Of the classes, thinnest first.
    marks : tuple of (front, back) Mark
        Each place as it is pointed at from either side.
    lines : tuple of array (n, 2, 3)
        Corners and edges that are told [m].
    sentences : tuple of str
        What is said of each mark.
    """

    title: str
    mesh: Mesh
    classes: npt.NDArray[np.intp]
    names: tuple[str, ...]
    marks: tuple[tuple[Mark, Mark], ...]
    lines: tuple[Array, ...]
    sentences: tuple[str, ...]


def thin_drawing(picture: ThinPicture) -> str:
    """Draw a body tinted by thickness.

    Parameters
    ----------
    picture : ThinPicture
        What is drawn.

    Returns
    -------
    str
        SVG document.
    """
    width = 2 * ROOM + 3 * GAP
    texts = [wrapped(sentence, width - 3 * GAP, SMALL, 4) for sentence in picture.sentences]
    height = 74 + ROOM + LINE * sum(len(lines) for lines in texts) + 24
    canvas = Canvas(width, height, f"Thin and sharp places of {picture.title}")
    canvas.text(GAP, 20, f"Thin and sharp: {picture.title}", 12.0)
    tints = _tints(len(picture.names))
    scale = 0.86 * ROOM / float(np.linalg.norm(np.ptp(picture.mesh.bounds, axis=0)))
    for side, (toward, words) in enumerate(SIDES):
        left = GAP + side * (ROOM + GAP)
        canvas.text(left, 36, f"{words}, as poured", SMALL, fill=GREY)
        frame = (left, 40.0, left + ROOM, 40.0 + ROOM)
        marks = [pair[side] for pair in picture.marks]
        drawn = draw_body(
            canvas, frame, picture.mesh, toward, tints=tints[picture.classes], marks=marks, scale=scale
        )
        _draw_lines(canvas, drawn, picture.lines)
    _legend(canvas, 54 + ROOM, picture.names, tints)
    _write(canvas, 74 + ROOM, texts, [pair[0].label for pair in picture.marks])
    return canvas.render()


def _tints(count: int) -> Array:
    colours = HARD.colours(count + PALEST)[:count]
    return np.array([[int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)] for colour in colours])


def _draw_lines(canvas: Canvas, drawn: Drawn, lines: Sequence[Array]) -> None:
    """Corners and edges where nothing lies before them."""
    shares = np.linspace(0.0, 1.0, PARTS + 1)[:, None, None]
    for ends in lines:
        along = ends[:, 0] + shares * (ends[:, 1] - ends[:, 0])
        parts = np.stack([along[:-1], along[1:]], axis=2).reshape(-1, 2, 3)
        hidden = drawn.view.hidden(parts.mean(axis=1))
        for start, end in parts[~hidden]:
            (x1, y1), (x2, y2) = drawn.on_paper([start, end])
            canvas.line(x1, y1, x2, y2, stroke=ACCENT, stroke_width=1.3)


def _legend(canvas: Canvas, y: float, names: Sequence[str], tints: Array) -> None:
    x = GAP
    canvas.text(x, y, "thickness", SMALL)
    x += text_width("thickness", SMALL) + 10
    for name, tint in zip(names, tints, strict=True):
        red, green, blue = (round(255 * float(value)) for value in tint)
        colour = f"#{red:02x}{green:02x}{blue:02x}"
        canvas.rect(x, y - 7, 10, 9, fill=colour, stroke=GREY, stroke_width=0.4)
        canvas.text(x + 13, y, name, SMALL)
        x += 13 + text_width(name, SMALL) + 10
    canvas.line(x, y - 3, x + 12, y - 3, stroke=ACCENT, stroke_width=1.3)
    canvas.text(x + 15, y, "corner or edge", SMALL)


def _write(canvas: Canvas, top: float, texts: Sequence[Sequence[str]], labels: Sequence[str]) -> None:
    y = top
    for number, lines in enumerate(texts):
        if number < len(labels):
            canvas.text(GAP, y, labels[number], SMALL, fill=ACCENT)
        for line in lines:
            canvas.text(2.2 * GAP, y, line, SMALL, fill=INK)
            y += LINE
