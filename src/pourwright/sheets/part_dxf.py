"""A part as a DXF file for a cutting machine: millimetres, one layer for each kind of line."""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Lock
from typing import TYPE_CHECKING

from pourwright.jobs.cut_part import CutPart
from pourwright.sheets.part_drawing import groove_words, hole_words, millimetres, outlines_of, sawn_of
from pourwright.sheets.svg import printable
from pourwright.sheets.wording import Wording

if TYPE_CHECKING:
    from ezdxf.layouts.layout import Modelspace

LAYERS = {"finished": 7, "sawn": 8, "groove": 5, "hole": 1, "text": 3}
"""Colour of each layer, as the format numbers them."""
MILLIMETRES = 4
"""Code of the unit in the file's head."""
HIGH = 5.0
"""Of the letters [mm]."""
_ONE_AT_A_TIME = Lock()


def part_dxf(part: CutPart, words: Wording) -> bytes:
    """Write a part as it is finished, with its sawn outline; the same part gives the same bytes.

    Parameters
    ----------
    part : CutPart
        The part.
    words : Wording
        The maker's units, for the words on it; all lengths are millimetres.

    Returns
    -------
    bytes
        A DXF file of the release of 2010, its origin the left lower corner of the finished part.
    """
    from ezdxf.filemanagement import new  # noqa: PLC0415 - half a second that only drawings need

    with _same_each_time():
        drawing = new("R2010", units=MILLIMETRES)
        drawing.header["$MEASUREMENT"] = 1
        for name, colour in LAYERS.items():
            drawing.layers.add(name, color=colour)
        _draw(drawing.modelspace(), part, words)
        text = io.StringIO()
        drawing.write(text)
    return drawing.encode(text.getvalue())


def _draw(space: Modelspace, part: CutPart, words: Wording) -> None:
    for line in outlines_of(part):
        space.add_lwpolyline(line, close=True, dxfattribs={"layer": "finished"})
    if part.oversize_m:
        space.add_lwpolyline(sawn_of(part), close=True, dxfattribs={"layer": "sawn"})
    high = millimetres(part.width_m)
    for groove in part.grooves:
        left, right = millimetres(groove.start_m), millimetres(groove.end_m)
        corners = [(left, 0.0), (right, 0.0), (right, high), (left, high)]
        space.add_lwpolyline(corners, close=True, dxfattribs={"layer": "groove"})
        _write(space, groove_words(groove, part, words), (left, high / 2), HIGH / 2)
    for hole in part.holes:
        middle = millimetres(hole.at_m[0]), millimetres(hole.at_m[1])
        radius = millimetres(hole.diameter_m / 2)
        space.add_circle(middle, radius, dxfattribs={"layer": "hole"})
        space.add_point(middle, dxfattribs={"layer": "hole"})
        told = f"{hole_words(hole, words)} {hole.use}"
        _write(space, told, (middle[0] + radius, middle[1]), HIGH / 2)
    _write(space, part.mark, (HIGH, HIGH), HIGH)


def _write(space: Modelspace, told: str, at: tuple[float, float], high: float) -> None:
    plain = printable(told).replace("%", "%%%")
    space.add_text(plain, height=high, dxfattribs={"layer": "text", "insert": at})


@contextmanager
def _same_each_time() -> Iterator[None]:
    """Let the library write a fixed moment and fixed names instead of those of today."""
    from ezdxf import options  # type: ignore[attr-defined]  # noqa: PLC0415

    with _ONE_AT_A_TIME:
        before = options.write_fixed_meta_data_for_testing
        options.write_fixed_meta_data_for_testing = True
        try:
            yield
        finally:
            options.write_fixed_meta_data_for_testing = before
