"""STL, binary and text."""

import struct

import numpy as np
from numba import njit

from pourwright.geometry.files.number_kernels import line_end, next_word, read_three, word_end
from pourwright.geometry.files.parsed import Parsed, refuse_many
from pourwright.geometry.files.text import Bytes, as_bytes, line_of, no_number
from pourwright.geometry.mesh import Floats

_FACET = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])
_HEADER = 84
_NO_NUMBER, _NO_TRIANGLE, _OPEN = 1, 2, 3


def is_text_stl(content: bytes) -> bool:
    """Tell whether the first kilobyte is that of a text STL; a binary one may begin with 'solid' too.

    Parameters
    ----------
    content : bytes
        The file, or its beginning.

    Returns
    -------
    bool
    """
    head = content[:1024].lstrip().lower()
    return head.startswith(b"solid") and (b"facet" in head or b"endsolid" in head)


def read_stl(content: bytes) -> Parsed:
    """Read an STL file.

    Parameters
    ----------
    content : bytes
        Binary, with or without colours in its attribute bytes, or text with any number of solids.

    Returns
    -------
    Parsed
        Three vertices for every triangle; the file's normals are not asked, the order of corners is.

    Raises
    ------
    ValueError
        Where it is cut off, goes on behind its end, or a word is no number.

    Notes
    -----
    Source: the binary and text forms of STL as commonly described, 3D Systems 1989; from memory.
    """
    if len(content) >= _HEADER and len(content) == _announced(content):
        return _binary(content)
    if is_text_stl(content):
        return _text(content)
    if len(content) < _HEADER:
        raise ValueError("it is cut off")
    announced = _announced(content)
    how = "it is cut off" if len(content) < announced else "it goes on behind its end"
    raise ValueError(f"{how}: {announced} bytes announced, {len(content)} there")


def _announced(content: bytes) -> int:
    return _HEADER + _FACET.itemsize * int(struct.unpack_from("<I", content, 80)[0])


def _binary(content: bytes) -> Parsed:
    facets = np.frombuffer(content, dtype=_FACET, offset=_HEADER)
    refuse_many(len(facets))
    return Parsed(facets["corners"].reshape(-1, 3), None)


def _text(content: bytes) -> Parsed:
    text = as_bytes(content)
    count = content.count(b"vertex") + content.count(b"VERTEX") + content.count(b"Vertex")
    refuse_many(count // 3)
    corners = np.empty((count, 3))
    found, trouble, at = read_facets(text, corners)
    if trouble == _NO_NUMBER:
        raise no_number(content, at)
    if trouble == _NO_TRIANGLE:
        raise ValueError(f"line {line_of(content, at)}: a facet that has not three corners")
    if trouble == _OPEN:
        raise ValueError("it is cut off")
    return Parsed(corners[:found], None)


@njit(cache=True)
def _letters(text: Bytes, at: int, end: int) -> int:
    """Fold up to eight letters, made small, into one number."""
    folded = 0
    for n in range(at, min(end, at + 8)):
        folded = (folded << 8) | (text[n] | 32)
    return folded if end - at <= 8 else -folded


_VERTEX = int.from_bytes(b"vertex", "big")
_SOLID = int.from_bytes(b"solid", "big")
_END_SOLID = int.from_bytes(b"endsolid", "big")
_FACET_WORD = int.from_bytes(b"facet", "big")
_END_FACET = int.from_bytes(b"endfacet", "big")


@njit(cache=True)
def read_facets(text: Bytes, corners: Floats) -> tuple[int, int, int]:
    """Read the corners of all facets of all solids.

    Returns how many corners there are, what is wrong (0 nothing, 1 a word is no number, 2 a facet has not
    three corners, 3 the end is missing), and where.
    """
    count, before, inside, ended, at = 0, 0, False, False, next_word(text, 0)
    while at < text.size:
        end = word_end(text, at)
        word = _letters(text, at, end)
        if word == _VERTEX:
            if not inside or count == corners.shape[0]:
                return count, _NO_TRIANGLE, at
            end, wrong = read_three(text, end, corners[count])
            if wrong >= 0:
                return count, _NO_NUMBER, wrong
            count += 1
        elif word == _FACET_WORD:
            if inside:
                return count, _NO_TRIANGLE, at
            inside, before = True, count
        elif word == _END_FACET:
            if not inside or count - before != 3:
                return count, _NO_TRIANGLE, at
            inside = False
        elif word in (_SOLID, _END_SOLID):
            # a name may be any words, also 'vertex'
            ended = word == _END_SOLID
            end = line_end(text, end)
        at = next_word(text, end)
    return count, 0 if ended and not inside else _OPEN, at
