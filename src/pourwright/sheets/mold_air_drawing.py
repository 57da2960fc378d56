"""Sections through caught air: the air hatched, with the tilt or the vent that lets it out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, sin

from pourwright.jobs.plan_part import Polyline
from pourwright.sheets.section_drawing import RUBBER_TONE, Frame
from pourwright.sheets.svg import ACCENT, GREY, INK, Canvas, fitted, outline, wrapped

WIDTH, TALL, GAP = 510.0, 124.0, 18.0
HEAD, FOOT = 18.0, 40.0
A_ROW = 2
SMALL = 7.0
MASTER, CASTING, CORE = "#f6f1e6", "#f1d9cc", "#f3ead9"
Span = tuple[float, float]


@dataclass(frozen=True, kw_only=True, slots=True)
class AirPicture:
    """One place in a section, up as the liquid rises [m].

    Parameters
    ----------
    title, words : str
        Over and under it.
    body : sequence of outlines
        Master, or cavity.
    casting : bool
        Whether the body is the cavity.
    room : tuple
        Of the rubber: across, and up [m].
    core : sequence of outlines
        What hangs in the cavity.
    air : sequence of outlines
        Caught air; none under a ceiling.
    ceiling : sequence of lines
        A level ceiling cut through.
    vents : sequence of (from, to)
        Middle lines of vents.
    bore : float
        Of a vent [m].
    tilt : float
        By which the right side of the picture is lifted, below 0 the left one [rad].
    covered : float
        Height square to the tilted level at which the place is covered [m].
    chocked : bool
        Whether the box stands on a chock.
    sides : tuple of str
        Names of the sides left and right.
    """

    title: str
    words: str
    body: Sequence[Polyline]
    casting: bool
    room: tuple[Span, Span]
    sides: tuple[str, str]
    core: Sequence[Polyline] = ()
    air: Sequence[Polyline] = ()
    ceiling: Sequence[Polyline] = ()
    vents: Sequence[tuple[tuple[float, float], tuple[float, float]]] = ()
    bore: float = 0.0
    tilt: float = 0.0
    covered: float = 0.0
    chocked: bool = False


def draw_air(title: str, pictures: Sequence[AirPicture]) -> str:
    """Draw the places, two in a row.

    Parameters
    ----------
    title : str
        Of the job.
    pictures : sequence of AirPicture
        One for each place.

    Returns
    -------
    str
        SVG document.
    """
    rows = -(-len(pictures) // A_ROW)
    canvas = Canvas(WIDTH, rows * (HEAD + TALL + FOOT), f"{title}: trapped air")
    room = (WIDTH - GAP * (A_ROW - 1)) / A_ROW
    for number, picture in enumerate(pictures):
        left, top = number % A_ROW * (room + GAP), number // A_ROW * (HEAD + TALL + FOOT)
        _draw(canvas, picture, (left, top, room))
    return canvas.render()


def _draw(canvas: Canvas, picture: AirPicture, place: tuple[float, float, float]) -> None:
    left, top, room = place
    frame = _frame(picture, place)
    canvas.text(left, top + 8.0, fitted(picture.title, room, 8.0), 8.0, font_weight="bold")
    (x0, x1), (z0, z1) = picture.room
    square: Polyline = [(x0, z0), (x1, z0), (x1, z1), (x0, z1)]
    canvas.path(frame.path([square]), fill=RUBBER_TONE, stroke=INK, stroke_width=0.6)
    fill = CASTING if picture.casting else MASTER
    canvas.path(frame.path(picture.body), fill=fill, stroke=INK, stroke_width=0.8, fill_rule="evenodd")
    if picture.core:
        canvas.path(frame.path(picture.core), fill=CORE, stroke=INK, stroke_width=0.8, fill_rule="evenodd")
    if picture.air:
        _hatch(canvas, picture, frame)
    for line in picture.ceiling:
        canvas.curve([(frame.x(x), frame.y(z)) for x, z in line], stroke=ACCENT, stroke_width=2.0)
    _draw_vents(canvas, picture, frame)
    if picture.tilt:
        _draw_tilt(canvas, picture, frame)
    y = frame.y(z0) + 9.0 + _drop(picture) * frame.scale
    canvas.text(frame.x(x0), y, picture.sides[0], SMALL, fill=GREY)
    canvas.text(frame.x(x1), y, picture.sides[1], SMALL, fill=GREY, text_anchor="end")
    for number, text in enumerate(wrapped(picture.words, room, SMALL, 2)):
        canvas.text(left, top + HEAD + TALL + 22.0 + 9.0 * number, text, SMALL)


def _drop(picture: AirPicture) -> float:
    """How far the bench lies below the lifted side [m]."""
    (x0, x1), _ = picture.room
    return (x1 - x0) * abs(sin(picture.tilt)) if picture.chocked else 0.0


def _frame(picture: AirPicture, place: tuple[float, float, float]) -> Frame:
    left, top, room = place
    (x0, x1), (z0, z1) = picture.room
    high = z1 - z0 + _drop(picture)
    scale = min((room - 8.0) / (x1 - x0), (TALL - 8.0) / high)
    floor = top + HEAD + (z1 - z0) * scale
    return Frame(scale, left + room / 2, floor, (x0 + x1) / 2, z0)


def _hatch(canvas: Canvas, picture: AirPicture, frame: Frame) -> None:
    path = frame.path(picture.air)
    canvas.path(path, fill="#ffffff", stroke=ACCENT, stroke_width=0.9, fill_rule="evenodd")
    points = [(frame.x(x), frame.y(z)) for line in picture.air for x, z in line]
    low, high = min(x for x, _ in points), max(x for x, _ in points)
    top, floor = min(y for _, y in points), max(y for _, y in points)
    deep = floor - top
    steps = int((high - low + deep) / 3.2) + 1
    lines = "".join(
        outline([(low - deep + 3.2 * i, floor), (low + 3.2 * i, top)], closed=False) for i in range(steps + 1)
    )
    canvas.path(lines, fill="none", stroke=ACCENT, stroke_width=0.5, clip_path=canvas.clip(path))


def _draw_vents(canvas: Canvas, picture: AirPicture, frame: Frame) -> None:
    wide = max(picture.bore * frame.scale, 1.6)
    for foot, end in picture.vents:
        points = [(frame.x(x), frame.y(z)) for x, z in (foot, end)]
        canvas.curve(points, stroke=INK, stroke_width=wide + 0.8)
        canvas.curve(points, stroke="#ffffff", stroke_width=wide)


def _draw_tilt(canvas: Canvas, picture: AirPicture, frame: Frame) -> None:
    """The liquid's level and the bench, both tilted as the mold sees them."""
    (x0, x1), (z0, z1) = picture.room
    ends = [(x, (picture.covered - x * sin(picture.tilt)) / cos(picture.tilt)) for x in (x0, x1)]
    room = frame.path([[(x0, z0), (x1, z0), (x1, z1), (x0, z1)]])
    level = outline([(frame.x(x), frame.y(z)) for x, z in ends], closed=False)
    canvas.path(
        level, fill="none", stroke=ACCENT, stroke_width=0.9, stroke_dasharray="4 2.5",
        clip_path=canvas.clip(room),
    )  # fmt: skip
    if not picture.chocked:
        return
    low, lifted = (x0, x1) if picture.tilt > 0 else (x1, x0)
    drop, inward = _drop(picture), 0.08 * (low - lifted)
    bench = [(low, z0), (lifted, z0 - drop)]
    canvas.curve([(frame.x(x), frame.y(z)) for x, z in bench], stroke=INK, stroke_width=0.9)
    foot = z0 - drop * (1.0 - 0.08)
    block: Polyline = [(lifted, z0), (lifted, z0 - drop), (lifted + inward, foot), (lifted + inward, z0)]
    canvas.path(frame.path([block]), fill="#b9b2a6", stroke=INK, stroke_width=0.5)
