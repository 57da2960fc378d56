"""XML read as a stream: no document type, no entities, no depth, nothing fetched, long tables fast."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from typing import Any, Protocol
from xml.parsers import expat

from pourwright.geometry.files.threemf_tables import Table

_DEEPEST = 64
# bytes that may pass without a tag
_LONGEST_TAG = 8_000_000
_TABLE = re.compile(rb"<(?:vertices|triangles)\s*>")
# an opening tag that is cut by the end of a piece
_LONGEST_OPENING = 64
Attributes = dict[str, str]
Starts = dict[str, Callable[[Attributes], None]]
Ends = dict[str, Callable[[], None]]


class Taker(Protocol):
    """Takes tags by their names; where it opens a table, that takes the rows."""

    starts: Starts
    ends: Ends
    table: Table | None

    def space(self, prefix: str | None, address: str) -> None:
        """Take a name space."""


class _Tags:
    """Hands tags to whoever waits for their names, and counts how deep they are nested."""

    def __init__(self, taker: Taker) -> None:
        self._taker = taker
        self._depth = self.seen = 0

    def start(self, name: str, given: Attributes) -> None:
        self._depth += 1
        self.seen += 1
        if self._depth > _DEEPEST:
            raise ValueError(f"its XML is nested more than {_DEEPEST} deep")
        if name in self._taker.starts:
            self._taker.starts[name](given)

    def end(self, name: str) -> None:
        self._depth -= 1
        if name in self._taker.ends:
            self._taker.ends[name]()


def _refuse(*_given: object) -> None:
    raise ValueError("its XML declares a document type or entities, which the format forbids")


def parse(pieces: Iterable[bytes], taker: Taker) -> None:
    """Feed XML to whoever takes its tags.

    Parameters
    ----------
    pieces : iterable of bytes
        The XML, at most a megabyte at a time.
    taker : Taker
        Takes them.

    Raises
    ------
    ValueError
        For XML that is not whole or not allowed.

    Notes
    -----
    expat reads everything but the rows of tables, which a compiled loop reads while they are plain: tags
    without content. At anything else, a comment, an entity, a word that is no number, expat gets the stretch.
    """
    tags = _Tags(taker)
    parser = expat.ParserCreate(namespace_separator=" ")
    parser.StartElementHandler, parser.EndElementHandler = tags.start, tags.end
    parser.StartNamespaceDeclHandler = taker.space
    parser.StartDoctypeDeclHandler = parser.EntityDeclHandler = _refuse
    rest, silent, before = b"", 0, 0
    try:
        for piece in pieces:
            rest = _fed(parser, rest + piece, taker, tags)
            silent, before = (0, tags.seen) if tags.seen > before else (silent + len(piece), before)
            if silent > _LONGEST_TAG:
                raise ValueError("one tag of its XML is longer than 8 MB")
        parser.Parse(rest, True)
    except expat.ExpatError as broken:
        raise ValueError(f"its XML is broken: {broken}") from broken
    except LookupError as missing:
        raise ValueError(f"a tag of its XML lacks {missing}") from missing


def _fed(parser: Any, text: bytes, taker: Taker, tags: _Tags) -> bytes:
    """Feed a piece; gives what has to wait for the next one."""
    while True:
        if taker.table is None:
            opening = _TABLE.search(text)
            if opening is None:
                return _fed_but_last_tag(parser, text)
            # only expat knows whether this is a tag, or stands within a comment
            parser.Parse(text[: opening.end()], False)
            text = text[opening.end() :]
            continue
        end = text.find(b"</")
        cut = end if end >= 0 else text.rfind(b">") + 1
        if not taker.table.add_plain(text[:cut]):
            # what follows may stand within a remark: from here on only expat knows
            taker.table = None
            continue
        tags.seen += cut > 0
        text = text[cut:]
        if end < 0:
            return text
        taker.table = None


def _fed_but_last_tag(parser: Any, text: bytes) -> bytes:
    begin = text.rfind(b"<", max(0, len(text) - _LONGEST_OPENING))
    if begin < 0:
        begin = len(text)
    parser.Parse(text[:begin], False)
    return text[begin:]
