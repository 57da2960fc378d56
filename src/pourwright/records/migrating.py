"""From each version of the book to the next: numbered steps, each whole or not at all, a copy before."""

from __future__ import annotations

import os
import sqlite3
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from pathlib import Path

from pourwright.records.refusals import BookError

APPLICATION = 0x706F7572
"""Marks the file as ours; it spells 'pour'."""


@dataclass(frozen=True)
class Migration:
    """One step.

    Parameters
    ----------
    number : int
        The version that it leads to.
    name : str
        Of its file.
    statements : tuple of str
        In their order.
    """

    number: int
    name: str
    statements: tuple[str, ...]


@cache
def migrations() -> tuple[Migration, ...]:
    """Read all steps.

    Returns
    -------
    tuple of Migration
        From the first version on.
    """
    folder = files("pourwright.records") / "migrations"
    named = sorted((one for one in folder.iterdir() if one.name.endswith(".sql")), key=lambda one: one.name)
    return tuple(
        Migration(int(one.name[:4]), one.name, tuple(statements_of(one.read_text("utf8")))) for one in named
    )


def statements_of(text: str) -> Iterator[str]:
    """Take SQL apart at the ends of its statements.

    Parameters
    ----------
    text : str
        Of a file.

    Yields
    ------
    str
        One statement.
    """
    gathered = ""
    for line in text.splitlines(keepends=True):
        gathered += line
        if sqlite3.complete_statement(gathered):
            yield gathered
            gathered = ""


LATEST = migrations()[-1].number


def version_of(connection: sqlite3.Connection) -> int:
    """Tell the version of an open book.

    Parameters
    ----------
    connection : sqlite3.Connection
        Open.

    Returns
    -------
    int
        0 for a file that holds nothing yet.
    """
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def bring_up_to_date(connection: sqlite3.Connection, place: Path) -> None:
    """Do the steps that are missing.

    Parameters
    ----------
    connection : sqlite3.Connection
        In autocommit mode.
    place : Path
        Of the file; what it was before a step is kept beside it as ``book.before-N.sqlite``.
    """
    while (found := version_of(connection)) < LATEST:
        # a new book is made whole at once; an old one goes step by step
        steps = [step for step in migrations() if step.number > found]
        _do(connection, place, steps if found == 0 else steps[:1])


def _do(connection: sqlite3.Connection, place: Path, steps: Sequence[Migration]) -> None:
    connection.execute("BEGIN IMMEDIATE")
    try:
        # asked again now that nobody else writes: another may have done it meanwhile
        if version_of(connection) == steps[0].number - 1:
            _keep_before(place, steps[0].number)
            for step in steps:
                for statement in step.statements:
                    connection.execute(statement)
            connection.execute(f"PRAGMA application_id = {APPLICATION}")
            connection.execute(f"PRAGMA user_version = {steps[-1].number}")
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise


def _keep_before(place: Path, number: int) -> None:
    if number == 1:
        return
    goal = place.with_name(f"{place.stem}.before-{number}{place.suffix}")
    try:
        back_up(place, goal)
    except OSError as error:
        what = f"the book must be brought up to date, but no copy can be kept: {error.strerror or error}"
        raise BookError(what, where=str(goal), todo="make room or allow writing there") from error


def back_up(place: Path, goal: Path) -> None:
    """Copy a book that may be in use, whole or not at all.

    Parameters
    ----------
    place : Path
        Of the book.
    goal : Path
        Of the copy.
    """
    handle, beside = tempfile.mkstemp(prefix=f".{goal.name}.", dir=goal.parent)
    os.close(handle)
    try:
        with closing(sqlite3.connect(place)) as source, closing(sqlite3.connect(beside)) as copy:
            source.backup(copy)
        Path(beside).chmod(place.stat().st_mode & 0o777)
        Path(beside).replace(goal)
    except BaseException:
        Path(beside).unlink(missing_ok=True)
        raise
