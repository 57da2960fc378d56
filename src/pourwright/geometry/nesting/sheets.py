"""Parts onto the fewest sheets, offcuts first, by straight cuts from edge to edge."""

from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.foundation.errors import UserError
from pourwright.geometry.nesting.asked import HAIR, Part, Saw, Stock, fits, refuse
from pourwright.geometry.nesting.grown import STARTS, Open, Start, lay_part, opened, starts
from pourwright.geometry.nesting.tree import Cut, Piece, cuts_of, trims_of


@dataclass(frozen=True, slots=True)
class CutSheet:
    """One sheet and the tree of its cuts; its edges are trimmed first."""

    stock: Stock
    root: Piece

    @property
    def placed(self) -> tuple[Piece, ...]:
        """The parts where they lie."""
        return tuple(leaf for leaf in self.root.leaves() if leaf.part is not None)

    @property
    def left(self) -> tuple[Piece, ...]:
        """What is left over, the largest first."""
        rest = [leaf for leaf in self.root.leaves() if leaf.part is None and leaf.area > HAIR]
        return tuple(sorted(rest, key=lambda leaf: -leaf.area))

    @property
    def cuts(self) -> tuple[Cut, ...]:
        """All cuts in the order in which they are made, first those that trim the edges."""
        return (*trims_of(self.stock, self.root.x), *cuts_of(self.root))


@dataclass(frozen=True, slots=True)
class Nesting:
    """Sheets as they are cut, how many any plan needs for its area with the offcuts full; what is missing."""

    sheets: tuple[CutSheet, ...]
    bound: int
    missing: tuple[Part, ...] = ()

    @property
    def full_sheets(self) -> int:
        """Number of sheets that are no offcuts."""
        return sum(not sheet.stock.offcut for sheet in self.sheets)

    @property
    def proven(self) -> bool:
        """Whether no plan needs fewer sheets."""
        return self.full_sheets == self.bound


def nest(
    parts: Sequence[Part], stocks: Sequence[Stock], saw: Saw, seed: int = 0, number: int = STARTS
) -> Nesting:
    """Nest all parts on the fewest sheets; of such plans, the one with the largest piece left over.

    Offcuts come before sheets, small ones before large ones. A part grows by one kerf to the right and
    up, and so does the trimmed sheet: parts that fit so have the blade between them, and none beyond the
    last.

    Parameters
    ----------
    parts : sequence of Part
        All of them are cut.
    stocks : sequence of Stock
        Sheets and offcuts.
    saw : Saw
        Kerf and trim [m].
    seed : int
        The same seed gives the same plan.
    number : int
        Of starts.

    Returns
    -------
    Nesting

    Raises
    ------
    UserError
        For sizes, counts and kerf that cannot be, a part that no sheet holds, and too few sheets.
    """
    refuse(parts, stocks, saw)
    for part in parts:
        if not any(fits(part, stock, saw) for stock in stocks):
            what = f"{part.width:g} x {part.height:g} m is larger than every sheet"
            raise UserError(what, where=part.name, todo="join it from two parts, or add a larger sheet")
    nesting = nest_most(parts, stocks, saw, seed, number)
    if nesting.missing:
        names = ", ".join(sorted({part.name for part in nesting.missing}))
        what = f"not all parts found room on the sheets: {names} left over"
        raise UserError(what, todo="add sheets, or ask for less")
    return nesting


def nest_most(
    parts: Sequence[Part], stocks: Sequence[Stock], saw: Saw, seed: int = 0, number: int = STARTS
) -> Nesting:
    """Nest as `nest` does; where not all parts find room, nest as much of their area as was found.

    Before parts are left over for which there is area enough, four times as many starts are made.

    Parameters
    ----------
    parts, stocks, saw, seed, number
        As for `nest`.

    Returns
    -------
    Nesting
        With what is missing.
    """
    orders = [_in_order(stocks, by_size) for by_size in (1, -1)]
    plans = [_laid(start, order, saw) for start in starts(parts, seed, number) for order in orders]
    if all(plan.missing for plan in plans) and _enough_area(parts, stocks, saw):
        more = starts(parts, seed + 1, 4 * number)
        orders.append(orders[0][::-1])
        plans += [_laid(start, order, saw) for start in more for order in orders]
    best = min(plans, key=_cost)
    sheets = tuple(CutSheet(each.stock, each.root.finished()) for each in best.begun)
    return Nesting(sheets, area_bound(parts, stocks, saw), best.missing)


def _in_order(stocks: Sequence[Stock], by_size: int) -> list[Stock]:
    """Offcuts first, the small ones before; then sheets, the large ones or the small ones before."""
    every = [stock for stock in stocks for _ in range(stock.count)]
    sign = {True: 1, False: -by_size}
    return sorted(
        every, key=lambda stock: (not stock.offcut, sign[stock.offcut] * stock.width * stock.height)
    )


@dataclass(frozen=True, slots=True)
class Laid:
    """The sheets that one start begins, and the parts that found no room."""

    begun: list[Open]
    missing: tuple[Part, ...]


def _laid(start: Start, order: list[Stock], saw: Saw) -> Laid:
    begun: list[Open] = []
    missing: list[Part] = []
    rest = list(order)
    for part in start.order:
        if any(lay_part(part, sheet, start) for sheet in begun):
            continue
        at = next((at for at, stock in enumerate(rest) if fits(part, stock, saw)), None)
        if at is None:
            missing.append(part)
            continue
        begun.append(opened(rest.pop(at), saw))
        lay_part(part, begun[-1], start)
    return Laid(begun, tuple(missing))


def _cost(plan: Laid) -> tuple[float, ...]:
    """Rank a plan: least area missing, fewest sheets, least wood begun, largest piece left."""
    missing = sum(part.width * part.height for part in plan.missing)
    full = [sheet for sheet in plan.begun if not sheet.stock.offcut]
    begun = sum(sheet.stock.width * sheet.stock.height for sheet in full)
    left = max((piece.area for sheet in plan.begun for piece in sheet.free), default=0.0)
    return round(missing, 9), len(full), round(begun, 9), -left


def _enough_area(parts: Sequence[Part], stocks: Sequence[Stock], saw: Saw) -> bool:
    rooms = [(opened(stock, saw).root, stock.count) for stock in stocks]
    return _need(parts, saw) <= sum(n * room.width * room.height for room, n in rooms) + HAIR


def _need(parts: Sequence[Part], saw: Saw) -> float:
    """Area of all parts with their kerf [m2]."""
    return sum(part.count * (part.width + saw.kerf) * (part.height + saw.kerf) for part in parts)


def area_bound(parts: Sequence[Part], stocks: Sequence[Stock], saw: Saw) -> int:
    """Return the least number of full sheets for the parts' area, kerf included, all offcuts being full."""
    need = _need(parts, saw)
    rooms = [(stock, opened(stock, saw).root) for stock in stocks for _ in range(stock.count)]
    need -= sum(room.width * room.height for stock, room in rooms if stock.offcut)
    sizes = sorted((room.width * room.height for stock, room in rooms if not stock.offcut), reverse=True)
    number = 0
    while need > HAIR and number < len(sizes):
        need -= sizes[number]
        number += 1
    return number
