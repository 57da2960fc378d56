"""A body seen from one side, shaded, with its edges and with numbered places."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pourwright.geometry import Mesh, Seen, seen
from pourwright.sheets.raster import png_link
from pourwright.sheets.svg import ACCENT, INK, PAPER, Canvas, wrapped

Frame = tuple[float, float, float, float]
PIXELS, FINER = 420, 2
STONE = (0.83, 0.82, 0.79)
SMALL = 8.0
MARK = 6.0
PLAIN, DOTS, SLANTS = 0, 1, 2
"""How a face is marked, so that it is told apart in grey too."""
PERIOD, STROKE = 26, 5
"""From one slanting line or dot to the next, and how wide it is [pixels of the view]."""


@dataclass(frozen=True, slots=True, eq=False)
class Mark:
    """A place to point at.

    Parameters
    ----------
    place : array (3,)
        In the frame of the mesh [m].
    label : str
        One or two letters.
    """

    place: npt.NDArray[np.float64]
    label: str


@dataclass(frozen=True, slots=True, eq=False)
class Drawn:
    """A body on paper.

    Parameters
    ----------
    view : Seen
        What is seen of it.
    left, top : float
        Upper left corner of the picture [pt].
    size : float
        Side of a pixel of the view on paper [pt].
    """

    view: Seen
    left: float
    top: float
    size: float

    def on_paper(self, places: npt.ArrayLike) -> npt.NDArray[np.float64]:
        """Where places of the body lie in the drawing, (n, 2) [pt]."""
        return np.asarray(self.view.at(places)[:, :2] * self.size + (self.left, self.top))


def body_view(
    mesh: Mesh,
    *,
    toward: npt.ArrayLike,
    upward: npt.ArrayLike = (0.0, 0.0, 1.0),
    tints: npt.NDArray[np.float64] | None = None,
    marks: Sequence[Mark] = (),
    caption: str = "",
    width: float = 260.0,
) -> str:
    """Draw a body on a paper of its own.

    Parameters
    ----------
    mesh : Mesh
        The body.
    toward, upward : array (3,)
        From the body to the viewer, and what is up in the picture.
    tints : array (m, 3), optional
        Red, green and blue of each face, 0 to 1; the colour of stone where left out.
    marks : sequence of Mark
        Places to point at.
    caption : str
        What is said below.
    width : float
        Of the paper [pt].

    Returns
    -------
    str
        SVG document.
    """
    lines = wrapped(caption, width - 16, SMALL, 8) if caption else []
    canvas = Canvas(width, width + 12 * len(lines) + 6, caption or "a body seen from one side")
    draw_body(canvas, (8, 8, width - 8, width - 8), mesh, toward, upward, tints=tints, marks=marks)
    for number, line in enumerate(lines):
        canvas.text(8, width + 8 + 12 * number, line, SMALL)
    return canvas.render()


def draw_body(
    canvas: Canvas,
    frame: Frame,
    mesh: Mesh,
    toward: npt.ArrayLike,
    upward: npt.ArrayLike = (0.0, 0.0, 1.0),
    *,
    tints: npt.NDArray[np.float64] | None = None,
    patterns: npt.NDArray[np.int64] | None = None,
    marks: Sequence[Mark] = (),
    scale: float | None = None,
) -> Drawn:
    """Draw a body into a part of a drawing.

    Parameters
    ----------
    canvas : Canvas
        The drawing.
    frame : tuple of float
        Left, top, right, bottom of the room for it [pt]; the body is centred in it.
    mesh : Mesh
        The body.
    toward, upward : array (3,)
        From the body to the viewer, and what is up in the picture.
    tints : array (m, 3), optional
        Red, green and blue of each face, 0 to 1.
    patterns : array (m,), optional
        PLAIN, DOTS or SLANTS of each face.
    marks : sequence of Mark
        A full one is seen, an open one lies behind the body or in it.
    scale : float, optional
        Points on paper for a metre; as large as the room allows where left out.

    Returns
    -------
    Drawn
        Where everything lies, for lines and words of one's own.
    """
    view = seen(mesh, toward, upward, PIXELS * FINER)
    rows, columns = view.face.shape
    left, top, right, bottom = frame
    largest = min((right - left) / columns, (bottom - top) / rows)
    size = largest if scale is None else min(scale * view.pixel, largest)
    drawn = Drawn(view, (left + right - size * columns) / 2, (top + bottom - size * rows) / 2, size)
    canvas.image(
        drawn.left, drawn.top, size * columns, size * rows, png_link(_dots(mesh, view, tints, patterns))
    )
    draw_marks(canvas, drawn, marks)
    return drawn


def draw_marks(canvas: Canvas, drawn: Drawn, marks: Sequence[Mark]) -> None:
    """Draw marks over a body, above whatever was drawn since."""
    for mark in marks:
        x, y = drawn.on_paper([mark.place])[0]
        _draw_mark(canvas, float(x), float(y), mark.label, behind=bool(drawn.view.hidden([mark.place])[0]))


def _draw_mark(canvas: Canvas, x: float, y: float, label: str, *, behind: bool) -> None:
    """A dot at the place and its label in a disc beside it."""
    canvas.circle(x, y, 2.2, fill=PAPER if behind else ACCENT, stroke=ACCENT, stroke_width=1.0)
    side = x + 13.0 if x < canvas.width - 26.0 else x - 13.0
    canvas.line(x, y, side, y - 9.0, stroke=ACCENT, stroke_width=0.8)
    canvas.circle(side, y - 9.0, MARK, fill=PAPER, stroke=ACCENT, stroke_width=1.0)
    canvas.text(side, y - 6.3, label, SMALL, text_anchor="middle", fill=INK)


def _dots(
    mesh: Mesh,
    view: Seen,
    tints: npt.NDArray[np.float64] | None,
    patterns: npt.NDArray[np.int64] | None,
) -> npt.NDArray[np.uint8]:
    """Shade every pixel, darken the edges, and make one dot of several pixels."""
    normals = mesh.area_vectors
    normals = normals / np.maximum(np.linalg.norm(normals, axis=1), 1e-300)[:, None] @ view.axes.T
    light = np.array([-0.35, -0.55, 0.76])
    # half of the light goes round the corner, so that no side is one flat grey
    shade = 0.5 + 0.5 * (0.5 + 0.5 * normals @ light)
    ground = np.full((len(mesh.faces), 3), STONE) if tints is None else tints
    coloured = np.concatenate([ground * shade[:, None], [[1.0, 1.0, 1.0]]])
    picture = coloured[view.face]
    if patterns is not None:
        picture[_inked(view, patterns)] *= 0.45
    picture[_edges(view, normals)] *= 0.25
    rows, columns = (FINER * (side // FINER) for side in view.face.shape)
    blocks = picture[:rows, :columns].reshape(rows // FINER, FINER, columns // FINER, FINER, 3)
    return np.asarray(np.clip(255 * blocks.mean(axis=(1, 3)), 0, 255).round(), dtype=np.uint8)


def _inked(view: Seen, patterns: npt.NDArray[np.int64]) -> npt.NDArray[np.bool_]:
    """Pixels of dots and slanting lines."""
    row, column = np.indices(view.face.shape)
    kind = np.append(patterns, PLAIN)[view.face]
    slant = (row + column) % PERIOD < STROKE
    dot = ((row + PERIOD // 2 * (column // PERIOD % 2)) % PERIOD < STROKE) & (column % PERIOD < STROKE)
    return np.asarray(((kind == SLANTS) & slant) | ((kind == DOTS) & dot))


def _edges(view: Seen, normals: npt.NDArray[np.float64]) -> npt.NDArray[np.bool_]:
    """Pixels beside which the surface breaks off or folds."""
    facing = np.concatenate([normals, [[0.0, 0.0, 0.0]]])[view.face]
    near = np.where(view.face >= 0, view.near, -1e9)
    found = np.zeros(view.face.shape, dtype=bool)
    for axis in (0, 1):
        here = [slice(None), slice(None)]
        here[axis] = slice(1, None)
        there = [slice(None), slice(None)]
        there[axis] = slice(None, -1)
        a, b = tuple(here), tuple(there)
        slope = np.abs(facing[a][..., 2]) + 0.05
        breaks = np.abs(near[a] - near[b]) > 6.0 / slope
        folds = np.einsum("ijk,ijk->ij", facing[a], facing[b]) < np.cos(np.radians(28.0))
        found[a] |= (breaks | folds) & (view.face[a] >= 0)
        found[b] |= (breaks | folds) & (view.face[b] >= 0)
    return found
