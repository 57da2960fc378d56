"""The cuts of one sheet as a person makes them: every piece has a name while it is in hand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal

from pourwright.geometry.nesting.asked import HAIR
from pourwright.geometry.nesting.sheets import CutSheet
from pourwright.geometry.nesting.tree import Axis, Piece, trims_of
from pourwright.mold.wood.sawn_sheets import Left, SawCut

WAYS: Mapping[Axis, Literal["rip", "crosscut"]] = {"y": "rip", "x": "crosscut"}
Names = Mapping[int, str]


def cuts_and_left(sheet: CutSheet) -> tuple[tuple[SawCut, ...], tuple[Left, ...]]:
    """Name every piece of a sheet, and tell its cuts and what is left over.

    Parameters
    ----------
    sheet : CutSheet
        As it was nested.

    Returns
    -------
    tuple
        Cuts in the order in which they are made, those that trim first; what is left, the largest first.
    """
    names = _names(sheet)
    trims = [
        SawCut(
            piece="sheet",
            length=cut.piece[0],
            width=cut.piece[1],
            x=x,
            y=y,
            way=WAYS[cut.axis],
            measure=cut.at,
            gives=("sheet",),
            trims=True,
        )
        for cut, (x, y) in zip(trims_of(sheet.stock, sheet.root.x), _edges(sheet), strict=False)
    ]
    left = tuple(
        Left(name=names[id(each)], x=each.x, y=each.y, length=each.size[0], width=each.size[1])
        for each in sheet.left
    )
    return (*trims, *_cuts(sheet.root, names)), left


def _edges(sheet: CutSheet) -> tuple[tuple[float, float], ...]:
    """Where the cuts begin that trim a sheet: lower, upper, left and right edge."""
    trim, wide, high = sheet.root.x, sheet.stock.width, sheet.stock.height
    return (0.0, trim), (0.0, high - trim), (trim, trim), (wide - trim, trim)


def _names(sheet: CutSheet) -> Names:
    names = {id(sheet.root): "sheet"}
    number = 1
    for piece in _inner(sheet.root):
        if piece is not sheet.root:
            number += 1
            names[id(piece)] = f"piece {number}"
    names |= {id(each): each.part.name for each in sheet.placed if each.part is not None}
    return names | {id(each): f"left {at}" for at, each in enumerate(sheet.left, 1)}


def _inner(piece: Piece) -> Iterator[Piece]:
    """Yield the pieces that are cut further, in the order in which they come into the hand."""
    if piece.axis is not None:
        yield piece
    for half in piece.halves:
        yield from _inner(half)


def _cuts(piece: Piece, names: Names) -> Iterator[SawCut]:
    if piece.axis is None:
        return
    first = piece.halves[0].size
    upright = piece.axis == "x"
    yield SawCut(
        piece=names[id(piece)],
        length=piece.size[0],
        width=piece.size[1],
        x=piece.x + first[0] * upright,
        y=piece.y + first[1] * (not upright),
        way=WAYS[piece.axis],
        measure=first[0 if upright else 1],
        gives=tuple(names[id(half)] for half in piece.halves if half.area > HAIR),
    )
    for half in piece.halves:
        yield from _cuts(half, names)
