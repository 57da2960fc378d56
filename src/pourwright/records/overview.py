"""The book at a glance."""

from __future__ import annotations

from typing import Any

from pourwright.records.book import Book
from pourwright.records.whole import TABLES


def count_rows(book: Book) -> dict[str, int]:
    """Count what is in a book.

    Parameters
    ----------
    book : Book
        Open.

    Returns
    -------
    dict
        Number of rows by table.
    """
    # names of tables are our own
    return {table: int(book.number(f"SELECT count(*) FROM {table}")) for table in TABLES}  # noqa: S608


def jobs_in(book: Book) -> list[dict[str, Any]]:
    """List the jobs that something was logged of, the latest first.

    Parameters
    ----------
    book : Book
        Open.

    Returns
    -------
    list of dict
        ``job``, ``variant``, ``castings`` and when the ``last`` pour began.
    """
    rows = book.rows(
        "SELECT job, variant, max(casting) AS castings, max(begun_utc) AS last FROM plans"
        " JOIN pours ON plan_id = plans.id GROUP BY job, variant ORDER BY last DESC NULLS LAST, job, variant"
    )
    return [dict(row) for row in rows]


def recent_entries(book: Book, most: int) -> list[dict[str, Any]]:
    """List what was entered last, the latest first.

    Parameters
    ----------
    book : Book
        Open.
    most : int
        So many at the most.

    Returns
    -------
    list of dict
        Of each its job, variant, casting and pour besides.
    """
    rows = book.rows(
        "SELECT entries.id, job, variant, casting, number AS pour, entries.kind, at_utc AS at, value, text,"
        " source FROM entries JOIN pours ON pours.id = pour_id JOIN plans ON plans.id = plan_id"
        " ORDER BY entries.rowid DESC LIMIT ?",
        (most,),
    )
    return [dict(row) for row in rows]
