"""What is told of the piece."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.answering.document import Number, Section
from pourwright.app.answering.looked import CheapLook
from pourwright.app.answering.numbers import number
from pourwright.foundation.notation import format_volume

AXES = (("width", "across, x as poured"), ("depth", "across, y as poured"))


def piece_section(look: CheapLook) -> Section:
    """Tell size, volume and weight.

    Parameters
    ----------
    look : CheapLook
        The job.

    Returns
    -------
    Section
    """
    return Section(numbers=list(_numbers(look)))


def _numbers(look: CheapLook) -> Iterator[Number]:
    system, piece, solid = look.system, look.piece, look.mold_look.room_solid
    doubt = piece.doubt
    note = ""
    if doubt is not None:
        low, high = (format_volume(edge, system) for edge in (doubt.low, doubt.high))
        note = f"{low} to {high}: {doubt.why}"
    yield number("volume_m3", "volume", solid.volume, system, note)
    name = look.mold_look.casting.name
    yield number("mass_kg", "weight of the piece", look.mold_look.fill_mass, system, f"cast in {name}")
    poured = " as poured" if piece.frame.flipped else ""
    yield number("height_m", f"height{poured}", piece.frame.height, system)
    for (key, label), side in zip(AXES, piece.size[:2], strict=True):
        yield number(f"{key}_m", label, side, system)
    yield number("area_m2", "surface", solid.area, system)
    yield from _finished(look)


def _finished(look: CheapLook) -> Iterator[Number]:
    """Height of the cold, sanded piece, where it is not that of the cavity."""
    made = look.piece.sizes
    if made is not None:
        height = float((made.cast - made.sanded)[2])
        yield number("finished_height_m", "height of the finished piece", height, look.system)
