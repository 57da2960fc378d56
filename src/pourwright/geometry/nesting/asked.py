"""What is to be cut and what it is cut from, refused where it cannot be."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.foundation.errors import UserError

HAIR = 1e-9


@dataclass(frozen=True, slots=True)
class Part:
    """A rectangle that is wanted [m], so many times; its value counts where not all fit."""

    name: str
    width: float
    height: float
    count: int = 1
    may_turn: bool = False
    value: float | None = None


@dataclass(frozen=True, slots=True)
class Stock:
    """A sheet or an offcut that is there [m], so many times; where it is free, any part may turn."""

    name: str
    width: float
    height: float
    count: int = 1
    offcut: bool = False
    free: bool = False


@dataclass(frozen=True, slots=True)
class Saw:
    """What the blade takes [m] and what is trimmed off every edge of a sheet first [m]."""

    kerf: float = 0.0
    trim: float = 0.0


def sizes_of(part: Part, *, free: bool = False) -> tuple[tuple[float, float], ...]:
    """Return the ways a part may lie, as width and height [m]; a free sheet lets every part turn."""
    straight, turned = (part.width, part.height), (part.height, part.width)
    return (straight, turned) if (part.may_turn or free) and part.width != part.height else (straight,)


def refuse_sizes(named: Sequence[tuple[str, float]], counts: Sequence[tuple[str, int]], saw: Saw) -> None:
    """Refuse sizes that are no lengths, counts below one, and a blade that is none.

    Raises
    ------
    UserError
        With the name of the part or stock.
    """
    for name, size in named:
        if not math.isfinite(size) or size <= 0:
            raise UserError(f"size {size:g} m", where=name, allowed="a length above 0")
    for name, count in counts:
        if count < 1:
            raise UserError(f"count {count}", where=name, allowed="1 or more")
    for name, size in (("kerf", saw.kerf), ("trim", saw.trim)):
        if not math.isfinite(size) or size < 0:
            raise UserError(f"size {size:g} m", where=name, allowed="0 or a length")


def refuse_wide_blade(named: Sequence[tuple[str, float]], saw: Saw) -> None:
    """Refuse a kerf that is wider than a part.

    Raises
    ------
    UserError
        With the name of the part.
    """
    for name, size in named:
        if saw.kerf > size:
            what = f"the kerf of {saw.kerf:g} m is wider than the part's {size:g} m"
            raise UserError(what, where=name, todo="check the unit of the kerf")


def fits(part: Part, stock: Stock, saw: Saw) -> bool:
    """Say whether a part alone goes onto a trimmed sheet."""
    room = stock.width - 2 * saw.trim + HAIR, stock.height - 2 * saw.trim + HAIR
    return any(width <= room[0] and height <= room[1] for width, height in sizes_of(part, free=stock.free))


def refuse(parts: Sequence[Part], stocks: Sequence[Stock], saw: Saw) -> None:
    """Refuse what cannot be nested at all, by name.

    Raises
    ------
    UserError
        For sizes, counts and kerf that cannot be.
    """
    sides = [(part.name, side) for part in parts for side in (part.width, part.height)]
    sheets = [(stock.name, side) for stock in stocks for side in (stock.width, stock.height)]
    counts = [*((part.name, part.count) for part in parts), *((stock.name, stock.count) for stock in stocks)]
    refuse_sizes([*sides, *sheets], counts, saw)
    refuse_wide_blade(sides, saw)
    for part in parts:
        if part.value is not None and not (math.isfinite(part.value) and part.value >= 0):
            raise UserError(f"value {part.value:g}", where=part.name, allowed="0 or more")
