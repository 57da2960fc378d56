"""On which line every key of a TOML text stands, by a tokenizer."""

from __future__ import annotations

import tomllib
from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass, field
from string import ascii_letters, digits

from pourwright.jobs.keypaths import KeyPath

_BARE_KEY = frozenset(ascii_letters + digits + "_-")
_BLANK = " \t"
_QUOTES = "\"'"


@dataclass(frozen=True, slots=True)
class Block:
    """A header and what stands below it; the top of the file is a block without one.

    Parameters
    ----------
    path : tuple
        Of the table.
    start, end : int
        Where its header begins and ends, as positions in the text.
    """

    path: KeyPath
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Assignment:
    """Where a key and its value stand.

    Parameters
    ----------
    block : int
        Number of its block.
    start : int
        Where the key begins.
    value, end : int
        Where the value begins and ends.
    inline : bool
        Whether it stands between braces.
    """

    block: int
    start: int
    value: int
    end: int
    inline: bool


@dataclass
class Layout:
    """Where everything of a TOML text stands; line ends count as one letter.

    Parameters
    ----------
    blocks : list of Block
        In their order, the top of the file first.
    assignments : dict
        By key path.
    inline : dict
        Position after the opening and of the closing brace, by key path of the inline table.
    """

    blocks: list[Block] = field(default_factory=lambda: [Block((), 0, 0)])
    assignments: dict[KeyPath, Assignment] = field(default_factory=dict)
    inline: dict[KeyPath, tuple[int, int]] = field(default_factory=dict)


class _Scanner:
    """Walks once over a TOML text that is known to be valid."""

    def __init__(self, text: str) -> None:
        self.layout = Layout()
        self.depth = 0
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
        line, start = self._line(), self.at
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
        self.layout.blocks.append(Block(path, start, self.at))
        return path

    def _inside(self, path: KeyPath) -> KeyPath:
        """Step into the last table of an array of tables."""
        return (*path, self.counts[path] - 1) if path in self.counts else path

    def _assignment(self, table: KeyPath) -> None:
        line, start = self._line(), self.at
        path = table + self._key()
        self._note(path, line, len(table))
        self.at += 1  # the equals sign
        self._skip_blank()
        value = self.at
        self._value(path)
        end = value + len(self.text[value : self.at].rstrip())
        number = len(self.layout.blocks) - 1
        self.layout.assignments[path] = Assignment(number, start, value, end, self.depth > 0)

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
        inside = self.at
        self.depth += 1
        while self._skip_space() and self._peek() != "}":
            self._assignment(path)
            self._skip_comma()
        self.depth -= 1
        self.layout.inline[path] = (inside, self.at)
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


def layout_of(text: str) -> Layout:
    r"""Find where every table, key and value of a TOML text stands.

    Parameters
    ----------
    text : str
        Valid TOML whose lines end in ``\n`` alone.

    Returns
    -------
    Layout
        Positions in the text.

    Examples
    --------
    >>> text = 'a = 1  # one\n[b]\nc = "two"\n'
    >>> found = layout_of(text).assignments[("b", "c")]
    >>> text[found.value : found.end]
    '"two"'
    """
    scanner = _Scanner(text)
    scanner.scan()
    return scanner.layout
