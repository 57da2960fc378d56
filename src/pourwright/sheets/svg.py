"""A small writer of SVG drawings that look the same each time."""

import textwrap
from collections.abc import Iterable, Mapping
from typing import Literal
from xml.sax.saxutils import escape, quoteattr

INK = "#1a1a1a"
GREY = "#6a6a6a"
PALE = "#d4d4d4"
PAPER = "#ffffff"
ACCENT = "#9c3a10"
FONT = "DejaVu Sans Mono, Liberation Mono, Consolas, monospace"
ADVANCE = 0.602
"""Width of one letter of the drawing font as a share of its size."""


def number(value: float) -> str:
    """Write a coordinate with two places and no trailing zeros.

    Parameters
    ----------
    value : float
        Coordinate [pt].

    Returns
    -------
    str
        As SVG reads it.

    Examples
    --------
    >>> number(12.5), number(-0.001)
    ('12.5', '0')
    """
    # a hundredth of a point is finer than any printer
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text


def printable(text: str) -> str:
    """Drop the control characters that neither XML nor paper can hold.

    Parameters
    ----------
    text : str
        Whatever the maker wrote.

    Returns
    -------
    str
        The same on one line.
    """
    return "".join(c if c.isprintable() else " " for c in text)


def text_width(text: str, size: float) -> float:
    """Width of a text in the drawing font.

    Parameters
    ----------
    text : str
        One line.
    size : float
        Size of the letters [pt].

    Returns
    -------
    float
        Width [pt].
    """
    return len(text) * ADVANCE * size


def fitted(text: str, width: float, size: float) -> str:
    """Shorten a text with an ellipsis until it fits.

    Parameters
    ----------
    text : str
        One line.
    width : float
        Room for it [pt].
    size : float
        Size of the letters [pt].

    Returns
    -------
    str
        The text, or its start with an ellipsis.

    Examples
    --------
    >>> fitted("a long name", 30.0, 8.0)
    'a lon…'
    """
    # every letter of the drawing font is equally wide, so counting them measures
    room = int(width / (ADVANCE * size))
    return text if len(text) <= room else text[: max(room - 1, 1)].rstrip() + "…"


def wrapped(text: str, width: float, size: float, most: int) -> list[str]:
    """Break a text into lines between its words; what does not fit ends in an ellipsis.

    Parameters
    ----------
    text : str
        Words.
    width : float
        Room of a line [pt].
    size : float
        Size of the letters [pt].
    most : int
        No more lines than this.

    Returns
    -------
    list of str
        At least one line.

    Examples
    --------
    >>> wrapped("speed of the resin", 50.0, 8.0, 2)
    ['speed of', 'the resin']
    """
    room = max(int(width / (ADVANCE * size)), 2)
    lines = textwrap.wrap(text, room, max_lines=most, placeholder="…") or [""]
    return [fitted(line, width, size) for line in lines]


def outline(points: Iterable[tuple[float, float]], *, closed: bool = True) -> str:
    """Write points as the data of an SVG path.

    Parameters
    ----------
    points : iterable of (x, y)
        Corners [pt].
    closed : bool
        Whether the last point joins the first.

    Returns
    -------
    str
        Path data.
    """
    corners = " L".join(f"{number(x)} {number(y)}" for x, y in points)
    return f"M{corners}{'Z' if closed else ''}"


class Canvas:
    """A drawing on paper, y down, in points, or in millimetres where it is printed at its true size."""

    def __init__(self, width: float, height: float, title: str, unit: Literal["pt", "mm"] = "pt") -> None:
        self.width, self.height, self.title, self.unit = width, height, title, unit
        self._parts: list[str] = []
        self._clips: list[str] = []

    def _add(self, tag: str, attributes: Mapping[str, str | float], body: str = "") -> None:
        self._parts.append(_element(tag, attributes, body))

    def path(self, data: str, **style: str | float) -> None:
        """Draw path data; an attribute's underscore becomes a hyphen."""
        self._add("path", {"d": data, **style})

    def line(self, x1: float, y1: float, x2: float, y2: float, **style: str | float) -> None:
        """Draw one straight line."""
        defaults: dict[str, str | float] = {"stroke": INK, "stroke_width": 0.6}
        self._add("line", {"x1": x1, "y1": y1, "x2": x2, "y2": y2} | defaults | style)

    def curve(self, points: Iterable[tuple[float, float]], **style: str | float) -> None:
        """Draw an open line through points."""
        defaults: dict[str, str | float] = {"fill": "none", "stroke": INK, "stroke_linejoin": "round"}
        self.path(outline(points, closed=False), **(defaults | style))

    def rect(self, x: float, y: float, width: float, height: float, **style: str | float) -> None:
        """Draw a rectangle by its upper left corner."""
        self._add("rect", {"x": x, "y": y, "width": width, "height": height, **style})

    def circle(self, x: float, y: float, radius: float, **style: str | float) -> None:
        """Draw a circle around a point."""
        self._add("circle", {"cx": x, "cy": y, "r": radius, **style})

    def image(self, x: float, y: float, width: float, height: float, link: str) -> None:
        """Put a picture of dots into a rectangle."""
        self._add(
            "image",
            {"x": x, "y": y, "width": width, "height": height, "href": link, "image_rendering": "auto"},
        )

    def text(self, x: float, y: float, words: str, size: float = 8.0, **style: str | float) -> None:
        """Write one line of text on its baseline."""
        defaults: dict[str, str | float] = {"fill": INK, "font_size": size}
        self._add("text", {"x": x, "y": y} | defaults | style, escape(printable(words)))

    def clip(self, data: str) -> str:
        """Keep a shape to clip by.

        Parameters
        ----------
        data : str
            Path data of the shape.

        Returns
        -------
        str
            Value for ``clip_path`` of a path.
        """
        name = f"clip{len(self._clips) + 1}"
        shape = _element("path", {"d": data, "clip_rule": "evenodd"})
        self._clips.append(f'<clipPath id="{name}">{shape}</clipPath>')
        return f"url(#{name})"

    def within(self, outer: str, inner: str, data: str, **style: str | float) -> None:
        """Draw path data clipped by two shapes at once."""
        path = _element("path", {"d": data, "clip_path": inner, **style})
        self._add("g", {"clip_path": outer}, path)

    def render(self) -> str:
        """Write the whole drawing.

        Returns
        -------
        str
            An SVG document that stands alone.
        """
        size = f'width="{number(self.width)}{self.unit}" height="{number(self.height)}{self.unit}"'
        box = f'viewBox="0 0 {number(self.width)} {number(self.height)}"'
        head = f'<svg xmlns="http://www.w3.org/2000/svg" {size} {box} font-family="{FONT}" role="img">'
        lines = [
            '<?xml version="1.0" encoding="UTF-8"?>',
            head,
            f"<title>{escape(printable(self.title))}</title>",
        ]
        if self._clips:
            lines.append("<defs>" + "".join(self._clips) + "</defs>")
        paper = _element("rect", {"width": self.width, "height": self.height, "fill": PAPER})
        return "\n".join([*lines, paper, *self._parts, "</svg>"]) + "\n"


def _element(tag: str, attributes: Mapping[str, str | float], body: str = "") -> str:
    words = [f"{k.replace('_', '-')}={quoteattr(_value(v))}" for k, v in attributes.items()]
    opening = " ".join([tag, *words])
    return f"<{opening}>{body}</{tag}>" if body else f"<{opening}/>"


def _value(value: str | float) -> str:
    return value if isinstance(value, str) else number(value)
