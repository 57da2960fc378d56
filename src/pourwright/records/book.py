"""The shop's book while it is open: questions, and changes that are made whole or not at all."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from pourwright.records.refusals import in_words

Value = str | int | float | bytes | None


class Book:
    """An open book; made by `open_book`, and used by one thread at a time.

    Parameters
    ----------
    path : Path
        Where it lies.
    connection : sqlite3.Connection
        In autocommit mode.
    read_only : bool
        True where it lies in a place that cannot be written to.
    """

    def __init__(self, path: Path, connection: sqlite3.Connection, *, read_only: bool = False) -> None:
        self.path = path
        self.read_only = read_only
        self._connection = connection
        self._depth = 0

    @property
    def version(self) -> int:
        """Of its tables."""
        return int(self.number("PRAGMA user_version"))

    def rows(self, question: str, values: Sequence[Value] = ()) -> list[sqlite3.Row]:
        """All rows that answer a question."""
        with in_words(self.path):
            return self._connection.execute(question, values).fetchall()

    def bare_rows(self, question: str, values: Sequence[Value] = ()) -> list[tuple[Any, ...]]:
        """All rows that answer a question, without the names of columns: quicker where there are many."""
        cursor = self._connection.cursor()
        cursor.row_factory = None
        with in_words(self.path):
            return cursor.execute(question, values).fetchall()

    def row(self, question: str, values: Sequence[Value] = ()) -> sqlite3.Row | None:
        """The first row that answers a question, if any does."""
        with in_words(self.path):
            found: sqlite3.Row | None = self._connection.execute(question, values).fetchone()
            return found

    def number(self, question: str, values: Sequence[Value] = ()) -> float:
        """The one number that answers a question; 0 where none does."""
        found = self.row(question, values)
        return 0 if found is None or found[0] is None else found[0]

    def change(self, statement: str, values: Sequence[Value] = ()) -> sqlite3.Cursor:
        """Run a statement that changes the book, within `writing`."""
        self._refuse_alone()
        with in_words(self.path):
            return self._connection.execute(statement, values)

    def change_many(self, statement: str, rows: Iterable[Sequence[Value]]) -> int:
        """Run a statement once for each row, within `writing`; the number of rows it changed."""
        self._refuse_alone()
        with in_words(self.path):
            return self._connection.executemany(statement, rows).rowcount

    @contextmanager
    def writing(self) -> Iterator[None]:
        """Make changes that are all kept, on the disk, when the block ends, or not at all.

        Blocks may stand inside each other; the outermost decides. Another writer waits meanwhile.
        """
        with self._transaction("BEGIN IMMEDIATE"):
            yield

    @contextmanager
    def reading(self) -> Iterator[None]:
        """Ask several questions of one and the same state."""
        with self._transaction("BEGIN"):
            yield

    @contextmanager
    def _transaction(self, begin: str) -> Iterator[None]:
        if self._depth == 0:
            with in_words(self.path):
                self._connection.execute(begin)
        self._depth += 1
        try:
            yield
            if self._depth == 1:
                with in_words(self.path):
                    self._connection.execute("COMMIT")
        except BaseException:
            # a full disk may have rolled it back already
            if self._depth == 1 and self._connection.in_transaction:
                self._connection.execute("ROLLBACK")
            raise
        finally:
            self._depth -= 1

    def _refuse_alone(self) -> None:
        if self._depth == 0:
            message = "a change of the book belongs into `with book.writing()`"
            raise RuntimeError(message)
