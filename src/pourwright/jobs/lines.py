"""On which line every key of a TOML text stands, by a tokenizer."""

from __future__ import annotations

import tomllib
from bisect import bisect_right
from collections.abc import Mapping
from string import ascii_letters, digits

from pourwright.jobs.keypaths import KeyPath

_BARE_KEY = frozenset(ascii_letters + digits + "_-")
_BLANK = " \t"
_QUOTES = "\"'"


class _Scanner:
    """Walks once over a TOML text that is known to be valid."""

    def __init__(self, text: str) -> None:
        self.text = text.replace("\r\n", "\n")
        self.at = 0
        self.starts = [0, *(i + 1 for i, letter in enumerate(self.text) if letter == "\n")]
        self.lines: dict[KeyPath, int] = {}
        self.counts: dict[KeyPath, int] = {}

    def scan(self) -> None:
        table: KeyPath = ()
        while self._skip_space():
            if self.text[self.at] == "[":
                table = self._header()
            else:
                self._assignment(table)

    def _peek(self, length: int = 1) -> str:
        return self.text[self.at : self.at + length]

    def _skip_blank(self) -> None:
        while self._peek() and self._peek() in _BLANK:
            self.at += 1

    def _skip_space(self) -> bool:
        """Skip blanks, line ends and comments; tell whether anything is left."""
        while self.at < len(self.text):
            if self._peek() == "#":
                self.at = self._line_end()
            elif self._peek() in " \t\n":
                self.at += 1
            else:
                return True
        return False

    def _line_end(self) -> int:
        found = self.text.find("\n", self.at)
        return len(self.text) if found < 0 else found

    def _line(self) -> int:
        return bisect_right(self.starts, self.at)

    def _note(self, path: KeyPath, line: int, known: int) -> None:
        """Note a path, and the parents that no line has named yet."""
        for length in range(known + 1, len(path)):
            self.lines.setdefault(path[:length], line)
        self.lines[path] = line

    def _header(self) -> KeyPath:
        line = self._line()
        many = self._peek(2) == "[["
        self.at += 2 if many else 1
        keys = self._key()
        self.at += 2 if many else 1
        path: KeyPath = ()
        for key in keys[:-1]:
            path = self._inside((*path, key))
        path = (*path, keys[-1])
        if many:
            self.lines.setdefault(path, line)
            count = self.counts.get(path, 0)
            self.counts[path] = count + 1
            path = (*path, count)
        self._note(path, line, 0)
        return path

    def _inside(self, path: KeyPath) -> KeyPath:
        """Step into the last table of an array of tables."""
        return (*path, self.counts[path] - 1) if path in self.counts else path

    def _assignment(self, table: KeyPath) -> None:
        line = self._line()
        path = table + self._key()
        self._note(path, line, len(table))
        self.at += 1  # the equals sign
        self._skip_blank()
        self._value(path)

    def _key(self) -> tuple[str, ...]:
        parts = []
        while True:
            self._skip_blank()
            parts.append(self._quoted_key() if self._peek() in _QUOTES else self._bare_key())
            self._skip_blank()
            if self._peek() != ".":
                return tuple(parts)
            self.at += 1

    def _bare_key(self) -> str:
        start = self.at
        while self._peek() in _BARE_KEY:
            self.at += 1
        return self.text[start : self.at]

    def _quoted_key(self) -> str:
        start = self.at
        self._string()
        found = tomllib.loads(f"key = {self.text[start : self.at]}")
        return str(found["key"])

    def _value(self, path: KeyPath) -> None:
        readers = {"[": self._array, "{": self._inline_table}
        first = self._peek()
        if first in readers:
            readers[first](path)
        elif first in _QUOTES:
            self._string()
        else:
            while self.at < len(self.text) and self._peek() not in ",]}#\n":
                self.at += 1

    def _string(self) -> None:
        quote = self._peek()
        many = self._peek(3) == quote * 3
        close = quote * 3 if many else quote
        self.at += len(close)
        while not self.text.startswith(close, self.at):
            self.at += 2 if quote == '"' and self._peek() == "\\" else 1
        self.at += len(close)
        # up to two quotes may stand before the closing three
        while many and self._peek() == quote:
            self.at += 1

    def _array(self, path: KeyPath) -> None:
        self.at += 1
        count = 0
        while self._skip_space() and self._peek() != "]":
            self.lines[(*path, count)] = self._line()
            self._value((*path, count))
            count += 1
            self._skip_comma()
        self.at += 1

    def _inline_table(self, path: KeyPath) -> None:
        self.at += 1
        while self._skip_space() and self._peek() != "}":
            self._assignment(path)
            self._skip_comma()
        self.at += 1

    def _skip_comma(self) -> None:
        self._skip_space()
        if self._peek() == ",":
            self.at += 1


def key_lines(text: str) -> Mapping[KeyPath, int]:
    r"""Find the line of every key of a TOML text.

    Parameters
    ----------
    text : str
        Valid TOML; check it with tomllib first.

    Returns
    -------
    Mapping
        Line, counted from 1, by key path. A list has one path per element, a table that is only
        implied stands where it is first implied.

    Examples
    --------
    >>> key_lines('a.b = 1\n[[c]]\nd = {e = 2}\n')[("c", 0, "d", "e")]
    3
    """
    scanner = _Scanner(text)
    scanner.scan()
    return scanner.lines
