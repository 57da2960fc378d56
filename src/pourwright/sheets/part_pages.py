"""Pages that a part is spread over at its true size."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from pourwright.jobs.cut_part import CutPart

PAPERS = {"A4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""Width and height of a page [mm]: ISO 216; ANSI/ASME Y14.1 size A."""
MARGIN, HEAD, FOOT = 10.0, 26.0, 17.0
"""Left white along every edge, and room above and below the part [mm]: common practice, no source."""
OVERLAP = 10.0
"""Shown on both of two pages that join [mm]: common practice, no source."""
ROOM = 2.0
"""Left free round the part [mm]."""
NARROWEST = 170.0
"""Width of a page that holds the control line and its words [mm]."""

Box = tuple[float, float, float, float]
"""Left, lower, right and upper edge in the frame of the part [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One page and what it shows of the part, all [mm].

    Parameters
    ----------
    size : tuple of float
        Width and height of the paper.
    window : Box
        What it shows.
    column, row : int
        From the left and from above, from 0.
    columns, rows : int
        Of all pages.
    """

    size: tuple[float, float]
    window: Box
    column: int = 0
    row: int = 0
    columns: int = 1
    rows: int = 1

    @property
    def name(self) -> str:
        """The page's letter and number: B1 joins A1 at the right, A2 joins it below."""
        return page_name(self.column, self.row)

    @property
    def usable(self) -> Box:
        """The window within the lines along which the pages join."""
        left, low, right, high = self.window
        half = OVERLAP / 2
        return (
            left + half * (self.column > 0),
            low + half * (self.row < self.rows - 1),
            right - half * (self.column < self.columns - 1),
            high - half * (self.row > 0),
        )

    def at(self, x: float, y: float) -> tuple[float, float]:
        """Where a point of the part [mm] lies on the paper, from its left upper corner [mm]."""
        return MARGIN + x - self.window[0], MARGIN + HEAD + self.window[3] - y


def page_name(column: int, row: int) -> str:
    """Name a page by its column and row.

    Parameters
    ----------
    column, row : int
        From 0.

    Returns
    -------
    str

    Examples
    --------
    >>> page_name(1, 0), page_name(27, 2)
    ('B1', 'AB3')
    """
    return f"{page_letters(column)}{row + 1}"


def page_letters(count: int) -> str:
    """Count with letters: A to Z, then AA.

    Parameters
    ----------
    count : int
        From 0.

    Returns
    -------
    str

    Examples
    --------
    >>> page_letters(0), page_letters(26)
    ('A', 'AA')
    """
    letters = ""
    rest = count + 1
    while rest:
        rest, letter = divmod(rest - 1, 26)
        letters = chr(ord("A") + letter) + letters
    return letters


def whole_page(part: CutPart) -> Page:
    """Make one page that is as large as the part needs.

    Parameters
    ----------
    part : CutPart
        The part.

    Returns
    -------
    Page
    """
    left, low, right, high = _region(part, 6 * ROOM)
    wide = max(right - left, NARROWEST - 2 * MARGIN)
    middle = (left + right) / 2
    size = wide + 2 * MARGIN, high - low + 2 * MARGIN + HEAD + FOOT
    return Page(size=size, window=(middle - wide / 2, low, middle + wide / 2, high))


def pages_of(part: CutPart, paper: Literal["A4", "letter"]) -> list[Page]:
    """Spread a part over the fewest pages, upright ones where lying ones need as many.

    Parameters
    ----------
    part : CutPart
        The part.
    paper : str
        Of the shop.

    Returns
    -------
    list of Page
        Row by row from above.
    """
    wide, high = PAPERS[paper]
    return min((_spread(part, (wide, high)), _spread(part, (high, wide))), key=len)


def _region(part: CutPart, room: float) -> Box:
    low = -1000.0 * part.oversize_m - room
    return low, low, 1000.0 * part.length_m - low, 1000.0 * part.width_m - low


def _spread(part: CutPart, size: tuple[float, float]) -> list[Page]:
    left, low, right, high = _region(part, ROOM)
    wide, tall = size[0] - 2 * MARGIN, size[1] - 2 * MARGIN - HEAD - FOOT
    across, down = _starts(left, right, wide), _starts(-high, -low, tall)
    return [
        Page(
            size=size,
            window=(x, -y - tall, x + wide, -y),
            column=i,
            row=j,
            columns=len(across),
            rows=len(down),
        )
        for j, y in enumerate(down)
        for i, x in enumerate(across)
    ]


def _starts(low: float, high: float, room: float) -> list[float]:
    """Where each page begins; all pages together lie in the middle of what they show."""
    step = room - OVERLAP
    count = max(math.ceil((high - low - OVERLAP) / step - 1e-9), 1)
    first = (low + high - (count * step + OVERLAP)) / 2
    return [first + step * i for i in range(count)]
