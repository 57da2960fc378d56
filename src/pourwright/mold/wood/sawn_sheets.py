"""Sheets and bars as they are sawn: what lies where, every cut in order, and what is left over."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from pourwright.materials.records import Board
from pourwright.mold.wood.stock import BarStock, Sheet


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A part where it lies on its sheet [m]: x along the sheet, y across it, from its left lower corner.

    Parameters
    ----------
    mark : str
        Of the part.
    x, y : float
        Of its left lower corner.
    length, width : float
        Along x and along y, as it leaves the saw.
    turned : bool
        Whether its own length runs across the sheet.
    """

    mark: str
    x: float
    y: float
    length: float
    width: float
    turned: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SawCut:
    """One cut through the piece in hand, from edge to edge.

    Parameters
    ----------
    piece : str
        What is in hand: "sheet", "bar", "piece 2".
    length, width : float
        Of the piece in hand, along and across the sheet [m].
    x, y : float
        Where the cut begins on its sheet, and runs along or up from; along its bar [m].
    way : str
        "rip": along the sheet's length, and so along its grain where it has one; "crosscut": across it.
    measure : float
        Width or length of what the cut gives first, from the piece's lower or left edge; of a cut that
        trims, what comes off, the blade included [m].
    gives : tuple of str
        What it gives: a part's mark, "piece 3", "left 1"; the first is the one that was measured.
    trims : bool
        Whether it only trims an edge.
    """

    piece: str
    length: float
    width: float
    x: float
    y: float
    way: Literal["rip", "crosscut"]
    measure: float
    gives: tuple[str, ...]
    trims: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Left:
    """A piece that is left over, where it lies [m]."""

    name: str
    x: float
    y: float
    length: float
    width: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SawnSheet:
    """One sheet, the how manieth of its kind, with its parts, its cuts, and what is left, largest first."""

    sheet: Sheet
    number: int
    placed: tuple[Placed, ...]
    cuts: tuple[SawCut, ...]
    left: tuple[Left, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetGroup:
    """All parts of one board and thickness.

    Parameters
    ----------
    board : Board
        What they are sawn from.
    thickness : float
        [m].
    sheets : tuple of SawnSheet
        Those that are begun.
    bound : int
        Least number of whole sheets that any plan needs for the area, once the offcuts are full.
    proven : bool
        Whether no plan needs fewer whole sheets.
    used : float
        Share of the area of the begun sheets that becomes parts.
    assumed : bool
        Whether the shop states no such sheet, so that whole sheets of the board's usual size are taken.
    """

    board: Board
    thickness: float
    sheets: tuple[SawnSheet, ...]
    bound: int
    proven: bool
    used: float
    assumed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class BarPiece:
    """A part on its bar: where it begins, and how long it is sawn [m]."""

    mark: str
    start: float
    length: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SawnBar:
    """One bar, the how manieth of its kind, with its parts, its cuts, and the length that is left [m]."""

    bar: BarStock
    number: int
    pieces: tuple[BarPiece, ...]
    cuts: tuple[SawCut, ...]
    left: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BarGroup:
    """All parts from bars of one board and section [m]; the rest as for `SheetGroup`."""

    board: Board
    width: float
    thickness: float
    bars: tuple[SawnBar, ...]
    bound: int
    proven: bool
    used: float
    assumed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Sawn:
    """Everything that is sawn, by board and thickness, and what had to be assumed, in words."""

    groups: tuple[SheetGroup, ...]
    bars: tuple[BarGroup, ...]
    notes: tuple[str, ...]
