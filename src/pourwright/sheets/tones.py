"""A tone and a pattern for each kind of fill, told apart in colour and in grey."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from types import MappingProxyType

from pourwright.jobs.plan import Band
from pourwright.sheets.svg import number

Frame = tuple[float, float, float, float]
GROUND = "#dadada"
NEAT = "#f7f5ef"
COLOURS = MappingProxyType(
    {
        "green": "#a9c7a2",
        "olive": "#bcc394",
        "amber": "#e2bd78",
        "brown": "#c29a76",
        "blue": "#a3c0dc",
        "aqua": "#aed6d6",
        "turquoise": "#9fd0cf",
        "clear": "#e6edf0",
        "white": "#eeeeee",
        "black": "#8f8f8f",
        "red": "#dba49a",
        "rose": "#e6c1c4",
        "pink": "#e6c1c4",
        "yellow": "#ecdc96",
        "violet": "#c4b3d8",
        "purple": "#c4b3d8",
        "grey": "#c4c4c4",
        "gray": "#c4c4c4",
    }
)


@dataclass(frozen=True, slots=True)
class Tone:
    """How one kind of fill is drawn: ground colour and pattern by name, '' for none."""

    ground: str
    pattern: str


def tones_of(bands: Iterable[Band]) -> dict[tuple[str | None, str | None], Tone]:
    """Give each grade and colour its tone, in the order they first lie in the mold.

    Parameters
    ----------
    bands : iterable of Band
        Bands of the plan.

    Returns
    -------
    dict
        Tone by (grade, colour).
    """
    names = list(PATTERNS)
    tones: dict[tuple[str | None, str | None], Tone] = {}
    glass = 0
    for band in bands:
        key = (band.grade, band.colour)
        if key in tones:
            continue
        if band.kind == "neat":
            tones[key] = Tone(NEAT, "")
        else:
            tones[key] = Tone(colour_tone(band.colour), names[glass % len(names)])
            glass += 1
    return tones


def colour_tone(colour: str | None) -> str:
    """Ground of a colour by its name; a plain grey where the name says none.

    Parameters
    ----------
    colour : str or None
        As the maker calls it.

    Returns
    -------
    str
        Colour of the drawing.
    """
    words = (colour or "").lower().replace("-", " ").split()
    return next((COLOURS[word] for word in words if word in COLOURS), GROUND)


def pattern_path(name: str, frame: Frame) -> str:
    """Path data of a pattern that covers a box; to be stroked, and clipped to the shape.

    Parameters
    ----------
    name : str
        One of `PATTERNS`.
    frame : tuple of float
        Left, top, right, bottom [pt].

    Returns
    -------
    str
        Path data.
    """
    return PATTERNS[name](frame)


# viewers leave seams between the tiles of an SVG pattern, so each mark is drawn
def _lattice(frame: Frame, step: float) -> list[tuple[float, float, int]]:
    left, top, right, bottom = frame
    columns, rows = int((right - left) / step) + 2, int((bottom - top) / step) + 2
    return [
        (left + (column + 0.5 * (row % 2)) * step, top + row * step, 7 * column + 13 * row)
        for row in range(rows)
        for column in range(columns)
    ]


def _chips(frame: Frame) -> str:
    # shards turned by a fixed pattern, so that the same plan gives the same ink
    turns = ((3.4, 0.8, 1.2, 3.0), (0.6, 3.2, 3.3, 1.6), (3.0, -1.6, 2.6, 2.0), (1.4, 2.8, 3.6, 0.2))
    marks = []
    for x, y, seed in _lattice(frame, 7.0):
        a, b, c, d = turns[seed % 4]
        marks.append(f"M{number(x)} {number(y)}l{a} {b}L{number(x + c)} {number(y + d)}Z")
    return "".join(marks)


def _dots(frame: Frame) -> str:
    return "".join(f"M{number(x)} {number(y)}h0.9" for x, y, _ in _lattice(frame, 3.6))


def _slope(direction: int) -> Callable[[Frame], str]:
    def lines(frame: Frame) -> str:
        left, top, right, bottom = frame
        height = bottom - top
        start, end = (top, bottom) if direction > 0 else (bottom, top)
        count = int((right - left + height) / 5.0) + 1
        begins = (left - height + 5.0 * i for i in range(count))
        return "".join(f"M{number(x)} {number(start)}L{number(x + height)} {number(end)}" for x in begins)

    return lines


def _dashes(frame: Frame) -> str:
    return "".join(f"M{number(x)} {number(y)}h3.2" for x, y, _ in _lattice(frame, 5.6))


def _ticks(frame: Frame) -> str:
    return "".join(f"M{number(x)} {number(y)}v2.8" for x, y, _ in _lattice(frame, 4.8))


def _crosses(frame: Frame) -> str:
    return "".join(f"M{number(x)} {number(y)}h2.8m-1.4 -1.4v2.8" for x, y, _ in _lattice(frame, 6.2))


PATTERNS: MappingProxyType[str, Callable[[Frame], str]] = MappingProxyType(
    {
        "chips": _chips,
        "dots": _dots,
        "falling lines": _slope(1),
        "dashes": _dashes,
        "rising lines": _slope(-1),
        "crosses": _crosses,
        "ticks": _ticks,
    }
)
