"""Every part of the mold, moved apart, in lines, with its number, name and size."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.ndimage import distance_transform_edt

from pourwright.geometry import Mesh
from pourwright.geometry.line_view import LineView, line_view
from pourwright.geometry.mesh import Floats
from pourwright.jobs.mold_bodies import BodyPart
from pourwright.sheets.labels import spread
from pourwright.sheets.svg import ACCENT, GREY, INK, PAPER, Canvas, fitted, outline, text_width
from pourwright.sheets.wording import Wording

WIDTH, SIDE, TALLEST, HEAD = 510.0, 124.0, 610.0, 10.0
TOWARD = (-0.62, -1.0, 0.62)
SMALL, DISC, ROOM = 7.4, 7.0, 21.0
LEAST = 5.0
COARSE = 6
"""Pixels of the view to one in which the place of a number is looked for."""
PEN = {"rubber": 0.7, "master": 0.7, "block": 0.9, "panel": 0.9}


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    """One body where the picture has it [m], and the part it is one of."""

    part: BodyPart
    mesh: Mesh


@dataclass(frozen=True, slots=True)
class _Balloon:
    """A number beside the picture: the part, its place on paper, whether that is seen."""

    part: BodyPart
    x: float
    y: float
    seen: bool


def draw_exploded(pieces: Sequence[Piece], title: str, words: Wording) -> str:
    """Draw all parts of a mold.

    Parameters
    ----------
    pieces : sequence of Piece
        Clear of one another.
    title : str
        Of the job.
    words : Wording
        The maker's units.

    Returns
    -------
    str
        SVG document; lines only.
    """
    drawn = line_view([piece.mesh for piece in pieces], TOWARD)
    rows, columns = drawn.view.face.shape
    scale = min((WIDTH - 2 * SIDE - 20.0) / columns, TALLEST / rows)
    balloons = _balloons(pieces, drawn, scale)
    height = max(rows * scale, *(ROOM * len(side) for side in _sides(balloons))) + 2 * HEAD
    shift = ((WIDTH - columns * scale) / 2, (height - rows * scale) / 2)
    canvas = Canvas(WIDTH, height, f"{title}: all parts of the mold, moved apart")
    for piece, strokes in zip(pieces, drawn.strokes, strict=True):
        data = "".join(_stroke(line * scale + shift) for line in strokes)
        if data:
            canvas.path(
                data, fill="none", stroke=INK, stroke_width=PEN[piece.part.kind],
                stroke_linejoin="round", stroke_linecap="round",
            )  # fmt: skip
    for number, side in enumerate(_sides(balloons)):
        _write(canvas, side, shift, words, on_left=number == 0)
    return canvas.render()


def _stroke(line: Floats) -> str:
    points = [(float(x), float(y)) for x, y in line]
    closed = len(points) > 3 and points[0] == points[-1]
    return outline(points[:-1] if closed else points, closed=closed)


def _balloons(pieces: Sequence[Piece], drawn: LineView, scale: float) -> list[_Balloon]:
    """Point at each part once, where most of it is seen."""
    found: dict[int, tuple[int, _Balloon]] = {}
    for number, piece in enumerate(pieces):
        mask = drawn.shown(number)
        seen, (x, y) = int(mask.sum()), _place(piece, drawn, mask)
        balloon = _Balloon(piece.part, x * scale, y * scale, seen=seen > 0)
        if piece.part.number not in found or seen > found[piece.part.number][0]:
            found[piece.part.number] = (seen, balloon)
    return [balloon for _, balloon in found.values()]


def _place(piece: Piece, drawn: LineView, mask: np.ndarray) -> tuple[float, float]:
    """Where a part is seen with most of it around; its hidden middle where it is not seen."""
    few = np.pad(mask[::COARSE, ::COARSE], 1)
    if not few.any():
        x, y, _ = drawn.view.at([piece.mesh.bounds.mean(axis=0)])[0]
        return float(x), float(y)
    row, column = np.unravel_index(int(np.argmax(distance_transform_edt(few))), few.shape)
    return float(column - 1) * COARSE + 0.5, float(row - 1) * COARSE + 0.5


def _sides(balloons: Sequence[_Balloon]) -> tuple[list[_Balloon], list[_Balloon]]:
    """Left and right of the picture, half of them each, from above down."""
    order = sorted(balloons, key=lambda balloon: (balloon.x, balloon.part.number))
    half = (len(order) + 1) // 2
    left, right = (sorted(side, key=lambda balloon: balloon.y) for side in (order[:half], order[half:]))
    return left, right


def _write(
    canvas: Canvas, side: Sequence[_Balloon], shift: tuple[float, float], words: Wording, *, on_left: bool
) -> None:
    wanted = [balloon.y + shift[1] for balloon in side]
    for balloon, y in zip(side, spread(wanted, [ROOM] * len(side), 2.0, canvas.height - 2.0), strict=True):
        x = SIDE - DISC if on_left else WIDTH - SIDE + DISC
        place = (balloon.x + shift[0], balloon.y + shift[1])
        canvas.line(*place, x, y, stroke=ACCENT, stroke_width=0.6)
        canvas.circle(*place, 1.7, fill=ACCENT if balloon.seen else PAPER, stroke=ACCENT, stroke_width=0.8)
        canvas.circle(x, y, DISC, fill=PAPER, stroke=ACCENT, stroke_width=1.0)
        canvas.text(x, y + 2.7, str(balloon.part.number), SMALL, text_anchor="middle", font_weight="bold")
        beside = x - DISC - 3.0 if on_left else x + DISC + 3.0
        _name(canvas, balloon.part, (beside, y), words, on_left=on_left)


def _name(
    canvas: Canvas, part: BodyPart, place: tuple[float, float], words: Wording, *, on_left: bool
) -> None:
    room = SIDE - 2 * DISC - 4.0
    anchor = "end" if on_left else "start"
    count = f"{part.count} × " if part.count > 1 else ""
    canvas.text(
        place[0], place[1] - 1.0, fitted(count + part.name, room, SMALL), SMALL,
        text_anchor=anchor, font_weight="bold",
    )  # fmt: skip
    size = words.size(part.size_m)
    letters = max(min(SMALL - 1.2, room / text_width(size, 1.0)), LEAST)
    canvas.text(place[0], place[1] + 7.6, fitted(size, room, letters), letters, text_anchor=anchor, fill=GREY)
