"""OBJ: lines of vertices and of polygons that name them."""

import re

import numpy as np
from numba import njit

from pourwright.geometry.files.number_kernels import (
    HASH,
    is_space,
    line_end,
    next_word,
    read_three,
    read_whole,
)
from pourwright.geometry.files.parsed import Parsed, refuse_many
from pourwright.geometry.files.polygons import triangulated
from pourwright.geometry.files.text import Bytes, as_bytes, line_of, no_number
from pourwright.geometry.mesh import Floats, Integers

_NO_NUMBER, _NO_CORNER, _FEW = 1, 2, 3
_FREE_FORM = re.compile(rb"^[ \t]*(?:surf|curv|curv2)[ \t]", re.MULTILINE)


def is_obj(head: bytes) -> bool:
    """Tell from the first kilobyte whether a file is OBJ: text with a line of a vertex.

    Parameters
    ----------
    head : bytes
        The file's beginning.

    Returns
    -------
    bool
    """
    return head.isascii() and bool(re.search(rb"^\s*v\s", head, re.MULTILINE))


def read_obj(content: bytes) -> Parsed:
    """Read an OBJ file: all its objects and groups as one.

    Parameters
    ----------
    content : bytes
        Text; corners may be counted from the first vertex (1) or back from the last one (-1).

    Returns
    -------
    Parsed
        Polygons cut into triangles; materials, lines, points, normals and textures left out.

    Raises
    ------
    ValueError
        With the line, where a word is no number or a corner no vertex; for free-form surfaces.

    Notes
    -----
    Source: the OBJ text form, Wavefront appendix B1 of 1995; from memory.
    """
    if _FREE_FORM.search(content):
        raise ValueError("it holds free-form surfaces, which are no triangles")
    if b"\\" in content:
        content = re.sub(rb"\\\r?\n", b"  ", content)
    text = as_bytes(content)
    vertex_count, face_count, corner_count = (int(n) for n in count_lines(text))
    refuse_many(corner_count - 2 * face_count)
    vertices, corners = np.empty((vertex_count, 3)), np.empty(corner_count, dtype=np.int64)
    sizes = np.empty(face_count, dtype=np.int64)
    trouble, at = read_lines(text, vertices, corners, sizes)
    if trouble == _NO_NUMBER:
        raise no_number(content, at)
    if trouble:
        what = "a face has fewer than three corners" if trouble == _FEW else "a corner that names no vertex"
        raise ValueError(f"line {line_of(content, at)}: {what}")
    return Parsed(vertices, triangulated(vertices, corners, sizes))


@njit(cache=True)
def _keyword(text: Bytes, at: int) -> tuple[int, int]:
    """Give the letter of a keyword of one letter and where it ends; 0 for any other line."""
    at = next_word(text, at)
    if at + 1 < text.size and is_space(text[at + 1]):
        return int(text[at]), at + 1
    return 0, at


@njit(cache=True)
def _next_corner(text: Bytes, at: int) -> tuple[bool, int]:
    """Go to the next word of this line; says whether there is one."""
    while at < text.size and is_space(text[at]) and text[at] != 10 and text[at] != 13:
        at += 1
    there = at < text.size and text[at] != 10 and text[at] != 13 and text[at] != HASH
    return there, at


@njit(cache=True)
def _past(text: Bytes, at: int) -> int:
    while at < text.size and not is_space(text[at]):
        at += 1
    return at


@njit(cache=True)
def count_lines(text: Bytes) -> tuple[int, int, int]:
    """Count vertices, faces and corners of faces."""
    vertices = faces = corners = at = 0
    while at < text.size:
        key, at = _keyword(text, at)
        if key == 118:
            vertices += 1
        elif key == 102:
            faces += 1
            there, at = _next_corner(text, at)
            while there:
                corners += 1
                there, at = _next_corner(text, _past(text, at))
        at = line_end(text, at)
    return vertices, faces, corners


@njit(cache=True)
def _corner(text: Bytes, at: int, seen: int) -> tuple[int, int]:
    """Read one corner of a face, its vertex counted from 0; its end is -1 where it is none."""
    number, end = read_whole(text, at)
    if end < 0 or number == 0 or not (end == text.size or is_space(text[end]) or text[end] == 47):
        return 0, -1
    return number - 1 if number > 0 else seen + number, _past(text, end)


@njit(cache=True)
def read_lines(text: Bytes, vertices: Floats, corners: Integers, sizes: Integers) -> tuple[int, int]:
    """Read vertices, corners and how many corners each face has; returns what is wrong and where."""
    seen = used = face = at = 0
    while at < text.size:
        key, at = _keyword(text, at)
        begin = at
        if key == 118:
            at, wrong = read_three(text, at, vertices[seen])
            if wrong >= 0:
                return _NO_NUMBER, wrong
            seen += 1
        elif key == 102:
            first = used
            there, at = _next_corner(text, at)
            while there:
                corners[used], end = _corner(text, at, seen)
                if end < 0 or not 0 <= corners[used] < vertices.shape[0]:
                    return _NO_CORNER, at
                used += 1
                there, at = _next_corner(text, end)
            sizes[face] = used - first
            if sizes[face] < 3:
                return _FEW, begin
            face += 1
        at = line_end(text, at)
    return 0, at
