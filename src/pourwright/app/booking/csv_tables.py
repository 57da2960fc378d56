"""Tables as CSV (RFC 4180), with nothing told apart from an empty text: the one bare, the other in quotes."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from pourwright.foundation.errors import TooMuchError, UserError

_AGAIN = "take the file as it was written"
Cell = str | int | float | None
_BARE = re.compile(r'[^",\r\n]*')
_QUOTED = re.compile(r'"((?:[^"]|"")*)"')


def csv_lines(names: Sequence[str], rows: Iterable[Sequence[Cell]]) -> Iterator[str]:
    r"""Write a table.

    Parameters
    ----------
    names : sequence of str
        Of the columns.
    rows : iterable of sequence
        Numbers are written bare, texts in quotes, None as nothing.

    Yields
    ------
    str
        A record with its CRLF.

    Examples
    --------
    >>> list(csv_lines(["a", "b", "c"], [(1.5, "said 'x'", None)]))[1]
    '1.5,"said \'x\'",\r\n'
    """
    yield ",".join(names) + "\r\n"
    for row in rows:
        yield ",".join(_field(cell) for cell in row) + "\r\n"


def _field(cell: Cell) -> str:
    if cell is None:
        return ""
    if isinstance(cell, str):
        return '"' + cell.replace('"', '""') + '"'
    return repr(cell)


def read_csv(text: str, where: str, most: int) -> Iterator[list[str | None]]:
    """Read a table, record by record.

    Parameters
    ----------
    text : str
        Of the file; lines may end in CRLF or LF.
    where : str
        What messages call it.
    most : int
        So many records at the most.

    Yields
    ------
    list
        Texts; None for a bare field with nothing in it.

    Raises
    ------
    UserError
        For what is no CSV, and for too many records.
    """
    place, number = 0, 0
    while place < len(text):
        number += 1
        if number > most + 1:
            raise TooMuchError(f"more than {most} rows", where=where, allowed=f"{most} rows", todo=_AGAIN)
        record, place = _record(text, place, f"{where}, record {number}")
        yield record


def _record(text: str, place: int, where: str) -> tuple[list[str | None], int]:
    record: list[str | None] = []
    while True:
        cell, place = _cell(text, place, where)
        record.append(cell)
        end = text[place : place + 1]
        if end == ",":
            place += 1
        elif text.startswith("\r\n", place):
            return record, place + 2
        elif end in {"\n", ""}:
            return record, place + 1
        else:
            what = f"{text[place : place + 10]!r} stands after a field"
            raise UserError(what, where=where, todo=_AGAIN)


def _cell(text: str, place: int, where: str) -> tuple[str | None, int]:
    if not text.startswith('"', place):
        found = _BARE.match(text, place)
        assert found is not None
        return found[0] or None, found.end()
    found = _QUOTED.match(text, place)
    if found is None:
        raise UserError("a quote is not closed", where=where, todo=_AGAIN)
    return found[1].replace('""', '"'), found.end()
