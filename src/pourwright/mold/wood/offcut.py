"""Which of these parts one offcut gives: as much of their wood as straight cuts can take from it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from pourwright.foundation.notation import UnitSystem
from pourwright.geometry.nesting.asked import Part, Saw
from pourwright.geometry.nesting.chosen import choose_parts
from pourwright.geometry.nesting.sheets import CutSheet
from pourwright.geometry.nesting.tree import Piece
from pourwright.mold.wood.laid import asked_of, sawn_sheets, stock_of
from pourwright.mold.wood.part import WoodPart
from pourwright.mold.wood.sawn_sheets import SawnSheet
from pourwright.mold.wood.stock import SawSetup, Sheet, refuse_stock
from pourwright.mold.wood.too_large import refuse_wide_kerf


@dataclass(frozen=True, slots=True, kw_only=True)
class FromOffcut:
    """What an offcut gives.

    Parameters
    ----------
    sheet : SawnSheet
        The offcut with its parts, cuts and rest.
    over : tuple of str
        Marks of the parts that must come from elsewhere.
    proven : bool
        Whether no other straight cuts take more area of parts from it.
    """

    sheet: SawnSheet
    over: tuple[str, ...]
    proven: bool


def parts_from_offcut(
    parts: Sequence[WoodPart], offcut: Sheet, saw: SawSetup, system: UnitSystem, seed: int = 0
) -> FromOffcut:
    """Choose the parts that one offcut gives, so that most of it becomes parts.

    Parameters
    ----------
    parts : sequence of WoodPart
        Of its board and thickness; each with a mark of its own.
    offcut : Sheet
        Its count is not looked at.
    saw : SawSetup
        Kerf and trim.
    system : UnitSystem
        Of the words.
    seed : int
        The same seed gives the same cuts.

    Returns
    -------
    FromOffcut
        Without parts where none fits.

    Raises
    ------
    UserError
        For an offcut that cannot be, and a kerf wider than a part.
    """
    refuse_stock([offcut], [], saw, system)
    refuse_wide_kerf(parts, saw, system)
    alike = _alike(parts)
    asked = [replace(part, count=len(marks)) for part, marks in alike.items()]
    choice = choose_parts(asked, stock_of(offcut, 0), Saw(saw.kerf, saw.trim), seed)
    marks = {part.name: iter(marks) for part, marks in alike.items()}
    cut = CutSheet(choice.sheet, _marked(choice.root, marks))
    (sheet,) = sawn_sheets([cut], [offcut], {part.mark: part for part in parts})
    taken = {placed.mark for placed in sheet.placed}
    over = tuple(part.mark for part in parts if part.mark not in taken)
    return FromOffcut(sheet=sheet, over=over, proven=choice.proven)


def _alike(parts: Sequence[WoodPart]) -> dict[Part, list[str]]:
    """Parts that are sawn alike are one part, so many times: that many fewer ways to try."""
    found: dict[tuple[float, float, bool], tuple[Part, list[str]]] = {}
    for part in parts:
        asked = asked_of(part)
        sides = (asked.width, asked.height)
        key = (*(sorted(sides) if asked.may_turn else sides), asked.may_turn)
        found.setdefault((key[0], key[1], key[2]), (asked, []))[1].append(part.mark)
    return dict(found.values())


def _marked(piece: Piece, marks: Mapping[str, Iterator[str]]) -> Piece:
    """Write the marks into a tree of cuts, in the order of the cuts."""
    part = None if piece.part is None else replace(piece.part, name=next(marks[piece.part.name]))
    return replace(piece, part=part, halves=tuple(_marked(half, marks) for half in piece.halves))
