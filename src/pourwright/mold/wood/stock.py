"""Sheets, offcuts and bars that lie in the shop, and the saw that cuts them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem, format_length
from pourwright.mold.wood.defaults import WOOD

Grain = Literal["length", "none"]
_PLAIN = ("mdf", "melamine-board")
"""Boards of fibres or chips that lie in no direction."""
_LONGEST = 20.0
"""No board or bar that one person saws is longer [m]; common practice, no source."""


def grain_of(board: str) -> Grain:
    """Which way the grain of a board's sheets runs, by its id; common practice.

    Parameters
    ----------
    board : str
        Its id.

    Returns
    -------
    str
        "length" or "none".

    Examples
    --------
    >>> grain_of("mdf"), grain_of("plywood")
    ('none', 'length')
    """
    return "none" if board in _PLAIN else "length"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A sheet or an offcut, so many of the same.

    Parameters
    ----------
    name : str
        As the shop calls it.
    board : str
        Id of the board that it is of.
    thickness, length, width : float
        [m].
    count : int
        How many there are.
    offcut : bool
        Used up before a whole sheet is begun.
    grain : str
        "length": it runs along the sheet's length; "none": there is none to mind.
    """

    name: str
    board: str
    thickness: float
    length: float
    width: float
    count: int = 1
    offcut: bool = False
    grain: Grain = "length"


@dataclass(frozen=True, slots=True, kw_only=True)
class BarStock:
    """A bar that is only cut to length, so many of the same; sizes in [m]."""

    name: str
    board: str
    width: float
    thickness: float
    length: float
    count: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class SawSetup:
    """What the blade takes, and what comes off every edge of a sheet and end of a bar first [m]."""

    kerf: float = WOOD["kerf"].value
    trim: float = WOOD["trim"].value


def refuse_stock(
    sheets: Sequence[Sheet], bars: Sequence[BarStock], saw: SawSetup, system: UnitSystem
) -> None:
    """Refuse stock that cannot lie in any shop, and a saw that cuts nothing.

    Parameters
    ----------
    sheets, bars : sequence
        What is there.
    saw : SawSetup
        What cuts it.
    system : UnitSystem
        Of the words.

    Raises
    ------
    UserError
        With the name of the sheet or bar.
    """
    for name, side, size in _sides(sheets, bars):
        if not math.isfinite(size) or size <= 0:
            raise UserError(f"a {side} of {_told(size, system)}", where=name, allowed="a length above 0")
        if size > _LONGEST:
            what, allowed = f"a {side} of {_told(size, system)}", f"up to {_told(_LONGEST, system)}"
            raise UserError(what, where=name, allowed=allowed, todo="check its unit")
    counts = [(each.name, each.count) for each in sheets] + [(each.name, each.count) for each in bars]
    for name, count in counts:
        if count < 1:
            what = f"a count of {count}"
            raise UserError(what, where=name, allowed="1 or more", todo="take out what is used up")
    for side, size in (("kerf", saw.kerf), ("trim", saw.trim)):
        if not math.isfinite(size) or size < 0:
            raise UserError(f"a {side} of {_told(size, system)}", where="saw", allowed="0 or a length")


def _sides(sheets: Sequence[Sheet], bars: Sequence[BarStock]) -> Iterator[tuple[str, str, float]]:
    every: list[Sheet | BarStock] = [*sheets, *bars]
    for stock in every:
        yield stock.name, "length", stock.length
        yield stock.name, "width", stock.width
        yield stock.name, "thickness", stock.thickness


def _told(size: float, system: UnitSystem) -> str:
    return format_length(size, system) if math.isfinite(size) else f"{size:g}"
