"""What the XML of a 3MF model says: its unit, its objects, its build."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

import numpy as np

from pourwright.geometry.files.threemf_tables import Table
from pourwright.geometry.files.threemf_xml import Attributes, Ends, Starts, parse
from pourwright.geometry.mesh import Floats, Integers

CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
_KNOWN = ("/core/", "/material/", "/production/", "/slice/")
_MODEL_RELATION = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"


@dataclass(frozen=True, slots=True, eq=False)
class Placed:
    """An object put somewhere, by the build or within another object."""

    object_id: str
    path: str
    matrix: Floats


@dataclass(slots=True, eq=False)
class Thing:
    """An object of a model: triangles, or other objects, or both."""

    kind: str
    vertices: Floats = field(default_factory=lambda: np.empty((0, 3)))
    faces: Integers = field(default_factory=lambda: np.empty((0, 3), dtype=np.int64))
    components: list[Placed] = field(default_factory=list)


@dataclass(slots=True, eq=False)
class Model:
    """What one model part holds."""

    unit: str = "millimeter"
    objects: dict[str, Thing] = field(default_factory=dict)
    build: list[Placed] = field(default_factory=list)


class _ModelReader:
    """Takes a model's tags one by one."""

    def __init__(self) -> None:
        self.model = Model()
        self._object: Thing | None = None
        self._vertices, self._triangles = Table("vertex"), Table("triangle")
        self.table: Table | None = None
        self._spaces: dict[str, str] = {}
        self.starts: Starts = {}
        begins: Starts = {
            "vertices": self._begin_vertices,
            "triangles": self._begin_triangles,
            "vertex": self._vertex,
            "triangle": self._triangle,
            "model": self._begin_model,
            "object": self._begin_object,
            "component": self._component,
            "item": self._item,
        }
        for name, begin in begins.items():
            # some programs leave the name space out
            self.starts[name] = self.starts[f"{CORE} {name}"] = begin
        self.ends: Ends = dict.fromkeys(("object", f"{CORE} object"), self._end_object)
        for name in ("vertices", "triangles"):
            self.ends[name] = self.ends[f"{CORE} {name}"] = self._end_table

    def space(self, prefix: str | None, address: str) -> None:
        self._spaces[prefix or ""] = address

    def _begin_vertices(self, _given: Attributes) -> None:
        self.table = self._vertices

    def _begin_triangles(self, _given: Attributes) -> None:
        self.table = self._triangles

    def _end_table(self) -> None:
        self.table = None

    def _vertex(self, given: Attributes) -> None:
        self._vertices.add(given["x"], given["y"], given["z"])

    def _triangle(self, given: Attributes) -> None:
        self._triangles.add(given["v1"], given["v2"], given["v3"])

    def _begin_model(self, given: Attributes) -> None:
        self.model.unit = given.get("unit", "millimeter")
        for prefix in given.get("requiredextensions", "").split():
            address = self._spaces.get(prefix, prefix)
            if not any(known in address for known in _KNOWN):
                raise ValueError(f"it needs the extension {address[:80]}, which is not read: save it without")

    def _begin_object(self, given: Attributes) -> None:
        self._object = Thing(given.get("type", "model"))
        if given["id"] in self.model.objects:
            raise ValueError(f"two of its objects have the number {given['id'][:20]}")
        self.model.objects[given["id"]] = self._object

    def _end_object(self) -> None:
        thing, self._object = self._object, None
        if thing is None:
            return
        thing.vertices = self._vertices.take()
        thing.faces = _vertex_numbers(self._triangles.take(), len(thing.vertices))

    def _component(self, given: Attributes) -> None:
        if self._object is not None:
            self._object.components.append(_placed(given))

    def _item(self, given: Attributes) -> None:
        self.model.build.append(_placed(given))


class _Relations:
    """Takes the relations of a package one by one."""

    def __init__(self) -> None:
        self.found = ""
        self.table: Table | None = None
        space = "http://schemas.openxmlformats.org/package/2006/relationships"
        self.starts: Starts = dict.fromkeys(("Relationship", f"{space} Relationship"), self._relation)
        self.ends: Ends = {}

    def space(self, prefix: str | None, address: str) -> None:
        """Name spaces say nothing here."""

    def _relation(self, given: Attributes) -> None:
        if given.get("Type") == _MODEL_RELATION:
            self.found = self.found or given.get("Target", "")


def _vertex_numbers(corners: Floats, count: int) -> Integers:
    inside = not corners.size or bool(corners.min() >= 0 and corners.max() < count)
    whole = corners.astype(np.int64) if inside else np.empty(0, dtype=np.int64)
    if not inside or not np.array_equal(whole, corners):
        raise ValueError("a triangle names a vertex that is not there")
    return whole


def read_model(pieces: Iterable[bytes]) -> Model:
    """Read a model.

    Parameters
    ----------
    pieces : iterable of bytes
        Its XML, piece by piece.

    Returns
    -------
    Model

    Raises
    ------
    ValueError
        For XML that is not whole or not allowed, and for numbers that are none.
    """
    reader = _ModelReader()
    parse(pieces, reader)
    return reader.model


def read_relations(pieces: Iterable[bytes]) -> str:
    """Give the path of the model that a package says is its own.

    Parameters
    ----------
    pieces : iterable of bytes
        The XML of the relations.

    Returns
    -------
    str
        Empty where none is named.
    """
    relations = _Relations()
    parse(pieces, relations)
    return relations.found


def _placed(given: Attributes) -> Placed:
    path = next((value for name, value in given.items() if name.endswith(" path")), "")
    return Placed(given["objectid"], path, _matrix(given.get("transform", "")))


def _matrix(text: str) -> Floats:
    """Turn twelve numbers, a row after the other for points that are rows, into a map of columns."""
    matrix = np.eye(4)
    words = text.split()
    if words:
        try:
            rows = np.array([float(word) for word in words]).reshape(4, 3)
        except ValueError as broken:
            raise ValueError("a transform that has not twelve numbers") from broken
        matrix[:3] = rows.T
    return matrix
