"""DXF drawings: lines, polylines with bulges, arcs, circles, ellipses and splines of the model space."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator, Mapping
from io import StringIO
from types import MappingProxyType
from typing import Any

import numpy as np

from pourwright.foundation.errors import UserError
from pourwright.geometry.drawn.outlines_arcs import CHORD_TOLERANCE, Edge, chords, edge_through
from pourwright.geometry.mesh import Floats

#: DXF reference, header variable $INSUNITS (from memory) -> metres.
INSUNITS: Mapping[int, float] = MappingProxyType(
    {1: 0.0254, 2: 0.3048, 4: 1e-3, 5: 1e-2, 6: 1.0, 10: 0.9144, 13: 1e-6, 14: 0.1}
)
_BINARY = b"AutoCAD Binary DXF\r\n\x1a\x00"
_MOST, _DEEPEST = 50_000, 12
# a block put in costs as much time as many lines
_PER_BLOCK = 50
# curves that are no arcs get finer chords, since these cut off area
_FINER = 5.0
_FLAT = 1e-4


def lines_of_dxf(content: bytes, unit: float | None, layer: str | None = None) -> list[Floats]:
    """Read the lines of a DXF drawing.

    Parameters
    ----------
    content : bytes
        Of the file, text or binary.
    unit : float, optional
        What one of its numbers means, where the drawing does not say it [m].
    layer : str, optional
        All that can be seen by default.

    Returns
    -------
    list of array (n, 2)
        Points along each line, arcs as chords [m].

    Raises
    ------
    UserError
        For a doubtful unit, a layer that is not there, or lines that do not lie flat.
    """
    drawing = _parsed(content)
    # where the file has no header, its reader takes one that says metres
    said = int(drawing.header.get("$INSUNITS", 0)) if b"$INSUNITS" in content else 0
    scale = _scale(said, unit)
    hidden = {entry.dxf.name.lower() for entry in drawing.layers if entry.is_off() or entry.is_frozen()}
    wanted = _wanted(drawing, layer)
    entities = [
        entity
        for entity in _exploded(drawing.modelspace(), 0, [0])
        if (wanted is None or entity.dxf.layer.lower() == wanted) and entity.dxf.layer.lower() not in hidden
    ]
    lines = [line for entity in entities for line in _points(entity, scale)]
    if not lines:
        kinds = ", ".join(sorted({entity.dxftype() for entity in entities})) or "nothing"
        raise UserError(
            f"no line or arc in the drawing, only {kinds}",
            allowed=", ".join(sorted([*_CURVES, *_COMPOUND])),
            todo="draw the outline with these",
        )
    heights = np.concatenate([line[:, 2] for line in lines])
    if np.ptp(heights) > _FLAT:
        raise UserError(
            f"the lines do not lie in one plane: z runs over {1000 * np.ptp(heights):.4g} mm",
            todo="draw the outline flat, in x and y",
        )
    return [np.ascontiguousarray(line[:, :2]) for line in lines]


def _parsed(content: bytes) -> Any:
    import ezdxf  # noqa: PLC0415 - half a second that only drawings need
    from ezdxf.filemanagement import dxf_stream_info  # noqa: PLC0415
    from ezdxf.lldxf.tagger import binary_tags_loader  # noqa: PLC0415

    logging.getLogger("ezdxf").setLevel(logging.CRITICAL)
    if content.startswith(_BINARY):
        return ezdxf.document.Drawing.load(binary_tags_loader(content))
    encoding = dxf_stream_info(StringIO(content.decode("utf8", "ignore"))).encoding
    text = content.decode(encoding, "surrogateescape")
    return ezdxf.filemanagement.read(StringIO(text.replace("\r\n", "\n")))


def _scale(said: int, unit: float | None) -> float:
    own = INSUNITS.get(said)
    if own is None and unit is None:
        came = (
            "does not say its unit" if said == 0 else f"has the unit number {said}, which is not known here"
        )
        raise UserError(
            f"the drawing {came} ($INSUNITS)",
            allowed="mm, cm, m, in, ft",
            todo='add unit = "mm", or what it is',
        )
    if own is not None and unit is not None and abs(own / unit - 1) > 1e-9:
        raise UserError(
            f"the drawing says that one of its numbers is {1000 * own:g} mm, not {1000 * unit:g} mm",
            todo="leave unit out, or mend the drawing's",
        )
    return own if own is not None else float(unit or 1.0)


def _wanted(drawing: Any, layer: str | None) -> str | None:
    if layer is None:
        return None
    names = sorted(entry.dxf.name for entry in drawing.layers)
    if layer.lower() not in {name.lower() for name in names}:
        raise UserError(f"no layer '{layer}'", allowed=", ".join(names[:20]), todo="take one of them")
    return layer.lower()


def _exploded(entities: Any, depth: int, count: list[int]) -> Iterator[Any]:
    """Entities with blocks and polylines taken apart; bounded, since blocks may hold blocks without end."""
    if depth > _DEEPEST:
        raise UserError("blocks within blocks without end", todo="explode them in the drawing program")
    for entity in entities:
        kind = entity.dxftype()
        count[0] += _PER_BLOCK * max(1, entity.mcount) if kind == "INSERT" else 1
        if count[0] > _MOST:
            raise UserError(
                f"more than {_MOST} lines, or {_MOST // _PER_BLOCK} blocks, in the drawing",
                todo="save the outline alone",
            )
        if kind == "INSERT":
            for copy in entity.multi_insert() if entity.mcount > 1 else [entity]:
                yield from _exploded(copy.virtual_entities(), depth + 1, count)
        elif kind in _COMPOUND and not (kind == "POLYLINE" and _is_mesh(entity)):
            yield from _exploded(entity.virtual_entities(), depth + 1, count)
        else:
            yield entity


def _is_mesh(polyline: Any) -> bool:
    return not (polyline.is_2d_polyline or polyline.is_3d_polyline)


def _points(entity: Any, scale: float) -> Iterator[Floats]:
    curve = _CURVES.get(entity.dxftype())
    if curve is None:
        return
    found = curve(entity, scale)
    if not np.isfinite(found).all() or np.abs(found).max() > 1e4:
        raise UserError("a line of the drawing has no place that could be real", todo="save it again")
    yield found


def _line(line: Any, scale: float) -> Floats:
    return np.array([tuple(line.dxf.start), tuple(line.dxf.end)]) * scale


def _arc(arc: Any, scale: float) -> Floats:
    first = arc.dxf.start_angle
    turn = (arc.dxf.end_angle - first) % 360 or 360.0
    return _circular(arc, first, turn, scale)


def _circle(circle: Any, scale: float) -> Floats:
    return _circular(circle, 0.0, 360.0, scale)


def _circular(entity: Any, first: float, turn: float, scale: float) -> Floats:
    """Two arcs through five of its points, which come in the frame of the drawing."""
    places = first + turn * np.arange(5) / 4
    points = np.array([tuple(point) for point in entity.vertices(places.tolist())]) * scale
    flat = points[:, :2]
    halves = [_edge(*flat[:3]), _edge(*flat[2:])]
    drawn = np.concatenate([flat[:1], *(chords(half, CHORD_TOLERANCE.value) for half in halves)])
    return np.column_stack([drawn, np.full(len(drawn), points[0, 2])])


def _edge(start: Floats, middle: Floats, end: Floats) -> Edge:
    try:
        return edge_through(start, middle, end)
    except ValueError:
        return Edge(start, end)


def _flattened(curve: Any, scale: float) -> Floats:
    distance = CHORD_TOLERANCE.value / scale / _FINER
    return np.array([tuple(point) for point in curve.flattening(distance)]) * scale


_COMPOUND = ("LWPOLYLINE", "POLYLINE")
_CURVES: Mapping[str, Callable[[Any, float], Floats]] = MappingProxyType(
    {"LINE": _line, "ARC": _arc, "CIRCLE": _circle, "ELLIPSE": _flattened, "SPLINE": _flattened}
)
