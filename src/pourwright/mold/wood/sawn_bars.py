"""Parts out of bars: equal lengths are one demand, and get their marks again when the bars are cut."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem, format_length
from pourwright.geometry.nesting.asked import HAIR, Saw
from pourwright.geometry.nesting.bars import BarPlan, CutBar, Length, cut_bars
from pourwright.mold.wood.defaults import WOOD
from pourwright.mold.wood.part import WoodPart
from pourwright.mold.wood.sawn_sheets import BarGroup, BarPiece, SawCut, SawnBar
from pourwright.mold.wood.stock import BarStock, SawSetup
from pourwright.mold.wood.too_large import refuse_too_long


def saw_bars(
    parts: Sequence[WoodPart], bars: Sequence[BarStock], saw: SawSetup, system: UnitSystem
) -> BarGroup:
    """Saw parts of one board and section from the fewest bars.

    Parameters
    ----------
    parts : sequence of WoodPart
        At least one.
    bars : sequence of BarStock
        Of the same section; empty: bars as sold, as many as are needed.
    saw : SawSetup
        Kerf and trim.
    system : UnitSystem
        Of the words.

    Returns
    -------
    BarGroup

    Raises
    ------
    UserError
        For a part that is longer than every bar, and too few bars.
    """
    stated = list(bars) or [_usual(parts[0], len(parts))]
    refuse_too_long(parts, stated, saw, system)
    plan = _plan(parts, stated, saw, system)
    marks: dict[float, list[str]] = {}
    for part in reversed(parts):
        marks.setdefault(round(part.sawn[0], 6), []).append(part.mark)
    cut = _sawn(plan.bars, stated, marks, saw)
    return BarGroup(
        board=parts[0].board,
        width=parts[0].width,
        thickness=parts[0].thickness,
        bars=cut,
        bound=plan.bound,
        proven=plan.proven,
        used=sum(part.sawn[0] for part in parts) / sum(each.bar.length for each in cut),
        assumed=not bars,
    )


def _usual(part: WoodPart, count: int) -> BarStock:
    return BarStock(
        name=f"bar of {part.board.name}",
        board=part.board.id,
        width=part.width,
        thickness=part.thickness,
        length=WOOD["bar_length"].value,
        count=count,
    )


def _plan(parts: Sequence[WoodPart], bars: Sequence[BarStock], saw: SawSetup, system: UnitSystem) -> BarPlan:
    lengths = Counter(round(part.sawn[0], 6) for part in parts)
    wanted = [Length(f"{length}", length, count) for length, count in lengths.items()]
    stock = [Length(str(at), bar.length, bar.count) for at, bar in enumerate(bars)]
    try:
        return cut_bars(wanted, stock, Saw(saw.kerf, saw.trim))
    except UserError:
        # sizes were looked at before: only too few bars are left to refuse
        left = ", ".join(_left_over(parts, bars, saw))
        of = parts[0]
        section = f"{format_length(of.width, system)} x {format_length(of.thickness, system)}"
        what = f"the bars of {of.board.name} ({section}) do not hold all parts: left over {left}"
        raise UserError(what, where="bars", todo="add a bar that holds them, or ask for less") from None


def _left_over(parts: Sequence[WoodPart], bars: Sequence[BarStock], saw: SawSetup) -> list[str]:
    """Marks of the parts that find no bar, the longest laid first."""
    rooms = sorted(bar.length - 2 * saw.trim + saw.kerf for bar in bars for _ in range(bar.count))
    left = []
    for part in sorted(parts, key=lambda each: -each.sawn[0]):
        need = part.sawn[0] + saw.kerf
        at = next((at for at, room in enumerate(rooms) if need <= room + HAIR), None)
        if at is None:
            left.append(part.mark)
        else:
            rooms[at] -= need
    return sorted(left) or [min(parts, key=lambda each: each.sawn[0]).mark]


def _sawn(
    cut: Sequence[CutBar], bars: Sequence[BarStock], marks: dict[float, list[str]], saw: SawSetup
) -> tuple[SawnBar, ...]:
    seen: Counter[str] = Counter()
    sawn = []
    for each in cut:
        seen[each.bar.name] += 1
        bar, pieces, start = bars[int(each.bar.name)], [], saw.trim
        for length in each.lengths:
            pieces.append(BarPiece(mark=marks[length.length].pop(), start=start, length=length.length))
            start += length.length + saw.kerf
        cuts = tuple(_cuts(bar, pieces, saw))
        sawn.append(
            SawnBar(bar=bar, number=seen[each.bar.name], pieces=tuple(pieces), cuts=cuts, left=each.left)
        )
    return tuple(sawn)


def _cuts(bar: BarStock, pieces: Sequence[BarPiece], saw: SawSetup) -> list[SawCut]:
    cuts = [_crosscut(bar, bar.length, saw.trim, ("bar",), trims=True)] if saw.trim > 0 else []
    for piece in pieces:
        rest = bar.length - piece.start
        if rest > piece.length + HAIR:
            cuts.append(_crosscut(bar, rest, piece.length, (piece.mark, "bar")))
    return cuts


def _crosscut(
    bar: BarStock, length: float, measure: float, gives: tuple[str, ...], *, trims: bool = False
) -> SawCut:
    return SawCut(
        piece="bar",
        length=length,
        width=bar.width,
        x=0.0,
        y=0.0,
        way="crosscut",
        measure=measure,
        gives=gives,
        trims=trims,
    )
