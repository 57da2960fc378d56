"""SVG drawings: paths and basic shapes with their transforms, y turned up."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from io import StringIO
from types import MappingProxyType
from typing import Any
from xml.etree import ElementTree as ET

import numpy as np

from pourwright.foundation.errors import UserError
from pourwright.geometry.drawn.outlines_arcs import CHORD_TOLERANCE, Edge, chords, edge_through
from pourwright.geometry.mesh import Floats

#: CSS Values and Units, section 6.2: absolute lengths (from memory) -> metres.
LENGTH_UNITS: Mapping[str, float] = MappingProxyType(
    {"mm": 1e-3, "cm": 1e-2, "q": 2.5e-4, "in": 0.0254, "pt": 0.0254 / 72, "pc": 0.0254 / 6}
)
_PIXEL = 0.0254 / 96
_PLAIN_DOCTYPE = re.compile(r"<!DOCTYPE[^\[\]<>]*>")
_LENGTH = re.compile(r"\s*([0-9.]+(?:[eE][+-]?[0-9]+)?)\s*([a-zA-Z%]*)\s*\Z")
_MOST = 50_000
_FINER = 5.0
_SIZE = ("width", "height", "viewBox", "preserveAspectRatio", "x", "y")


def lines_of_svg(content: bytes, unit: float | None, layer: str | None = None) -> list[Floats]:
    """Read the lines of an SVG drawing.

    Parameters
    ----------
    content : bytes
        Of the file.
    unit : float, optional
        What one of its own units means, where the drawing has no size in mm, cm, in, pt or pc [m].
    layer : str, optional
        Must be left out.

    Returns
    -------
    list of array (n, 2)
        Points along each line, arcs as chords, y up [m].

    Raises
    ------
    UserError
        For a doubtful unit, and for declarations that a drawing does not need.
    """
    if layer is not None:
        raise UserError("layers are read of DXF files only", todo="leave layer out")
    text = _plain_text(content)
    root = ET.fromstring(text)  # noqa: S314 - no document type and no entity is left in it
    if root.tag.rpartition("}")[2] != "svg":
        raise UserError(f"the file is no SVG drawing: it begins with <{root.tag.rpartition('}')[2]}>")
    _refuse_copies_without_end(root)
    scale = _scale(root, unit)
    view = _view(root)
    top = 0.0 if view is None else view[3]
    for name in _SIZE:
        root.attrib.pop(name, None)
    lines = list(_drawn(ET.tostring(root, "unicode"), scale))
    return [np.column_stack([line[:, 0], scale * top - line[:, 1]]) for line in lines]


def _plain_text(content: bytes) -> str:
    """The text without its document type, refused where that declares anything."""
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise UserError("the drawing is not saved as UTF-8 text", todo="save it as plain SVG") from None
    text = _PLAIN_DOCTYPE.sub("", text, count=1)
    if re.search(r"<!\s*(DOCTYPE|ENTITY|ELEMENT|ATTLIST)", text, re.IGNORECASE):
        raise UserError(
            "the drawing declares entities or a document type of its own", todo="save it as plain SVG"
        )
    return re.sub(r"^\s*<\?xml[^>]*\?>", "", text)


def _refuse_copies_without_end(root: ET.Element) -> None:
    """Count what <use> would draw, before anything is drawn."""
    named = {each.get("id"): each for each in root.iter() if each.get("id")}
    sizes: dict[int, float] = {}

    def size(element: ET.Element, above: frozenset[int]) -> float:
        here = id(element)
        if here in above:
            return np.inf
        if here not in sizes:
            inside = above | {here}
            total = 1 + sum(size(child, inside) for child in element)
            target = named.get(_target(element))
            sizes[here] = total + (size(target, inside) if target is not None else 0)
        return sizes[here]

    try:
        drawn = size(root, frozenset())
    except RecursionError:
        drawn = np.inf
    if drawn > _MOST:
        raise UserError(f"the drawing repeats itself more than {_MOST} times", todo="save the outline alone")


def _target(element: ET.Element) -> str | None:
    if element.tag.rpartition("}")[2] != "use":
        return None
    reference = element.get("href") or element.get("{http://www.w3.org/1999/xlink}href") or ""
    return reference.removeprefix("#")


def _scale(root: ET.Element, unit: float | None) -> float:
    """Metres in one of the drawing's own units."""
    physical, view = _physical(root), _view(root)
    if physical is None:
        if unit is None:
            raise UserError(
                "the drawing does not say how large it is: its width and height have no unit, or are pixels",
                allowed="mm, cm, m, in, ft",
                todo='add unit = "mm", or what one of its numbers means',
            )
        return unit
    own = _PIXEL if view is None else min(side / own for side, own in zip(physical, view[4:], strict=True))
    if unit is not None and abs(own / unit - 1) > 1e-6:
        raise UserError(
            f"the drawing says that one of its numbers is {1000 * own:.6g} mm, not {1000 * unit:g} mm",
            todo="leave unit out, or mend the drawing's width and height",
        )
    return own


def _physical(root: ET.Element) -> tuple[float, float] | None:
    sides = [_LENGTH.match(root.get(name, "")) for name in ("width", "height")]
    found = [
        float(side[1]) * LENGTH_UNITS[side[2].lower()] if side and side[2].lower() in LENGTH_UNITS else None
        for side in sides
    ]
    known = [side for side in found if side]
    if not known:
        return None
    view = _view(root)
    if len(known) == 1 and view is not None:
        # the other side follows from the view's shape
        ratio = view[4] / view[5]
        return (known[0], known[0] / ratio) if found[0] else (known[0] * ratio, known[0])
    return (known[0], known[-1])


def _view(root: ET.Element) -> tuple[float, ...] | None:
    """Left, top, right, bottom, width and height of the view."""
    try:
        x, y, width, height = map(float, re.split(r"[\s,]+", root.get("viewBox", "").strip()))
    except ValueError:
        return None
    if not (width > 0 and height > 0 and np.isfinite([x, y, width, height]).all()):
        raise UserError("the drawing's viewBox has no size", todo="save it again")
    return x, y, x + width, y + height, width, height


def _drawn(text: str, scale: float) -> Iterator[Floats]:
    import svgelements  # noqa: PLC0415 - needed for drawings only

    drawing = svgelements.SVG.parse(StringIO(text), reify=True, ppi=96.0)
    for element in drawing.elements():
        if isinstance(element, svgelements.Shape) and not _hidden(element):
            path = abs(svgelements.Path(element))
            for stretch in path.as_subpaths():
                points = list(_stretch(list(stretch), scale, svgelements))
                if points:
                    yield _real(np.concatenate(points))


def _hidden(element: Any) -> bool:
    values = getattr(element, "values", {})
    return values.get("visibility") in {"hidden", "collapse"} or values.get("display") == "none"


def _real(points: Floats) -> Floats:
    if not np.isfinite(points).all() or np.abs(points).max() > 1e4:
        raise UserError("a line of the drawing has no place that could be real", todo="save it again")
    return points


def _stretch(segments: list[Any], scale: float, svgelements: Any) -> Iterator[Floats]:
    for segment in segments:
        if isinstance(segment, svgelements.Move) or segment.start is None or segment.end is None:
            if segment.end is not None:
                yield _places([segment.end], scale)
        elif isinstance(segment, svgelements.Arc):
            yield _arc(segment, scale)
        elif isinstance(segment, svgelements.CubicBezier | svgelements.QuadraticBezier):
            yield _bezier(segment, scale)
        else:
            yield _places([segment.end], scale)


def _places(points: list[Any], scale: float) -> Floats:
    return np.array([(point.x, point.y) for point in points], dtype=np.float64) * scale


def _arc(segment: Any, scale: float) -> Floats:
    turned = abs(float(segment.sweep))
    radius = max(float(segment.rx), float(segment.ry)) * scale
    if abs(float(segment.rx) - float(segment.ry)) * scale < CHORD_TOLERANCE.value / 100 and turned > 0:
        flat = _places([segment.point(share) for share in (0, 0.25, 0.5, 0.75, 1)], scale)
        halves = [_edge(*flat[:3]), _edge(*flat[2:])]
        return np.concatenate([chords(half, CHORD_TOLERANCE.value) for half in halves])
    count = _count(radius * turned**2 / 8)
    return _places([segment.point(share) for share in np.arange(1, count + 1) / count], scale)


def _edge(start: Floats, middle: Floats, end: Floats) -> Edge:
    try:
        return edge_through(start, middle, end)
    except ValueError:
        return Edge(start, end)


def _bezier(segment: Any, scale: float) -> Floats:
    """Equal steps of the parameter: no chord is off by more than an eighth of the second derivative."""
    names = (
        ("start", "control1", "control2", "end")
        if hasattr(segment, "control1")
        else ("start", "control", "end")
    )
    points = _places([getattr(segment, name) for name in names], scale)
    degree = len(points) - 1
    bend = np.linalg.norm(np.diff(points, n=2, axis=0), axis=1).max() * degree * (degree - 1)
    count = _count(bend / 8)
    shares = np.arange(1, count + 1) / count
    curve = np.repeat(points[:, None], count, axis=1)
    for _ in range(degree):
        curve = curve[:-1] * (1 - shares)[None, :, None] + curve[1:] * shares[None, :, None]
    return np.asarray(curve[0])


def _count(bend: float) -> int:
    if not np.isfinite(bend):
        raise UserError("a line of the drawing has no place that could be real", todo="save it again")
    return min(2000, max(2, int(np.ceil(np.sqrt(bend * _FINER / CHORD_TOLERANCE.value)))))
