"""The ways of making a mold side by side, each cut through while its rubber is poured."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.jobs.plan_part import Polyline
from pourwright.sheets.svg import ACCENT, GREY, INK, PAPER, Canvas, fitted, outline, wrapped

WIDTH = 510.0
A_ROW = 4
TALL = 122.0
HEAD, FOOT = 28.0, 26.0
GAP = 14.0
RUBBER, BOARD, CLAY, SHELL, WOOD = "#e9e9e9", "#b9b2a6", "#d8c3a5", "#c9c9c9", "#e3d3b4"
SMALL = 6.6

Rect = tuple[float, float, float, float]


@dataclass(frozen=True, kw_only=True)
class WayPicture:
    """One way, in its own metres: z up while the rubber is poured, 0 on the box's floor.

    Parameters
    ----------
    title : str
        Its name.
    lines : tuple of str
        What is written under it.
    piece : list of outlines
        The master, cut through, outer and inner outlines.
    box : tuple of float
        Inside of the box: left, bottom, right, top [m]; the board alone where there is no wall.
    thickness : float
        Of the board [m].
    blocks : tuple of tuple of float
        Wood in the section, as ``box``.
    clay_to : float
        Level of the clay bed [m]; 0 for none.
    skin, shell : float
        Thickness of rubber and shell around the master [m]; 0 for a box full of rubber.
    bars : bool
        Whether the master hangs.
    taken : bool
        Whether it is the recommended one.
    possible : bool
        Whether it can be made.
    """

    title: str
    lines: tuple[str, ...]
    piece: list[Polyline]
    box: Rect
    thickness: float
    blocks: tuple[Rect, ...] = ()
    clay_to: float = 0.0
    skin: float = 0.0
    shell: float = 0.0
    bars: bool = False
    taken: bool = False
    possible: bool = True


@dataclass(frozen=True, slots=True)
class _Place:
    """Where metres land on the paper."""

    left: float
    floor: float
    scale: float

    def rect(self, canvas: Canvas, box: Rect, fill: str, **style: str | float) -> None:
        """Fill a rectangle given by its corners [m]."""
        x0, z0, x1, z1 = box
        x, y = self.at(x0, z1)
        looks: dict[str, str | float] = {"fill": fill, "stroke": INK, "stroke_width": 0.5}
        canvas.rect(x, y, (x1 - x0) * self.scale, (z1 - z0) * self.scale, **(looks | style))

    def at(self, x: float, z: float) -> tuple[float, float]:
        """A point on the paper."""
        return self.left + x * self.scale, self.floor - z * self.scale

    def path(self, lines: Sequence[Polyline]) -> str:
        """Path data of closed outlines."""
        return "".join(outline(self.at(x, z) for x, z in line) for line in lines)


def draw_ways(title: str, pictures: Sequence[WayPicture]) -> str:
    """Draw the ways side by side, four in a row.

    Parameters
    ----------
    title : str
        Of the job.
    pictures : sequence of WayPicture
        One for each way.

    Returns
    -------
    str
        SVG document.
    """
    rows = -(-len(pictures) // A_ROW)
    across = min(len(pictures), A_ROW) if rows == 1 else -(-len(pictures) // rows)
    row, room = HEAD + TALL + FOOT, WIDTH / across
    canvas = Canvas(WIDTH, rows * row, f"{title}: ways of making the mold")
    scale = min(_scale(picture, room) for picture in pictures)
    for number, picture in enumerate(pictures):
        left, top = number % across * room, number // across * row
        _draw(canvas, picture, number + 1, (left, top, room), scale)
    return canvas.render()


def _scale(picture: WayPicture, room: float) -> float:
    x0, z0, x1, z1 = picture.box
    wide = x1 - x0 + 2 * picture.thickness
    high = z1 - z0 + 2 * picture.thickness
    return min((room - GAP) / wide, TALL / high)


def _draw(
    canvas: Canvas, picture: WayPicture, number: int, at: tuple[float, float, float], scale: float
) -> None:
    left, top, room = at
    ink = ACCENT if picture.taken else INK if picture.possible else GREY
    weight = "bold" if picture.taken else "normal"
    for line, text in enumerate(wrapped(f"{number}  {picture.title}", room - 6.0, 7.4, 2)):
        canvas.text(left + 4.0, top + 9.0 + 9.0 * line, text, 7.4, fill=ink, font_weight=weight)
    floor = top + HEAD + TALL - picture.thickness * scale
    place = _Place(left + room / 2 - (picture.box[0] + picture.box[2]) / 2 * scale, floor, scale)
    _mold(canvas, picture, place)
    canvas.path(place.path(picture.piece), fill=PAPER, stroke=ink, stroke_width=1.0, fill_rule="evenodd")
    for line, text in enumerate(picture.lines):
        y = top + HEAD + TALL + 9.0 + 8.0 * line
        canvas.text(left + 4.0, y, fitted(text, room - 6.0, SMALL), SMALL, fill=ink)


def _mold(canvas: Canvas, picture: WayPicture, place: _Place) -> None:
    x0, z0, x1, z1 = picture.box
    t = picture.thickness
    place.rect(canvas, (x0 - t, z0 - t, x1 + t, z0), BOARD)
    if picture.skin:
        _skin(canvas, picture, place)
        return
    place.rect(canvas, picture.box, RUBBER)
    if picture.clay_to:
        place.rect(canvas, (x0, z0, x1, picture.clay_to), CLAY)
    for side in ((x0 - t, z0, x0, z1), (x1, z0, x1 + t, z1)):
        place.rect(canvas, side, BOARD)
    for block in picture.blocks:
        place.rect(canvas, block, WOOD)
    if picture.bars:
        place.rect(canvas, (x0 - t, z1, x1 + t, z1 + 0.6 * t), BOARD)


def _skin(canvas: Canvas, picture: WayPicture, place: _Place) -> None:
    """Stroke the outline twice: what lies outside the master and above the board is skin and shell."""
    x0, z0, x1, z1 = picture.box
    corners = [place.at(x, z) for x, z in ((x0, z0), (x1, z0), (x1, z1), (x0, z1))]
    above = canvas.clip(outline(corners))
    data = place.path(picture.piece[:1])
    for width, tone in ((picture.skin + picture.shell, SHELL), (picture.skin, RUBBER)):
        for edge, fill in ((0.8, INK), (0.0, tone)):
            canvas.path(
                data,
                fill=fill,
                stroke=fill,
                stroke_width=2 * width * place.scale + edge,
                stroke_linejoin="round",
                clip_path=above,
            )
