"""The vertices and triangles of a 3MF model, which are nearly all of its XML."""

import numpy as np
from numba import njit

from pourwright.geometry.files.number_kernels import (
    count_words,
    is_space,
    next_word,
    read_number,
    read_numbers,
)
from pourwright.geometry.files.parsed import refuse_many
from pourwright.geometry.files.text import Bytes, as_bytes, no_number
from pourwright.geometry.mesh import Floats

_AT_ONCE = 300_000
_SLASH, _EQUALS, _SMALLER, _GREATER, _AMPERSAND = 47, 61, 60, 62, 38


class Table:
    """Rows of three numbers, which come as words or as a stretch of XML.

    Parameters
    ----------
    tag : str
        Of its rows: "vertex" with x, y and z, or "triangle" with v1, v2 and v3.
    """

    def __init__(self, tag: str) -> None:
        self._tag = as_bytes(tag.encode())
        self._words: list[str] = []
        self._done: list[Floats] = []
        self._rows = 0

    def add(self, first: str, second: str, third: str) -> None:
        """Take the words of one row."""
        self._words += (first, second, third)
        if len(self._words) >= _AT_ONCE:
            self._turn()

    def add_plain(self, xml: bytes) -> bool:
        """Take a stretch of XML that holds nothing but whole rows; says no where it holds anything else."""
        rows = np.empty((xml.count(b"<"), 3))
        if read_rows(as_bytes(xml), self._tag, rows) != len(rows):
            return False
        self._turn()
        self._keep(rows)
        return True

    def _turn(self) -> None:
        if not self._words:
            return
        text = " ".join(self._words).encode()
        numbers = np.empty(len(self._words))
        if count_words(as_bytes(text)) != numbers.size:
            raise ValueError("a number is missing")
        wrong = read_numbers(as_bytes(text), numbers)
        if wrong >= 0:
            raise ValueError(str(no_number(text, wrong)).partition(": ")[2])
        self._words = []
        self._keep(numbers.reshape(-1, 3))

    def _keep(self, rows: Floats) -> None:
        self._done.append(rows)
        self._rows += len(rows)
        refuse_many(self._rows)

    def take(self) -> Floats:
        """Give them all, and begin anew."""
        self._turn()
        table = np.concatenate(self._done) if self._done else np.empty((0, 3))
        self._done, self._rows = [], 0
        return table


@njit(cache=True)
def _column(text: Bytes, at: int, end: int, numbered: bool) -> int:
    """Give which number an attribute holds: x, y, z, or v1, v2, v3; -1 for any other attribute."""
    if numbered:
        known = end - at == 2 and text[at] == 118 and 49 <= text[at + 1] <= 51
        return int(text[at + 1]) - 49 if known else -1
    return int(text[at]) - 120 if end - at == 1 and 120 <= text[at] <= 122 else -1


@njit(cache=True)
def _name_end(text: Bytes, at: int) -> int:
    """Give where the name of an attribute ends: before its sign of equality, -1 for anything else."""
    while at < text.size and not is_space(text[at]) and text[at] != _SLASH and text[at] != _GREATER:
        if text[at] == _EQUALS:
            return at
        at += 1
    return -1


@njit(cache=True)
def _read_row(text: Bytes, at: int, numbered: bool, row: Floats) -> int:
    """Read the attributes of a row; returns what follows its end, or -1 for what is not plain."""
    seen = 0
    while True:
        at = next_word(text, at)
        if at + 1 < text.size and text[at] == _SLASH:
            return at + 2 if seen == 7 and text[at + 1] == _GREATER else -1
        end = _name_end(text, at)
        if end < 0 or end + 1 >= text.size or (text[end + 1] != 34 and text[end + 1] != 39):
            return -1
        column, quote = _column(text, at, end, numbered), text[end + 1]
        at = end + 2
        if column >= 0:
            row[column], at = read_number(text, at, quote)
            seen = seen | (1 << column) if not seen & (1 << column) else 8
        else:
            while at < text.size and text[at] != quote and text[at] != _SMALLER and text[at] != _AMPERSAND:
                at += 1
        if at < 0 or at >= text.size or text[at] != quote:
            return -1
        at += 1
        if at < text.size and not is_space(text[at]) and text[at] != _SLASH:
            return -1


@njit(cache=True)
def read_rows(text: Bytes, tag: Bytes, rows: Floats) -> int:
    """Read plain tags without content; returns how many there are, or -1 where there is anything else."""
    at, count = next_word(text, 0), 0
    while at < text.size:
        if text[at] != _SMALLER or at + tag.size + 1 >= text.size or count == rows.shape[0]:
            return -1
        for n in range(tag.size):
            if text[at + 1 + n] != tag[n]:
                return -1
        at += tag.size + 1
        if not is_space(text[at]):
            return -1
        at = _read_row(text, at, tag.size > 6, rows[count])
        if at < 0:
            return -1
        count += 1
        at = next_word(text, at)
    return count
