"""The XML of a 3MF model, read as a stream: no document type, no entities, no depth, nothing fetched."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from xml.parsers import expat

import numpy as np

from pourwright.geometry.mesh import Floats, Integers
from pourwright.geometry.number_kernels import count_words, read_numbers
from pourwright.geometry.parsed import refuse_many
from pourwright.geometry.text import as_bytes, no_number

CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
_KNOWN = ("/core/", "/material/", "/production/", "/slice/")
_MODEL_RELATION = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"
_DEEPEST = 64
# pieces of a megabyte that may pass without a tag
_LONGEST_TAG = 8
_AT_ONCE = 300_000
Attributes = dict[str, str]
Starts = dict[str, Callable[[Attributes], None]]
Ends = dict[str, Callable[[], None]]


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


class _Numbers:
    """Numbers that come as words, three at a time, turned into an array now and then."""

    def __init__(self) -> None:
        self._words: list[str] = []
        self._done: list[Floats] = []
        self._rows = 0

    def add(self, first: str, second: str, third: str) -> None:
        self._words += (first, second, third)
        if len(self._words) >= _AT_ONCE:
            self._turn()

    def _turn(self) -> None:
        text = " ".join(self._words).encode()
        numbers = np.empty(len(self._words))
        if count_words(as_bytes(text)) != numbers.size:
            raise ValueError("a number is missing")
        wrong = read_numbers(as_bytes(text), numbers)
        if wrong >= 0:
            raise ValueError(str(no_number(text, wrong)).partition(": ")[2])
        self._done.append(numbers.reshape(-1, 3))
        self._rows += len(self._words) // 3
        refuse_many(self._rows // 3)
        self._words = []

    def take(self) -> Floats:
        """Give them all, and begin anew."""
        self._turn()
        table = np.concatenate(self._done)
        self._done, self._rows = [], 0
        return table


class _ModelReader:
    """Takes a model's tags one by one."""

    def __init__(self) -> None:
        self.model = Model()
        self._object: Thing | None = None
        self._vertices, self._triangles = _Numbers(), _Numbers()
        self._spaces: dict[str, str] = {}
        self.starts: Starts = {}
        begins: Starts = {
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
        self.ends = dict.fromkeys(("object", f"{CORE} object"), self._end_object)

    def space(self, prefix: str | None, address: str) -> None:
        self._spaces[prefix or ""] = address

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
    _parse(pieces, reader.starts, reader.ends, reader.space)
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
    found: list[str] = []

    def relation(given: Attributes) -> None:
        if given.get("Type") == _MODEL_RELATION:
            found.append(given.get("Target", ""))

    space = "http://schemas.openxmlformats.org/package/2006/relationships"
    _parse(pieces, {f"{space} Relationship": relation, "Relationship": relation}, {}, lambda _p, _a: None)
    return found[0] if found else ""


class _Tags:
    """Hands tags to whoever waits for their names, and counts how deep they are nested."""

    def __init__(self, starts: Starts, ends: Ends) -> None:
        self._starts, self._ends = starts, ends
        self._depth = self.seen = 0

    def start(self, name: str, given: Attributes) -> None:
        self._depth += 1
        self.seen += 1
        if self._depth > _DEEPEST:
            raise ValueError(f"its XML is nested more than {_DEEPEST} deep")
        if name in self._starts:
            self._starts[name](given)

    def end(self, name: str) -> None:
        self._depth -= 1
        if name in self._ends:
            self._ends[name]()


def _refuse(*_given: object) -> None:
    raise ValueError("its XML declares a document type or entities, which the format forbids")


def _parse(
    pieces: Iterable[bytes], starts: Starts, ends: Ends, space: Callable[[str | None, str], None]
) -> None:
    """Feed XML to handlers by the names of tags."""
    tags = _Tags(starts, ends)
    parser = expat.ParserCreate(namespace_separator=" ")
    parser.StartElementHandler, parser.EndElementHandler = tags.start, tags.end
    parser.StartNamespaceDeclHandler = space
    parser.StartDoctypeDeclHandler = parser.EntityDeclHandler = _refuse
    silent = before = 0
    try:
        for piece in pieces:
            parser.Parse(piece, False)
            silent, before = (0, tags.seen) if tags.seen > before else (silent + 1, before)
            if silent >= _LONGEST_TAG:
                raise ValueError(f"one tag of its XML is longer than {_LONGEST_TAG} MB")
        parser.Parse(b"", True)
    except expat.ExpatError as broken:
        raise ValueError(f"its XML is broken: {broken}") from broken
    except LookupError as missing:
        raise ValueError(f"a tag of its XML lacks {missing}") from missing


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
