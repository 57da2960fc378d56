"""The whole book, table by table: out of one, and into an empty one all or nothing."""

from __future__ import annotations

import sqlite3
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from pourwright.foundation.errors import ConflictError, UserError
from pourwright.records.book import Book, Value
from pourwright.records.log import KINDS
from pourwright.records.stock import LOT_KINDS, REASONS

TABLES = (
    "plans",
    "pours",
    "photos",
    "entries",
    "series",
    "readings",
    "lots",
    "moves",
    "pieces",
    "learned",
    "reservations",
)
"""Every table, what is referred to before what refers to it."""
_WORDS: dict[tuple[str, str], Collection[str]] = {
    ("entries", "kind"): KINDS,
    ("lots", "kind"): LOT_KINDS,
    ("moves", "why"): REASONS,
}
_TYPES: dict[str, tuple[type, ...]] = {
    "INTEGER": (int,),
    "REAL": (float, int),
    "TEXT": (str,),
    "BLOB": (bytes,),
}


@dataclass(frozen=True)
class Column:
    """One column of a table.

    Parameters
    ----------
    name : str
        Its unit stands in it, where it has one.
    type : str
        ``INTEGER``, ``REAL``, ``TEXT`` or ``BLOB``.
    """

    name: str
    type: str


def columns_of(book: Book, table: str) -> tuple[Column, ...]:
    """List the columns of a table.

    Parameters
    ----------
    book : Book
        Open.
    table : str
        One of `TABLES`.

    Returns
    -------
    tuple of Column
    """
    rows = book.rows("SELECT name, type FROM pragma_table_info(?) ORDER BY cid", (_known(table),))
    return tuple(Column(row["name"], row["type"]) for row in rows)


def rows_of(book: Book, table: str) -> Iterator[tuple[Value, ...]]:
    """Give the rows of a table, some at a time.

    Parameters
    ----------
    book : Book
        Open; within `Book.reading`, so that all tables are of one state.
    table : str
        One of `TABLES`.

    Yields
    ------
    tuple
        In the order of `columns_of`.
    """
    key = ", ".join(_key(book, table))
    names = ", ".join(f"each.{column.name}" for column in columns_of(book, table))
    last: sqlite3.Row | None = None
    step = 20 if table == "photos" else 5000
    while True:
        after = "" if last is None else f" WHERE ({key}) > ({', '.join('?' * len(tuple(last)))})"
        # names of tables and columns are our own
        asked = f"SELECT {names}, {key} FROM {_known(table)} AS each{after} ORDER BY {key} LIMIT {step}"  # noqa: S608
        found = book.rows(asked, () if last is None else tuple(last))
        width = len(columns_of(book, table))
        yield from (tuple(row)[:width] for row in found)
        if len(found) < step:
            return
        last = tuple(found[-1])[width:]  # type: ignore[assignment]


def is_empty(book: Book) -> bool:
    """Tell whether nothing is in a book yet.

    Parameters
    ----------
    book : Book
        Open.

    Returns
    -------
    bool
    """
    # names of tables are our own
    return not any(book.row(f"SELECT 1 FROM {table} LIMIT 1") for table in TABLES)  # noqa: S608


def fill_book(
    book: Book, tables: Mapping[str, tuple[Sequence[str], Iterable[Sequence[Value]]]]
) -> dict[str, int]:
    """Put tables into an empty book, all or none.

    Parameters
    ----------
    book : Book
        Open.
    tables : mapping
        Names of the columns and rows, by table; what an earlier version did not have may be missing.

    Returns
    -------
    dict
        Number of rows by table.

    Raises
    ------
    ConflictError
        For a book that holds something, and rows that do not fit each other.
    UserError
        For tables, columns and values that a book does not have.
    """
    with book.writing():
        if not is_empty(book):
            raise ConflictError(
                "this book holds something already",
                where=str(book.path),
                allowed="an empty book, or none",
                todo="move it away first, or take it in elsewhere",
            )
        if unknown := set(tables) - set(TABLES):
            raise UserError(
                f"a book has no table '{min(unknown)}'", where="import", allowed=", ".join(TABLES)
            )
        # a correction may stand before what it corrects
        book.change("PRAGMA defer_foreign_keys = ON")
        counts = {table: _fill(book, table, *tables[table]) for table in TABLES if table in tables}
        _refuse_loose(book)
    return counts


def _fill(book: Book, table: str, names: Sequence[str], rows: Iterable[Sequence[Value]]) -> int:
    types = {column.name: column.type for column in columns_of(book, table)}
    if unknown := [name for name in names if name not in types]:
        raise UserError(f"no column '{unknown[0]}'", where=table, allowed=", ".join(types))
    if len(set(names)) != len(names):
        raise UserError("a column stands there twice", where=table, todo="leave one of them")
    checked = _checked(table, [(name, _TYPES[types[name]]) for name in names], rows)
    # names were compared with the book's own
    into = f"INSERT INTO {_known(table)} ({', '.join(names)}) VALUES ({', '.join('?' * len(names))})"  # noqa: S608
    return book.change_many(into, checked) if names else 0


def _checked(
    table: str, columns: Sequence[tuple[str, tuple[type, ...]]], rows: Iterable[Sequence[Value]]
) -> Iterator[Sequence[Value]]:
    for number, row in enumerate(rows, 1):
        if len(row) != len(columns):
            what = f"{len(row)} values where {len(columns)} belong"
            raise UserError(what, where=f"{table}, row {number}", todo="take the file as it was written")
        for (name, types), value in zip(columns, row, strict=True):
            words = _WORDS.get((table, name))
            if (value is not None and type(value) not in types) or (words and value not in words):
                raise UserError(
                    f"{name} cannot be {str(value)[:30]!r}",
                    where=f"{table}, row {number}",
                    todo="take the file as it was written",
                )
        yield row


def _refuse_loose(book: Book) -> None:
    loose = book.row("PRAGMA foreign_key_check")
    if loose is not None:
        raise ConflictError(
            f"a row of {loose['table']} refers to a row of {loose['parent']} that is not there",
            where="import",
            todo="take the files as they were written",
        )


def _key(book: Book, table: str) -> tuple[str, ...]:
    """What a table is ordered by: the order in which rows were added, else its key."""
    if table in {"readings", "reservations"}:
        rows = book.rows("SELECT name FROM pragma_table_info(?) WHERE pk > 0 ORDER BY pk", (table,))
        return tuple(row["name"] for row in rows)
    return ("rowid",)


def _known(table: str) -> str:
    return TABLES[TABLES.index(table)]
