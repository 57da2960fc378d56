"""The piece as it lies in its mold, coloured by how it leans against the pull, with cut, air and pull."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, sin

import numpy as np
import numpy.typing as npt

from pourwright.geometry import Mesh
from pourwright.sheets.body_view import DOTS, PLAIN, SLANTS, STONE, Drawn, Mark, draw_body, draw_marks
from pourwright.sheets.svg import ACCENT, GREY, INK, PAPER, Canvas, text_width

Array = npt.NDArray[np.float64]
WIDTH, GAP, ROOM, HEAD = 510.0, 14.0, 250.0, 30.0
SMALL, LINE = 7.6, 13.0
AIR = "#1d5f92"
SAFE, LITTLE, CAUGHT, BARE = (0.74, 0.84, 0.76), (0.95, 0.87, 0.60), (0.86, 0.50, 0.40), STONE
ENOUGH, NONE = 3.0, -0.01
"""Lean above which a wall comes away by itself, and below which it is undercut [deg]."""
ARROW, PULL = 26.0, 58.0
"""Length of an arrow of air, unless it is seen from its end, and of the one of the way out [pt]."""
ASIDE, RISE = 0.55, 0.42
"""From how far beside the cut [rad] and above the piece it is looked at."""


@dataclass(frozen=True, slots=True, eq=False)
class OutPicture:
    """All that the drawing shows.

    Parameters
    ----------
    title : str
        Of the job.
    mesh : Mesh
        The piece as it is cast.
    leans : array (m,)
        Of every face; not a number where it touches no rubber [deg].
    angle : float
        From the x axis, of the first cut, or of the side looked at [rad].
    marks : sequence of Mark
        Numbered undercut places.
    lines : sequence of array (k, 3)
        Where each cut meets the piece [m].
    air : sequence of (place, way)
        Where air goes in, and along which unit vector.
    """

    title: str
    mesh: Mesh
    leans: Array
    angle: float
    marks: Sequence[Mark]
    lines: Sequence[Array]
    air: Sequence[tuple[Array, Array]]


def draw_way_out(picture: OutPicture) -> str:
    """Draw the piece from the side of its cut and from behind.

    Parameters
    ----------
    picture : OutPicture
        What it shows.

    Returns
    -------
    str
        SVG document.
    """
    canvas = Canvas(WIDTH, HEAD + ROOM + 2 * LINE + 6.0, f"{picture.title}: the way out")
    wide = (WIDTH - GAP) / 2
    cut = bool(picture.lines)
    names = ("from the side of the cut", "from behind") if cut else ("from the right", "from behind")
    for number, name in enumerate(names):
        left = number * (wide + GAP)
        canvas.text(left, 10.0, name, 8.6, font_weight="bold")
        _draw_view(canvas, picture, (left, HEAD, left + wide, HEAD + ROOM), number * np.pi)
    _legend(canvas, picture, HEAD + ROOM + LINE)
    return canvas.render()


def _draw_view(canvas: Canvas, picture: OutPicture, frame: tuple[float, ...], turned: float) -> None:
    side = picture.angle - ASIDE + turned
    toward = np.array([cos(side), sin(side), RISE])
    left, top, right, bottom = frame
    inner = (left + 40.0, top + 44.0, right - 40.0, bottom - 4.0)
    drawn = draw_body(
        canvas, inner, picture.mesh, toward, tints=_tints(picture.leans), patterns=_patterns(picture.leans)
    )
    for line in picture.lines:
        _draw_line(canvas, drawn, line)
    for place, way in picture.air:
        _draw_air(canvas, drawn, place, way)
    _draw_pull(canvas, drawn, picture.mesh)
    draw_marks(canvas, drawn, picture.marks)


def _tints(leans: Array) -> Array:
    tints = np.tile(np.array(SAFE), (len(leans), 1))
    tints[leans <= ENOUGH] = LITTLE
    tints[leans < NONE] = CAUGHT
    tints[np.isnan(leans)] = BARE
    return tints


def _patterns(leans: Array) -> npt.NDArray[np.int64]:
    return np.where(leans < NONE, SLANTS, np.where(leans <= ENOUGH, DOTS, PLAIN))


def _draw_line(canvas: Canvas, drawn: Drawn, line: Array) -> None:
    """The cut: full where it is seen, dashed behind the piece."""
    line = _finer(line)
    points = drawn.on_paper(line)
    hidden = drawn.view.hidden(line, 4.0)
    ends = np.flatnonzero(np.diff(hidden)) + 1
    for part in np.split(np.arange(len(line)), ends):
        # neighbouring parts share a point, or a gap stays between them
        shared = points[max(part[0] - 1, 0) : part[-1] + 1]
        if len(shared) < 2:
            continue
        path = [(float(x), float(y)) for x, y in shared]
        if hidden[part[0]]:
            canvas.curve(path, stroke=INK, stroke_width=0.8, stroke_dasharray="3 2.4")
        else:
            canvas.curve(path, stroke=PAPER, stroke_width=3.2)
            canvas.curve(path, stroke=INK, stroke_width=1.8)


def _finer(line: Array) -> Array:
    """More points on a line: between two levels it may run in under the piece."""
    at = np.linspace(0, len(line) - 1, 8 * len(line))
    return np.stack([np.interp(at, np.arange(len(line)), line[:, axis]) for axis in range(3)], axis=1)


def _draw_air(canvas: Canvas, drawn: Drawn, place: Array, way: Array) -> None:
    """An arrow that ends at the place; dashed where that lies behind the piece."""
    reach = ARROW / drawn.size * drawn.view.pixel
    foot, tip = drawn.on_paper([place - reach * way, place])
    hidden = bool(drawn.view.hidden([place], 6.0)[0])
    _arrow(canvas, foot, tip, AIR, "2.4 2" if hidden else "")


def _draw_pull(canvas: Canvas, drawn: Drawn, mesh: Mesh) -> None:
    lower, upper = mesh.bounds
    top = np.array([(lower[0] + upper[0]) / 2, (lower[1] + upper[1]) / 2, upper[2]])
    foot = drawn.on_paper([top])[0]
    _arrow(canvas, foot, foot - [0.0, PULL], ACCENT, "", 2.2)


def _arrow(canvas: Canvas, foot: Array, tip: Array, ink: str, dashes: str, width: float = 1.6) -> None:
    style: dict[str, str | float] = {"stroke": ink, "stroke_width": width}
    along = (tip - foot) / max(float(np.linalg.norm(tip - foot)), 1e-9)
    across = np.array([-along[1], along[0]])
    dashed: dict[str, str | float] = {"stroke_dasharray": dashes} if dashes else {}
    canvas.line(float(foot[0]), float(foot[1]), float(tip[0]), float(tip[1]), **style, **dashed)
    for side in (1.0, -1.0):
        x, y = tip - 6.0 * along + 3.4 * side * across
        canvas.line(float(tip[0]), float(tip[1]), float(x), float(y), **style)


def _legend(canvas: Canvas, picture: OutPicture, y: float) -> None:
    x = 0.0
    for colour, pattern, words in (
        (SAFE, "", "over 3°: comes away"),
        (LITTLE, "dots", "upright to 3°: loosen it first"),
        (CAUGHT, "lines", "undercut: rubber in the way"),
    ):
        _patch(canvas, x, y, colour, pattern)
        canvas.text(x + 16.0, y, words, SMALL)
        x += 16.0 + text_width(words, SMALL) + 12.0
    x = 0.0
    for kind, words in _signs(picture):
        _sign(canvas, kind, x, y + LINE)
        canvas.text(x + 20.0, y + LINE, words, SMALL)
        x += 20.0 + text_width(words, SMALL) + 12.0


def _signs(picture: OutPicture) -> list[tuple[str, str]]:
    signs = [("pull", "way out"), ("air", "air goes in")]
    if picture.lines:
        signs.append(("cut", "cut, dashed where it lies behind"))
    if picture.marks:
        signs.append(("mark", "number in the table"))
    return signs


def _patch(canvas: Canvas, x: float, y: float, colour: tuple[float, float, float], pattern: str) -> None:
    red, green, blue = (round(255 * value) for value in colour)
    canvas.rect(x, y - 8, 12, 10, fill=f"#{red:02x}{green:02x}{blue:02x}", stroke=GREY, stroke_width=0.4)
    if pattern == "lines":
        for step in (2.0, 6.0, 10.0):
            canvas.line(x + max(step - 8.0, 0.0), y - 8 + min(step, 8.0), x + step, y - 8, stroke_width=0.8)
    elif pattern == "dots":
        for row in range(2):
            for column in range(3):
                canvas.circle(x + 2.0 + 4.0 * column, y - 5.5 + 4.5 * row, 0.6, fill=INK)


def _sign(canvas: Canvas, kind: str, x: float, y: float) -> None:
    foot, tip = np.array([x, y - 3.0]), np.array([x + 15.0, y - 3.0])
    if kind == "mark":
        canvas.circle(x + 8.0, y - 3.0, 5.0, fill=PAPER, stroke=ACCENT, stroke_width=1.0)
        canvas.text(x + 8.0, y - 0.6, "1", SMALL - 1.0, text_anchor="middle")
    elif kind == "cut":
        canvas.line(x, y - 3.0, x + 15.0, y - 3.0, stroke=INK, stroke_width=1.8)
    else:
        _arrow(canvas, foot, tip, AIR if kind == "air" else ACCENT, "", 1.6 if kind == "air" else 2.2)
