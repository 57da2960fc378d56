"""The best ways up side by side, each standing as poured, and the undercut over all pulls."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pourwright.geometry import Mesh
from pourwright.sheets.body_view import STONE, Drawn, Mark, draw_body
from pourwright.sheets.svg import ACCENT, GREY, INK, PAPER, Canvas, text_width, wrapped

Array = npt.NDArray[np.float64]
OPEN, COVERED, CAUGHT = (0.55, 0.74, 0.88), (0.88, 0.68, 0.45), (0.80, 0.30, 0.25)
TOWARD = (0.45, -1.0, 0.62)
COLUMN, GAP, ROOM = 186.0, 14.0, 186.0
TITLE, SMALL = 10.0, 7.0
LINE = 9.6
FREE, LOCKED = np.array([0.90, 0.93, 0.90]), np.array([0.45, 0.12, 0.08])


@dataclass(frozen=True, slots=True, eq=False)
class WayPicture:
    """One way up as it is drawn.

    Parameters
    ----------
    title : str
        Direction and how the piece lies.
    lines : tuple of str
        Numbers, then sentences; each is wrapped.
    mesh : Mesh
        In the frame of its pour.
    open_faces, covered, caught : array (m,) of bool
        Faces of the open face, under rubber, on the walls of caught air.
    marks : tuple of Mark
        Highs of caught air.
    pull : array (3,) or None
        The way out in the frame of the pour; None where the piece cannot be poured so.
    """

    title: str
    lines: tuple[str, ...]
    mesh: Mesh
    open_faces: npt.NDArray[np.bool_]
    covered: npt.NDArray[np.bool_]
    caught: npt.NDArray[np.bool_]
    marks: tuple[Mark, ...]
    pull: Array | None


@dataclass(frozen=True, slots=True, eq=False)
class PullMap:
    """Undercut over the directions along which a mold of two parts may open.

    Parameters
    ----------
    directions : array (n, 3)
        Over the half sphere about +z of the file.
    shares : array (n,)
        Of the surface that locks.
    best : array (3,)
        The direction proposed.
    sentence : str
        What is said below.
    """

    directions: Array
    shares: Array
    best: Array
    sentence: str


def ways_drawing(title: str, ways: Sequence[WayPicture], pulls: PullMap) -> str:
    """Draw ways up side by side and the map of pulls.

    Parameters
    ----------
    title : str
        Name of the shape.
    ways : sequence of WayPicture
        The best first.
    pulls : PullMap
        For a mold of two parts.

    Returns
    -------
    str
        SVG document.
    """
    texts = [[line for words in way.lines for line in wrapped(words, COLUMN, SMALL, 12)] for way in ways]
    texts.append(wrapped(pulls.sentence, COLUMN, SMALL, 12))
    columns = len(texts)
    width = columns * COLUMN + (columns + 1) * GAP
    height = 58 + ROOM + LINE * max(len(lines) for lines in texts) + 34
    canvas = Canvas(width, height, f"Ways up of {title}")
    canvas.text(GAP, 20, f"Which way up: {title}", 12.0)
    scale = min(ROOM * 0.86 / float(np.linalg.norm(np.ptp(way.mesh.bounds, axis=0))) for way in ways)
    for number, (way, lines) in enumerate(zip(ways, texts, strict=False)):
        left = GAP + number * (COLUMN + GAP)
        canvas.text(left, 40, way.title, TITLE)
        _draw_way(canvas, left, way, scale)
        _write(canvas, left, 58 + ROOM, lines)
    left = GAP + len(ways) * (COLUMN + GAP)
    canvas.text(left, 40, "a mold of two parts", TITLE)
    _draw_map(canvas, left, pulls)
    _write(canvas, left, 58 + ROOM, texts[-1])
    _legend(canvas, height - 14)
    return canvas.render()


def _write(canvas: Canvas, left: float, top: float, lines: Sequence[str]) -> None:
    for number, line in enumerate(lines):
        canvas.text(left, top + LINE * (number + 1), line, SMALL, fill=INK)


def _draw_way(canvas: Canvas, left: float, way: WayPicture, scale: float) -> None:
    tints = np.tile(np.array(STONE), (len(way.mesh.faces), 1))
    for faces, colour in ((way.covered, COVERED), (way.open_faces, OPEN), (way.caught, CAUGHT)):
        tints[faces] = colour
    frame = (left, 52.0, left + COLUMN, 52.0 + ROOM)
    drawn = draw_body(canvas, frame, way.mesh, TOWARD, tints=tints, marks=way.marks, scale=scale)
    if way.pull is not None:
        _arrow(canvas, drawn, way)


def _arrow(canvas: Canvas, drawn: Drawn, way: WayPicture) -> None:
    """The way out, from the middle of the open face."""
    assert way.pull is not None
    lower, upper = way.mesh.bounds
    foot = _middle(way.mesh, way.open_faces)
    reach = 0.3 * float(np.linalg.norm(upper - lower))
    (x1, y1), (x2, y2) = drawn.on_paper([foot, foot + reach * way.pull])
    canvas.line(x1, y1, x2, y2, stroke=ACCENT, stroke_width=1.6)
    along = np.array([x2 - x1, y2 - y1])
    along = along / max(float(np.linalg.norm(along)), 1e-9)
    across = np.array([-along[1], along[0]])
    for side in (1.0, -1.0):
        x, y = np.array([x2, y2]) - 6.0 * along + 3.5 * side * across
        canvas.line(x2, y2, float(x), float(y), stroke=ACCENT, stroke_width=1.6)


def _middle(mesh: Mesh, faces: npt.NDArray[np.bool_]) -> Array:
    """Middle of the open face, by its area."""
    sizes = np.linalg.norm(mesh.area_vectors[faces], axis=1)
    return np.asarray(np.average(mesh.triangles[faces].mean(axis=1), axis=0, weights=sizes))


def _draw_map(canvas: Canvas, left: float, pulls: PullMap) -> None:
    """A disc of equal areas: straight up in the middle, level at the rim."""
    radius = 0.42 * COLUMN
    middle = left + COLUMN / 2, 52.0 + ROOM / 2
    most = max(float(pulls.shares.max()), 1e-9)
    dot = radius * np.sqrt(1.0 / len(pulls.shares)) * 0.98
    canvas.circle(*middle, radius + 3, fill=PAPER, stroke=GREY, stroke_width=0.6)
    for way, share in zip(pulls.directions, pulls.shares, strict=True):
        colour = FREE + (LOCKED - FREE) * float(share) / most
        x, y = _on_disc(way, middle, radius)
        canvas.circle(x, y, float(dot), fill=_hex(colour), stroke="none")
    x, y = _on_disc(pulls.best, middle, radius)
    canvas.circle(x, y, 6.0, fill="none", stroke=ACCENT, stroke_width=1.8)
    for words, at in (("x", (radius + 9, 3.0)), ("y", (0.0, -radius - 7))):
        canvas.text(middle[0] + at[0], middle[1] + at[1], words, SMALL, text_anchor="middle", fill=INK)


def _on_disc(way: Array, middle: tuple[float, float], radius: float) -> tuple[float, float]:
    """Lambert's azimuthal projection of the half sphere; of a direction below it, the opposite one."""
    x, y, z = way if way[2] >= 0 else -way
    level = np.hypot(x, y)
    share = np.sqrt(max(1.0 - z, 0.0)) / level if level > 1e-12 else 0.0
    return float(middle[0] + radius * share * x), float(middle[1] - radius * share * y)


def _hex(colour: Array) -> str:
    red, green, blue = (round(255 * float(value)) for value in np.clip(colour, 0, 1))
    return f"#{red:02x}{green:02x}{blue:02x}"


def _legend(canvas: Canvas, y: float) -> None:
    x = GAP
    names = ((OPEN, "open face"), (COVERED, "rubber lies over it"), (CAUGHT, "walls of caught air"))
    for colour, words in names:
        canvas.rect(x, y - 7, 9, 9, fill=_hex(np.array(colour)), stroke=GREY, stroke_width=0.4)
        canvas.text(x + 13, y, words, SMALL)
        x += 13 + text_width(words, SMALL) + 16
    canvas.line(x, y - 3, x + 14, y - 3, stroke=ACCENT, stroke_width=1.6)
    canvas.text(x + 18, y, "the way out", SMALL)
    x += 18 + text_width("the way out", SMALL) + 16
    words = "disc: directions of opening, z in the middle, dark where more locks; ring: the one proposed"
    canvas.text(x, y, words, SMALL)
