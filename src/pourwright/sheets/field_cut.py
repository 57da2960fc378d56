"""What a picture of a field is made from: the cut, its words, and where it lands on the paper."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.sheets.crossings import Line, within
from pourwright.sheets.svg import outline

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Outlines:
    """What the cut goes through: closed lines, to the right and up [m]."""

    piece: Sequence[Line]
    rubber: Sequence[Line]
    panels: Sequence[Line]


@dataclass(frozen=True, eq=False)
class FieldCut:
    """What is drawn.

    Parameters
    ----------
    across, up : array
        Edges of the cells [m].
    values : array (up, across)
        In the unit that is shown; NaN where there is none.
    outlines : Outlines
        Of piece, rubber and box.
    whole : bool
        Whether rubber and box are coloured too, not the piece alone.
    filled_to : float
        Level of what is in the mold [m]; the piece above it stays white.
    least_step : float
        Smallest step of the scale worth showing.
    """

    across: Array
    up: Array
    values: Array
    outlines: Outlines
    whole: bool
    filled_to: float
    least_step: float

    def zones(self, points: Array) -> NDArray[np.int_]:
        """What coloured thing points (n, 2) [m] lie in: 1 piece, 2 rubber, 3 box; 0 where it is white."""
        around = (self.outlines.panels, self.outlines.rubber) if self.whole else ()
        zones = np.zeros(len(points), dtype=int)
        for number, lines in zip((3, 2), around, strict=False):
            zones[within(lines, points)] = number
        in_piece = within(self.outlines.piece, points)
        zones[in_piece] = np.where(points[in_piece, 1] < self.filled_to, 1, 0)
        return zones


@dataclass(frozen=True)
class Captions:
    """The words of the picture.

    Parameters
    ----------
    owner, title, lines
        Of which piece; what it shows; when, and where the cut lies.
    unit : str
        Of the scale.
    levels : sequence of (height, words)
        Levels to draw [m], lowest first, each with a line or two of text.
    mark : tuple of float
        Place to mark: to the right, up [m].
    mark_lines : tuple of str
        What stands beside it.
    empty : str
        What the part of the piece that is not poured yet is called.
    """

    owner: str
    title: str
    lines: tuple[str, ...]
    unit: str
    levels: Sequence[tuple[float, tuple[str, ...]]]
    mark: tuple[float, float]
    mark_lines: tuple[str, ...]
    empty: str = "not poured yet"


@dataclass(frozen=True, slots=True)
class Frame:
    """Where the cut's metres land on the paper."""

    scale: float
    middle: float
    floor: float
    x_center: float
    z_low: float

    def point(self, place: Iterable[float]) -> tuple[float, float]:
        """Paper place [pt] of a place in the cut [m]."""
        x, z = place
        return self.middle + (x - self.x_center) * self.scale, self.floor - (z - self.z_low) * self.scale

    def path(self, lines: Iterable[Iterable[Iterable[float]]]) -> str:
        """Path data of closed lines [m]."""
        return "".join(outline(map(self.point, line)) for line in lines)
