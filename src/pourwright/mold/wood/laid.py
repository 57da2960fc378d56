"""Between parts and sheets of wood, and the rectangles that are nested."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from pourwright.geometry.nesting.asked import HAIR, Part, Stock
from pourwright.geometry.nesting.sheets import CutSheet
from pourwright.geometry.nesting.tree import Piece
from pourwright.mold.wood.cuts import cuts_and_left
from pourwright.mold.wood.part import WoodPart
from pourwright.mold.wood.sawn_sheets import Placed, SawnSheet
from pourwright.mold.wood.stock import Sheet

# two thicknesses are one where they are as near as this many digits of a metre tell
DIGITS = 5


def thickness_of(part: WoodPart, sheets: Sequence[Sheet]) -> float:
    """Tell how thick the board is that a part is sawn from [m].

    Parameters
    ----------
    part : WoodPart
        What is planed comes out of its whole board, unless the shop has one as thin.
    sheets : sequence of Sheet
        That the shop has.

    Returns
    -------
    float
        Rounded, to be compared.
    """
    thin = round(part.thickness, DIGITS)
    there = any((each.board, round(each.thickness, DIGITS)) == (part.board.id, thin) for each in sheets)
    return thin if there or not part.planed_from else round(part.planed_from, DIGITS)


def asked_of(part: WoodPart) -> Part:
    """Lay a part so that its grain runs along the sheet."""
    length, width = part.sawn[::-1] if part.grain == "width" else part.sawn
    return Part(part.mark, length, width, may_turn=part.grain == "any")


def stock_of(sheet: Sheet, at: int) -> Stock:
    """Call a sheet by its place in the list."""
    return Stock(str(at), sheet.length, sheet.width, sheet.count, sheet.offcut, sheet.grain == "none")


def sawn_sheets(
    cut: Sequence[CutSheet], sheets: Sequence[Sheet], parts: Mapping[str, WoodPart]
) -> tuple[SawnSheet, ...]:
    """Tell sheets as they are sawn, from stock that is called by its place in the list.

    Parameters
    ----------
    cut : sequence of CutSheet
        As they were nested.
    sheets : sequence of Sheet
        The list.
    parts : Mapping
        By their marks.

    Returns
    -------
    tuple of SawnSheet
    """
    seen: Counter[str] = Counter()
    sawn = []
    for each in cut:
        seen[each.stock.name] += 1
        cuts, left = cuts_and_left(each)
        placed = tuple(_placed(piece, parts) for piece in each.placed)
        sheet, number = sheets[int(each.stock.name)], seen[each.stock.name]
        sawn.append(SawnSheet(sheet=sheet, number=number, placed=placed, cuts=cuts, left=left))
    return tuple(sawn)


def _placed(piece: Piece, parts: Mapping[str, WoodPart]) -> Placed:
    mark = piece.part.name if piece.part is not None else ""
    # of parts that are sawn alike one may have its length where another has its width
    across = abs(piece.size[0] - parts[mark].sawn[0]) > HAIR
    turned = across if parts[mark].grain == "any" else piece.turned != (parts[mark].grain == "width")
    length, width = parts[mark].sawn[::-1] if turned else parts[mark].sawn
    return Placed(mark=mark, x=piece.x, y=piece.y, length=length, width=width, turned=turned)
