"""From which sheets and bars the parts come."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.cutting.look import CutLook
from pourwright.jobs.cut_nested import BarPart, LeftPiece, NestedBar, NestedSheet, PlacedPart, SheetCut
from pourwright.jobs.cut_sheet import CutPlan
from pourwright.mold.wood.sawn_sheets import BarGroup, SawCut, SawnBar, SawnSheet, SheetGroup

FOLLOW = (
    "Make the cuts in their order: each goes through the whole piece in hand, from edge to edge. Measure "
    "from the edge that was cut last; the blade's width is allowed for between the parts."
)


def plan_of(look: CutLook) -> CutPlan:
    """Lay every part on the sheets and bars of the shop.

    Parameters
    ----------
    look : CutLook
        With its parts.

    Returns
    -------
    CutPlan

    Raises
    ------
    UserError
        Where the parts cannot be sawn from what is there.
    """
    sawn = look.sawn
    return CutPlan(
        sheets=[sheet_told(look, one, group.board.name) for group in sawn.groups for one in group.sheets],
        bars=[_bar(look, group, one) for group in sawn.bars for one in group.bars],
        words=[FOLLOW, *_words(look), *sawn.notes],
    )


def sheet_told(look: CutLook, one: SawnSheet, board: str) -> NestedSheet:
    """Tell one sheet or offcut with its parts and its cuts.

    Parameters
    ----------
    look : CutLook
        Its saw.
    one : SawnSheet
        The sheet.
    board : str
        Name of its board.

    Returns
    -------
    NestedSheet
    """
    of, saw = one.sheet, look.saw
    share = sum(part.length * part.width for part in one.placed) / (of.length * of.width)
    return NestedSheet(
        name=_name(of.name, one.number, of.count),
        board=board,
        board_id=of.board,
        thickness_m=of.thickness,
        length_m=of.length,
        width_m=of.width,
        offcut=of.offcut,
        trim_m=saw.trim,
        kerf_m=saw.kerf,
        grain="length" if of.grain == "length" else "",
        parts=[
            PlacedPart(mark=p.mark, x_m=p.x, y_m=p.y, length_m=p.length, width_m=p.width, turned=p.turned)
            for p in one.placed
        ],
        cuts=[_cut(number, cut) for number, cut in enumerate(one.cuts, start=1)],
        left=[LeftPiece(x_m=r.x, y_m=r.y, length_m=r.length, width_m=r.width) for r in one.left],
        used_share=share,
    )


def _name(name: str, number: int, count: int) -> str:
    return name if count == 1 else f"{name}, number {number}"


def _cut(number: int, cut: SawCut) -> SheetCut:
    upright = cut.way == "crosscut"
    return SheetCut(
        number=number,
        axis="x" if upright else "y",
        x_m=cut.x,
        y_m=cut.y,
        length_m=cut.width if upright else cut.length,
        at_m=_at(cut, cut.x if upright else cut.y),
        words=f"{cut.piece}: {'trim' if cut.trims else ', '.join(cut.gives)}",
    )


def _at(cut: SawCut, begins: float) -> float:
    """From the left or lower edge; the far edges are trimmed at the fence, from those trimmed first."""
    return begins - cut.measure if cut.trims and begins > cut.measure else cut.measure


def _bar(look: CutLook, group: BarGroup, one: SawnBar) -> NestedBar:
    of, saw = one.bar, look.saw
    return NestedBar(
        name=_name(of.name, one.number, of.count),
        board=group.board.name,
        thickness_m=of.thickness,
        width_m=of.width,
        length_m=of.length,
        trim_m=saw.trim,
        kerf_m=saw.kerf,
        parts=[BarPart(mark=each.mark, x_m=each.start, length_m=each.length) for each in one.pieces],
        left_m=one.left,
        used_share=sum(each.length for each in one.pieces) / of.length,
    )


def _words(look: CutLook) -> Iterator[str]:
    """Say how good each group is."""
    for group in look.sawn.groups:
        of = f"{group.board.name}, {look.length(group.thickness)}"
        whole = sum(not one.sheet.offcut for one in group.sheets)
        offcuts = len(group.sheets) - whole
        told = " and ".join(filter(None, [_count(whole, "sheet"), _count(offcuts, "offcut")]))
        yield f"{of}: {told}, {100 * group.used:.0f} % of it becomes parts; {_sure(group)}."


def _sure(group: SheetGroup) -> str:
    if group.proven:
        return "no plan needs fewer sheets"
    if group.bound == 0:
        return "by area the offcuts alone might do, but no such plan was found"
    return f"by area no fewer than {_count(group.bound, 'sheet')} would do"


def _count(number: int, name: str) -> str:
    return "" if not number else f"{number} {name}" if number == 1 else f"{number} {name}s"
