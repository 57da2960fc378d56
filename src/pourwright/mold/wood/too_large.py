"""Parts that no sheet or bar holds, refused in the maker's units with what to do about them."""

from __future__ import annotations

import math
from collections.abc import Sequence

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem, format_length
from pourwright.geometry.nesting.asked import HAIR
from pourwright.mold.wood.defaults import WOOD
from pourwright.mold.wood.part import WoodPart
from pourwright.mold.wood.stock import BarStock, SawSetup, Sheet

Size = tuple[float, float]


def refuse_wide_kerf(parts: Sequence[WoodPart], saw: SawSetup, system: UnitSystem) -> None:
    """Refuse a blade that takes more than a part is wide.

    Raises
    ------
    UserError
        With the mark of the part.
    """
    for part in parts:
        if saw.kerf > (least := min(part.length, part.width)):
            kerf, side = format_length(saw.kerf, system), format_length(least, system)
            what = f"a kerf of {kerf} is wider than the part's {side}"
            raise UserError(
                what, where=part.mark, allowed="a blade thinner than every part", todo="check the kerf"
            )


def refuse_too_large(
    parts: Sequence[WoodPart], sheets: Sequence[Sheet], saw: SawSetup, system: UnitSystem
) -> None:
    """Refuse a part that no sheet holds, or holds only with its grain across.

    Parameters
    ----------
    parts : sequence of WoodPart
        Of one board and thickness.
    sheets : sequence of Sheet
        Of the same.
    saw : SawSetup
        Its trim comes off every edge first.
    system : UnitSystem
        Of the words.

    Raises
    ------
    UserError
        With the mark of the part, and a joint to make it by.
    """
    for part in parts:
        rooms = [(sheet, _room(sheet, saw)) for sheet in sheets]
        if any(_holds(room, way) for sheet, room in rooms for way in ways(part, sheet)):
            continue
        joint = _joint(part, rooms, system)
        if any(_holds(room, way) for _, room in rooms for way in (part.sawn, part.sawn[::-1])):
            what = f"{told(part.sawn, system)} fits on a sheet only with its grain across"
            todo = f"let its grain run along its {_OTHER[part.grain]}, {joint}, or add a larger sheet"
            raise UserError(what, where=part.mark, allowed=f"its grain along its {part.grain}", todo=todo)
        largest = max((room for _, room in rooms), key=lambda room: room[0] * room[1])
        raise UserError(
            f"{told(part.sawn, system)} is larger than every sheet of {part.board.name} once it is trimmed",
            where=part.mark,
            allowed=f"up to {told(largest, system)}",
            todo=f"{joint}, or add a larger sheet",
        )


_OTHER = {"length": "width", "width": "length", "any": "length"}


def ways(part: WoodPart, sheet: Sheet) -> tuple[Size, ...]:
    """Tell the ways a part may lie on a sheet, along it and across it [m]."""
    straight, turned = part.sawn, part.sawn[::-1]
    if part.grain == "any" or sheet.grain == "none":
        return straight, turned
    return (straight,) if part.grain == "length" else (turned,)


def told(size: Size, system: UnitSystem) -> str:
    """Write a length and a width."""
    return f"{format_length(size[0], system)} x {format_length(size[1], system)}"


def _room(sheet: Sheet, saw: SawSetup) -> Size:
    return max(0.0, sheet.length - 2 * saw.trim), max(0.0, sheet.width - 2 * saw.trim)


def _holds(room: Size, size: Size) -> bool:
    return size[0] <= room[0] + HAIR and size[1] <= room[1] + HAIR


def _joint(part: WoodPart, rooms: Sequence[tuple[Sheet, Size]], system: UnitSystem) -> str:
    """Propose the joint with the fewest boards: side by side before end to end."""
    splits = [
        (math.ceil(way[0] / room[0] - HAIR), math.ceil(way[1] / room[1] - HAIR), way == part.sawn, sheet)
        for sheet, room in rooms
        if min(room) > 0
        for way in ways(part, sheet)
    ]
    if not splits:
        return "trim less off the sheets"
    along, across, straight, sheet = min(splits, key=lambda each: (each[0] * each[1], each[0], not each[2]))
    length, width = part.sawn if straight else part.sawn[::-1]
    names = ("long", "wide") if straight else ("wide", "long")
    grained = sheet.grain == "length" and part.grain != "any"
    ends = _END_TO_END.format(format_length(WOOD["strip"].value, system)) if grained else _EDGE_TO_EDGE
    steps = []
    if across > 1:
        steps.append(f"{across} boards {format_length(width / across, system)} {names[1]}, {_EDGE_TO_EDGE}")
    if along > 1:
        steps.append(f"{along} boards {format_length(length / along, system)} {names[0]}, {ends}")
    return "join it from " + ", and each of these from ".join(steps)


_EDGE_TO_EDGE = "edge to edge with glue and a spline"
_END_TO_END = "end to end with glue and a strip {} long behind the joint"


def refuse_too_long(
    parts: Sequence[WoodPart], bars: Sequence[BarStock], saw: SawSetup, system: UnitSystem
) -> None:
    """Refuse a part that is longer than every bar, with the joint to make it by.

    Raises
    ------
    UserError
        With the mark of the part.
    """
    longest = max(bar.length for bar in bars) - 2 * saw.trim
    for part in parts:
        length = part.sawn[0]
        if length <= longest + HAIR:
            continue
        number = math.ceil(length / longest - HAIR) if longest > 0 else 0
        each, strip = (
            format_length(length / max(1, number), system),
            format_length(WOOD["strip"].value, system),
        )
        joint = f"join it from {number} bars {each} long, {_END_TO_END.format(strip)}, or add a longer bar"
        what = f"{format_length(length, system)} is longer than every bar once its ends are trimmed"
        allowed = f"up to {format_length(max(0.0, longest), system)}"
        raise UserError(what, where=part.mark, allowed=allowed, todo=joint if number else "add a longer bar")
