"""All parts of wood out of the sheets and bars of the shop."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem, format_length
from pourwright.geometry.nesting.asked import Part, Saw
from pourwright.geometry.nesting.sheets import nest_most
from pourwright.mold.wood.laid import DIGITS, asked_of, sawn_sheets, stock_of, thickness_of
from pourwright.mold.wood.part import WoodPart
from pourwright.mold.wood.sawn_bars import saw_bars
from pourwright.mold.wood.sawn_sheets import BarGroup, Sawn, SheetGroup
from pourwright.mold.wood.stock import BarStock, SawSetup, Sheet, grain_of, refuse_stock
from pourwright.mold.wood.too_large import refuse_too_large, refuse_wide_kerf, told


def nest_wood(
    parts: Sequence[WoodPart],
    sheets: Sequence[Sheet],
    bars: Sequence[BarStock],
    saw: SawSetup,
    system: UnitSystem,
    seed: int = 0,
) -> Sawn:
    """Lay out every part on a sheet of its board and thickness, or along a bar of its section.

    Where the shop states no such sheet, whole sheets of the board's usual size are taken, as many as are
    needed; no such bar, bars as sold. A sheet without grain lets every part turn.

    Parameters
    ----------
    parts : sequence of WoodPart
        All of them are sawn; each with a mark of its own.
    sheets, bars : sequence
        What is there.
    saw : SawSetup
        Kerf and trim.
    system : UnitSystem
        Of the words.
    seed : int
        The same seed gives the same plan.

    Returns
    -------
    Sawn

    Raises
    ------
    UserError
        For two parts of one mark, stock that cannot be, a kerf wider than a part, a part that no sheet or
        bar holds, grain that cannot be kept, and too little stock; always with the mark and what to do.
    """
    _refuse_same_mark(parts)
    refuse_stock(sheets, bars, saw, system)
    refuse_wide_kerf(parts, saw, system)
    groups: dict[tuple[str, float], list[WoodPart]] = {}
    along: dict[tuple[str, float, float], list[WoodPart]] = {}
    for part in parts:
        if part.bar:
            along.setdefault((part.board.id, *_section(part.width, part.thickness)), []).append(part)
        else:
            groups.setdefault((part.board.id, thickness_of(part, sheets)), []).append(part)
    sawn = tuple(
        _sheet_group(some, thick, _sheets_for(board, thick, sheets), saw, system, seed)
        for (board, thick), some in groups.items()
    )
    lengths = tuple(saw_bars(some, _bars_for(some[0], bars), saw, system) for some in along.values())
    return Sawn(groups=sawn, bars=lengths, notes=tuple(_notes(sawn, lengths, sheets, system)))


def _refuse_same_mark(parts: Sequence[WoodPart]) -> None:
    for mark, count in Counter(part.mark for part in parts).items():
        if count > 1:
            raise UserError(f"{count} parts have this mark", where=mark, allowed="a mark of its own for each")


def _section(width: float, thickness: float) -> tuple[float, float]:
    """Two sides of a bar, whichever way it lies."""
    low, high = sorted((round(width, DIGITS), round(thickness, DIGITS)))
    return low, high


def _sheets_for(board: str, thick: float, sheets: Sequence[Sheet]) -> list[Sheet]:
    return [each for each in sheets if (each.board, round(each.thickness, DIGITS)) == (board, thick)]


def _bars_for(part: WoodPart, bars: Sequence[BarStock]) -> list[BarStock]:
    section = _section(part.width, part.thickness)
    return [b for b in bars if b.board == part.board.id and _section(b.width, b.thickness) == section]


def _notes(
    groups: Sequence[SheetGroup], bars: Sequence[BarGroup], sheets: Sequence[Sheet], system: UnitSystem
) -> Iterator[str]:
    for group in groups:
        if group.assumed:
            sheet = group.sheets[0].sheet
            of, size = _named(group, system), told((sheet.length, sheet.width), system)
            yield f"No sheet of {of} is stated: whole sheets of {size} are taken, as many as are needed."
            others = {round(each.thickness, DIGITS) for each in sheets if each.board == sheet.board}
            if others:
                thick = ", ".join(format_length(each, system, digits=1) for each in sorted(others))
                yield f"Those stated are {thick} thick: for a box of them write mold.board_thickness."
    for along in bars:
        if along.assumed:
            of, length = _named(along, system), format_length(along.bars[0].bar.length, system)
            yield f"No bar of {of} is stated: bars of {length} are taken, as many as are needed."


def _named(group: SheetGroup | BarGroup, system: UnitSystem) -> str:
    thick = format_length(group.thickness, system)
    section = f"{format_length(group.width, system)} x {thick}" if isinstance(group, BarGroup) else thick
    return f"{group.board.name} ({section})"


def _usual(part: WoodPart, thick: float, count: int) -> Sheet:
    board = part.board
    return Sheet(
        name=f"whole sheet of {board.name}",
        board=board.id,
        thickness=thick,
        length=board.sheet_length.value,
        width=board.sheet_width.value,
        count=count,
        grain=grain_of(board.id),
    )


def _sheet_group(
    parts: Sequence[WoodPart],
    thick: float,
    sheets: Sequence[Sheet],
    saw: SawSetup,
    system: UnitSystem,
    seed: int,
) -> SheetGroup:
    stated = list(sheets) or [_usual(parts[0], thick, len(parts))]
    refuse_too_large(parts, stated, saw, system)
    asked = [asked_of(part) for part in parts]
    stocks = [stock_of(each, at) for at, each in enumerate(stated)]
    nesting = nest_most(asked, stocks, Saw(saw.kerf, saw.trim), seed)
    if nesting.missing:
        raise _left_over(nesting.missing, f"{parts[0].board.name} ({format_length(thick, system)})")
    cut = sawn_sheets(nesting.sheets, stated, {part.mark: part for part in parts})
    area = sum(part.sawn[0] * part.sawn[1] for part in parts)
    return SheetGroup(
        board=parts[0].board,
        thickness=thick,
        sheets=cut,
        bound=nesting.bound,
        proven=nesting.proven,
        used=area / sum(each.sheet.length * each.sheet.width for each in cut),
        assumed=not sheets,
    )


def _left_over(missing: Sequence[Part], of: str) -> UserError:
    marks = sorted(part.name for part in missing)
    some = ", ".join(marks[:6]) + (f" and {len(marks) - 6} more" if len(marks) > 6 else "")
    todo = "add a sheet or an offcut that holds them; without any stated, as many as needed are taken"
    return UserError(f"the sheets of {of} do not hold all parts: left over {some}", where="sheets", todo=todo)
