"""Drawings: DXF and SVG files become closed outlines in metres."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from types import MappingProxyType

from pourwright.foundation.errors import UserError
from pourwright.geometry.drawn.outline_files_dxf import lines_of_dxf
from pourwright.geometry.drawn.outline_files_svg import lines_of_svg
from pourwright.geometry.drawn.outlines_chaining import chained
from pourwright.geometry.files.formats import LENGTHS
from pourwright.geometry.mesh import Floats

LARGEST_DRAWING = 10_000_000
Reader = Callable[[bytes, float | None, str | None], Sequence[Floats]]

READERS: Mapping[str, tuple[str, Reader]] = MappingProxyType(
    {".dxf": ("DXF", lines_of_dxf), ".svg": ("SVG", lines_of_svg)}
)
"""Name and reader of each kind of drawing, by ending."""


def read_outline(path: Path | str, unit: str | None = None, layer: str | None = None) -> list[Floats]:
    """Read the closed outlines of a drawing.

    Parameters
    ----------
    path : Path or str
        DXF or SVG file.
    unit : str, optional
        Of its numbers: mm, cm, m, in or ft. Needed where the drawing does not say it: a DXF without
        $INSUNITS, an SVG without a size in mm, cm, in, pt or pc; elsewhere left out, or the same.
    layer : str, optional
        Of a DXF; all that can be seen by default.

    Returns
    -------
    list of array (n, 2)
        Closed outlines in the order of the file, y up, without repeated last point [m].

    Raises
    ------
    UserError
        For a missing or doubtful unit, a file that cannot be read, and lines that close no outline, with the
        place.
    """
    file = Path(path)
    kind = READERS.get(file.suffix.lower())
    if kind is None:
        raise UserError(
            f"files ending in '{file.suffix}' are no drawings",
            where=file.name,
            allowed=", ".join(READERS),
        )
    if unit is not None and unit not in LENGTHS:
        raise UserError(f"'{unit}' is no unit of length", where=file.name, allowed=", ".join(LENGTHS))
    content = _content(file)
    name, reader = kind
    try:
        lines = reader(content, None if unit is None else float(LENGTHS[unit]), layer)
        loops = chained(lines)
    except UserError as error:
        error.where = error.where or file.name
        raise
    except Exception as failure:  # noqa: BLE001 - a foreign parser may raise anything on a broken file
        raise UserError(
            f"this {name} file cannot be read: {_reason(failure)}",
            where=file.name,
            todo="save the drawing again",
        ) from None
    if not loops:
        raise UserError(
            "there is no closed outline in the drawing", where=file.name, todo="draw lines and arcs, closed"
        )
    return loops


def _content(file: Path) -> bytes:
    try:
        if not file.is_file():
            raise UserError(f"no file '{file.name}'", where=str(file), todo="put it there, or mend the name")
        size = file.stat().st_size
        if size > LARGEST_DRAWING:
            raise UserError(
                f"the drawing has {size / 1e6:.0f} MB",
                where=file.name,
                allowed=f"{LARGEST_DRAWING / 1e6:.0f} MB",
                todo="save the outline alone",
            )
        content = file.read_bytes()
    except OSError as failure:
        raise UserError(f"it cannot be opened: {failure.strerror}", where=str(file)) from None
    if not content.strip():
        raise UserError("the file is empty", where=file.name)
    return content


def _reason(failure: Exception) -> str:
    said = " ".join(str(failure).split())
    return said[:120] if said else type(failure).__name__
