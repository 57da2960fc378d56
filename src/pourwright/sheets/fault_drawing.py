"""A body from two sides, with the places where its surface is faulty or was mended."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from string import ascii_uppercase

import numpy as np
import numpy.typing as npt

from pourwright.geometry import Mesh
from pourwright.sheets.body_view import STONE, Mark, draw_body
from pourwright.sheets.svg import GREY, Canvas, wrapped

WIDTH, HEIGHT, SIDE, MARGIN = 540.0, 310.0, 240.0, 12.0
LETTERS, LINE, MOST_LINES = 8.0, 11.0, 5
MOST_MARKS = 5
SIDES = ((1.0, -1.4, 0.8), (-1.0, 1.4, -0.8))
GLOW = (0.93, 0.55, 0.35)
MOST_GLOWING = 0.3
"""Where more than this share of the surface would be coloured, the colour says nothing."""
_VIEWS = ("from the front right, above", "from the back left, below")
Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Marked:
    """Something to point at.

    Parameters
    ----------
    words : str
        What it is.
    places : array (n, 3)
        Where [m]; may be empty.
    labels : tuple of str
        One for each place, where the words number them; else they share a letter.
    """

    words: str
    places: Floats
    labels: tuple[str, ...] = ()


def fault_drawing(mesh: Mesh, title: str, items: Sequence[Marked]) -> str:
    """Draw a body from two sides with lettered places, and say below what is there.

    Parameters
    ----------
    mesh : Mesh
        The body, or what there is of it.
    title : str
        Above the drawing.
    items : sequence of Marked
        Each gets a letter; triangles at its places are coloured.

    Returns
    -------
    str
        SVG document; a full dot is seen, an open one lies behind the body or in it.
    """
    lettered = list(zip(ascii_uppercase, items, strict=False))
    blocks = [
        wrapped(_line(letter, item), WIDTH - 2 * MARGIN, LETTERS, MOST_LINES) for letter, item in lettered
    ]
    canvas = Canvas(WIDTH, HEIGHT + LINE * (sum(map(len, blocks)) + 1) + MARGIN, title)
    canvas.text(MARGIN, 18.0, title, 10.0, font_weight="bold")
    colours = _glowing(mesh, [item.places for item in items if len(item.places)])
    marks = [mark for letter, item in lettered for mark in _marks(letter, item)]
    for toward, words, left in zip(SIDES, _VIEWS, (MARGIN, WIDTH - SIDE - MARGIN), strict=True):
        draw_body(canvas, (left, 46.0, left + SIDE, HEIGHT - 24.0), mesh, toward, tints=colours, marks=marks)
        canvas.text(left + SIDE / 2, HEIGHT - 6.0, words, LETTERS, text_anchor="middle", fill=GREY)
    for row, line in enumerate(line for block in blocks for line in block):
        canvas.text(MARGIN, HEIGHT + LINE * (row + 1), line, LETTERS)
    return canvas.render()


def _line(letter: str, item: Marked) -> str:
    return item.words if item.labels or not len(item.places) else f"{letter}: {item.words}"


def _marks(letter: str, item: Marked) -> list[Mark]:
    if item.labels:
        return [Mark(place, label) for place, label in zip(item.places, item.labels, strict=True)]
    return [Mark(place, letter) for place in _spread(item.places)]


def _spread(places: Floats) -> Floats:
    """Give the first place and a few others, evenly in their order."""
    if len(places) <= MOST_MARKS:
        return places
    return np.asarray(places[np.linspace(0, len(places) - 1, MOST_MARKS).astype(int)])


def _glowing(mesh: Mesh, places: Sequence[Floats]) -> Floats:
    """Colour the triangles that have a place as a corner, in the middle of a side or in their middle."""
    from scipy.spatial import cKDTree  # noqa: PLC0415 - a tenth of a second that only a picture needs

    tints = np.tile(np.array(STONE), (len(mesh.faces), 1))
    if not places:
        return tints
    tree = cKDTree(np.concatenate(places))
    near = 1e-6 * float((mesh.bounds[1] - mesh.bounds[0]).max())
    corners = mesh.triangles
    middles = (corners + np.roll(corners, -1, axis=1)) / 2
    points = np.concatenate([corners, middles, corners.mean(axis=1)[:, None]], axis=1)
    distance, _ = tree.query(points.reshape(-1, 3), distance_upper_bound=near)
    glows = np.isfinite(distance).reshape(-1, 7).any(axis=1)
    areas = np.linalg.norm(mesh.area_vectors, axis=1)
    if areas[glows].sum() <= MOST_GLOWING * areas.sum():
        tints[glows] = GLOW
    return tints
