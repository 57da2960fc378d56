"""What loggers wrote: series of readings, each attached to a pour."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from pourwright.foundation.errors import NotThereError
from pourwright.records.book import Book
from pourwright.records.moments import read, read_maybe, written


@dataclass(frozen=True, kw_only=True)
class Series:
    """One column of a logger's file.

    Parameters
    ----------
    id : int
        In this book.
    pour_id : int
        The pour that it was taken during.
    name : str
        As the file calls it.
    place : str
        Where the sensor was, in words.
    file_hash : str
        sha256 of the file.
    taken_back : datetime, optional
        When it was taken back: it was attached to the wrong pour, say.
    """

    id: int
    pour_id: int
    name: str
    place: str
    file_hash: str
    taken_back: datetime | None = None


def keep_series(
    book: Book,
    pour_id: int,
    name: str,
    file_hash: str,
    readings: Iterable[tuple[datetime, float]],
    *,
    place: str = "",
) -> Series:
    """Keep a series with its readings, all or none; the same column of the same file again stays as it is.

    One that was taken back counts again, and is where it is told to be now.

    Parameters
    ----------
    book : Book
        Open.
    pour_id : int
        The pour.
    name : str
        As the file calls it.
    file_hash : str
        sha256 of the file.
    readings : iterable of (datetime, float)
        Of two at the same moment the later in the file counts.
    place : str
        Where the sensor was.

    Returns
    -------
    Series
    """
    key = (pour_id, file_hash, name)
    with book.writing():
        found = book.row("SELECT * FROM series WHERE pour_id = ? AND file_hash = ? AND name = ?", key)
        if found is not None:
            where = place if found["taken_back_utc"] else found["place"]
            book.change(
                "UPDATE series SET taken_back_utc = NULL, place = ? WHERE id = ?", (where, found["id"])
            )
            return series_by_id(book, found["id"])
        number = book.change(
            "INSERT INTO series (pour_id, file_hash, name, place) VALUES (?,?,?,?)", (*key, place)
        ).lastrowid
        rows = ((number, written(at), value) for at, value in readings)
        book.change_many("INSERT OR REPLACE INTO readings VALUES (?,?,?)", rows)
    return series_by_id(book, number or 0)


def series_by_id(book: Book, series_id: int) -> Series:
    """Find a series.

    Parameters
    ----------
    book : Book
        Open.
    series_id : int
        In this book.

    Returns
    -------
    Series

    Raises
    ------
    NotThereError
        Where there is none.
    """
    found = book.row("SELECT * FROM series WHERE id = ?", (series_id,))
    if found is None:
        raise NotThereError(f"no series {series_id} is in the book", where="series", todo="look at the list")
    return _series(found)


def series_of(book: Book, pour_id: int, *, taken_back: bool = False) -> tuple[Series, ...]:
    """List the series of a pour.

    Parameters
    ----------
    book : Book
        Open.
    pour_id : int
        The pour.
    taken_back : bool
        Whether those that were taken back are listed too.

    Returns
    -------
    tuple of Series
    """
    asked = "SELECT * FROM series WHERE pour_id = ?1 AND (?2 OR taken_back_utc IS NULL) ORDER BY id"
    return tuple(_series(row) for row in book.rows(asked, (pour_id, taken_back)))


def readings_of(book: Book, series_id: int, *, most: int | None = None) -> tuple[tuple[datetime, float], ...]:
    """Give the readings of a series in the order of time.

    Parameters
    ----------
    book : Book
        Open.
    series_id : int
        The series.
    most : int, optional
        So many at the most, which a drawing needs: the first of each equal stretch of time, the highest and
        the lowest.

    Returns
    -------
    tuple of (datetime, float)
    """
    count = book.number("SELECT count(*) FROM readings WHERE series_id = ?", (series_id,))
    if most is not None and count > most:
        return _thinned(book, series_id, most)
    rows = book.rows("SELECT at_utc, value FROM readings WHERE series_id = ? ORDER BY at_utc", (series_id,))
    return tuple((read(row[0]), row[1]) for row in rows)


def _thinned(book: Book, series_id: int, most: int) -> tuple[tuple[datetime, float], ...]:
    # asked one by one, each is found at an end of the table and not by going through it
    ends = (
        "SELECT (SELECT min(at_utc) FROM readings WHERE series_id = ?1),"
        " (SELECT max(at_utc) FROM readings WHERE series_id = ?1)"
    )
    first, last = (read(text) for text in tuple(book.rows(ends, (series_id,))[0]))
    step = (last - first) / max(most - 2, 1)
    found: dict[str, float] = {}
    after = "SELECT at_utc, value FROM readings WHERE series_id = ? AND at_utc >= ? ORDER BY at_utc LIMIT 1"
    for place in range(max(most - 2, 1)):
        row = book.row(after, (series_id, written(first + place * step)))
        found |= {} if row is None else {row[0]: row[1]}
    for extreme in ("max(value)", "min(value)"):
        # one of two words of our own
        row = book.row(f"SELECT at_utc, {extreme} FROM readings WHERE series_id = ?", (series_id,))  # noqa: S608
        found |= {} if row is None else {row[0]: row[1]}
    return tuple((read(at), value) for at, value in sorted(found.items()))


def curve_of(book: Book, series_id: int) -> list[tuple[float, float]]:
    """Give the readings of a series as bare numbers, which is quicker where there are many.

    Parameters
    ----------
    book : Book
        Open.
    series_id : int
        The series.

    Returns
    -------
    list of (float, float)
        Seconds since 1970, UTC [s], to the millisecond, rising; and the value.
    """
    # 2440587.5 is the Julian day on which 1970 began
    asked = (
        "SELECT round((julianday(at_utc) - 2440587.5) * 86400.0, 3), value FROM readings"
        " WHERE series_id = ? ORDER BY at_utc"
    )
    return book.bare_rows(asked, (series_id,))


def take_back_series(book: Book, series_id: int, at: datetime) -> Series:
    """Take a series back: it was attached to the wrong pour, say. Its readings stay in the book.

    Parameters
    ----------
    book : Book
        Open.
    series_id : int
        The series.
    at : datetime
        When; one that was taken back before stays so.

    Returns
    -------
    Series

    Raises
    ------
    NotThereError
        Where there is none.
    """
    with book.writing():
        book.change(
            "UPDATE series SET taken_back_utc = coalesce(taken_back_utc, ?) WHERE id = ?",
            (written(at), series_id),
        )
    return series_by_id(book, series_id)


def _series(row: sqlite3.Row) -> Series:
    return Series(
        id=row["id"],
        pour_id=row["pour_id"],
        name=row["name"],
        place=row["place"],
        file_hash=row["file_hash"],
        taken_back=read_maybe(row["taken_back_utc"]),
    )
