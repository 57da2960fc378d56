"""PLY, text and binary of both byte orders, with whatever else stands beside the places."""

from dataclasses import dataclass
from typing import Any, TypeAlias

import numpy as np
import numpy.typing as npt
from numba import njit

from pourwright.geometry.files.number_kernels import count_words, read_numbers
from pourwright.geometry.files.parsed import Parsed, refuse_many
from pourwright.geometry.files.polygons import triangulated
from pourwright.geometry.files.text import Bytes, as_bytes, no_number
from pourwright.geometry.mesh import Integers

_KINDS = {
    "char": "i1", "int8": "i1", "uchar": "u1", "uint8": "u1", "short": "i2", "int16": "i2", "ushort": "u2",
    "uint16": "u2", "int": "i4", "int32": "i4", "uint": "u4", "uint32": "u4", "float": "f4", "float32": "f4",
    "double": "f8", "float64": "f8",
}  # fmt: skip
_ORDERS = {"ascii": "<", "binary_little_endian": "<", "binary_big_endian": ">"}
_LONGEST_HEADER = 65536
_Found: TypeAlias = dict[str, tuple[Any, Integers]]
_CORNERS = ("vertex_indices", "vertex_index")


@dataclass(frozen=True, slots=True)
class _Property:
    """One number of an element, or a list of them; kinds as numpy writes them."""

    name: str
    kind: str
    count_kind: str = ""


@dataclass(frozen=True, slots=True)
class _Element:
    name: str
    rows: int
    properties: tuple[_Property, ...]

    @property
    def least(self) -> int:
        """Bytes of all rows when every list is empty."""
        return self.rows * sum(np.dtype(p.count_kind or p.kind).itemsize for p in self.properties)


def read_ply(content: bytes) -> Parsed:
    """Read a PLY file.

    Parameters
    ----------
    content : bytes
        Text or binary.

    Returns
    -------
    Parsed
        Polygons cut into triangles; colours, normals and other elements left out.

    Raises
    ------
    ValueError
        Where it is cut off, announces what it does not hold, or a word is no number.

    Notes
    -----
    Source: Turk 1994, the PLY polygon file format; from memory.
    """
    order, elements, start = _header(content)
    body = content[start:]
    if order == "ascii":
        body, elements = _as_binary(content, start), tuple(_all_double(element) for element in elements)
    if sum(element.least for element in elements) > len(body):
        raise ValueError("it is cut off: more is announced than there is")
    found: _Found = {}
    at = 0
    for element in elements:
        at = _read(element, body, at, _ORDERS[order], found)
        if {"vertex", "face"} <= found.keys():
            break
    if "vertex" not in found or "face" not in found:
        raise ValueError("it has no faces" if "vertex" in found else "it has no vertices")
    vertices, (corners, sizes) = found["vertex"][0], found["face"]
    refuse_many(int(sizes.sum()) - 2 * len(sizes))
    if corners.size and not (corners.min() >= 0 and corners.max() < len(vertices)):
        raise ValueError("a face names a vertex that is not there")
    return Parsed(vertices, triangulated(vertices, corners.astype(np.int64, copy=False), sizes))


def _header(content: bytes) -> tuple[str, tuple[_Element, ...], int]:
    """Read the header: byte order, elements, and where the body begins."""
    end = content.find(b"end_header", 0, _LONGEST_HEADER)
    if end < 0:
        raise ValueError("it is cut off, or its header is longer than 64 kB")
    start = content.find(b"\n", end)
    lines = content[:end].decode("ascii", "replace").splitlines()
    order, elements = "", []
    for words in (line.split() for line in lines[1:]):
        try:
            if words[:1] == ["format"]:
                order = words[1]
            elif words[:1] == ["element"]:
                elements.append(_Element(words[1], _count(words[2]), ()))
            elif words[:1] == ["property"]:
                last = elements.pop()
                elements.append(_Element(last.name, last.rows, (*last.properties, _property(words))))
        except (LookupError, ValueError) as broken:
            raise ValueError(f"its header says '{' '.join(words)[:60]}'") from broken
    if order not in _ORDERS:
        raise ValueError(f"its header says the format is '{order[:30]}'")
    return order, tuple(elements), start + 1 if start >= 0 else len(content)


def _count(word: str) -> int:
    if not word.isdecimal():
        raise ValueError(word)
    return int(word[:18])


def _property(words: list[str]) -> _Property:
    if words[1] == "list":
        if _KINDS[words[2]].startswith("f"):
            raise ValueError(words[2])
        return _Property(words[4], _KINDS[words[3]], _KINDS[words[2]])
    return _Property(words[2], _KINDS[words[1]])


def _all_double(element: _Element) -> _Element:
    doubles = tuple(_Property(p.name, "f8", "f8" if p.count_kind else "") for p in element.properties)
    return _Element(element.name, element.rows, doubles)


def _as_binary(content: bytes, start: int) -> bytes:
    """Turn a body of text into the same numbers in double precision."""
    text = as_bytes(content)[start:]
    numbers = np.empty(count_words(text))
    wrong = read_numbers(text, numbers)
    if wrong >= 0:
        raise no_number(content, start + wrong)
    return numbers.tobytes()


def _read(element: _Element, body: bytes, at: int, order: str, found: _Found) -> int:
    """Read the rows of one element, keep what is wanted of it, and give where the next one begins."""
    names = [p.name for p in element.properties]
    if not any(p.count_kind for p in element.properties):
        rows = np.dtype([(f"{n}", order + p.kind) for n, p in enumerate(element.properties)])
        end = at + rows.itemsize * element.rows
        if end > len(body):
            raise ValueError("it is cut off")
        if element.name == "vertex":
            table = np.frombuffer(body, rows, element.rows, at) if rows.itemsize else np.empty(0, rows)
            found["vertex"] = _places(names, table), np.empty(0, dtype=np.int64)
        return end
    wanted = next((n for n, name in enumerate(names) if name in _CORNERS), -1)
    if element.name == "vertex":
        raise ValueError("its vertices hold lists, which is not read")
    return _read_lists(element, body, at, order, wanted, found)


def _places(names: list[str], table: npt.NDArray[np.void]) -> npt.NDArray[np.floating]:
    if not {"x", "y", "z"} <= set(names):
        raise ValueError("its vertices have no x, y and z")
    columns = [table[str(names.index(axis))] for axis in "xyz"]
    single = all(column.dtype.itemsize == 4 and column.dtype.kind == "f" for column in columns)
    return np.stack(columns, axis=1).astype(np.float32 if single else np.float64)


def _read_lists(
    element: _Element,
    body: bytes,
    at: int,
    order: str,
    wanted: int,
    found: _Found,
) -> int:
    """Walk through rows that hold lists; the lengths of the lists say where the next row begins."""
    refuse_many(element.rows)
    sizes = np.array([np.dtype(p.kind).itemsize for p in element.properties])
    counts = np.array([_code(p.count_kind) for p in element.properties])
    starts, lengths = np.zeros(element.rows, dtype=np.int64), np.zeros(element.rows, dtype=np.int64)
    end = walk_rows(as_bytes(body), at, sizes, counts, order == ">", wanted, starts, lengths)
    if end < 0:
        raise ValueError("it is cut off, or one of its lists has an impossible length")
    if element.name == "face" and wanted >= 0:
        if lengths.size and lengths.min() < 3:
            raise ValueError("a face has fewer than three corners")
        kind = np.dtype(order + element.properties[wanted].kind)
        found["face"] = _gathered(body, starts, lengths, kind), lengths
    return end


def _code(kind: str) -> int:
    """Say how the length of a list is written: 0 no list, else bytes, negative if signed, over 10 a float."""
    if not kind:
        return 0
    size = np.dtype(kind).itemsize
    return {"u": size, "i": -size, "f": 10 + size}[kind[0]]


def _gathered(body: bytes, starts: Integers, lengths: Integers, kind: np.dtype[Any]) -> Integers:
    """Collect the numbers of all lists, one list after the other."""
    text = as_bytes(body)
    out = np.empty(int(lengths.sum()), dtype=np.int64)
    places = np.cumsum(lengths) - lengths
    for length in np.unique(lengths):
        rows = lengths == length
        window = np.lib.stride_tricks.sliding_window_view(text, int(length) * kind.itemsize)
        values = np.ascontiguousarray(window[starts[rows]]).view(kind)
        out[places[rows][:, None] + np.arange(length)] = values
    return out


@njit(cache=True)
def _length(text: Bytes, at: int, code: int, swapped: bool) -> int:
    """Read how long a list is; -1 for what no length can be."""
    size = code - 10 if code > 10 else abs(code)
    value = np.uint64(0)
    for n in range(size):
        place = at + n if swapped else at + size - 1 - n
        value = (value << np.uint64(8)) | np.uint64(text[place])
    if code > 10:
        number = np.array([value], dtype=np.uint64).view(np.float64)[0]
        return int(number) if 0 <= number < 1e9 and number == int(number) else -1
    whole = int(np.int64(value))
    return -1 if code < 0 and whole >> (8 * size - 1) else whole


@njit(cache=True)
def walk_rows(
    text: Bytes,
    at: int,
    sizes: Integers,
    counts: Integers,
    swapped: bool,
    wanted: int,
    starts: Integers,
    lengths: Integers,
) -> int:
    """Walk through rows; writes where the wanted list of each begins and how long it is.

    Returns where the rows end, or -1 where they go on behind the end of the file.
    """
    for row in range(starts.size):
        for column in range(sizes.size):
            code, length = counts[column], 1
            if code != 0:
                width = code - 10 if code > 10 else abs(code)
                if at + width > text.size:
                    return -1
                length = _length(text, at, code, swapped)
                at += width
            if length < 0 or length > text.size or at + length * sizes[column] > text.size:
                return -1
            if column == wanted:
                starts[row], lengths[row] = at, length
            at += length * sizes[column]
    return at
