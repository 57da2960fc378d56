"""The whole book out of its file, as CSV tables or one JSON, and back into an empty one."""

from __future__ import annotations

import base64
import binascii
import hashlib
import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from pourwright.app.booking.csv_tables import csv_lines, read_csv
from pourwright.app.booking.places import book_place
from pourwright.app.own_folder import OwnFolder
from pourwright.foundation.errors import NotThereError, UserError
from pourwright.foundation.files import canonical_json, write_atomically
from pourwright.records import TABLES, Book, columns_of, fill_book, open_book, rows_of

SCHEMA, MAJOR = "pourwright-book", 1
MANIFEST = "book.json"
PHOTOS = "photos"
MOST_ROWS = 1_000_000
"""Of one table."""
_FOLDER = OwnFolder("a book in tables", MANIFEST, f"{SCHEMA}/", ("*.csv", f"{PHOTOS}/*"))
_AGAIN = "take the files as they were written"
_NAME = "name a file or folder that 'pourwright book export' has written"


def export_book(shop: Path, target: Path) -> dict[str, int]:
    """Write everything that a book holds.

    Parameters
    ----------
    shop : Path
        The shop's folder.
    target : Path
        A file that ends in ``.json``, for one JSON; else a folder, for a CSV file of each table, with the
        photos beside.

    Returns
    -------
    dict
        Number of rows by table.

    Raises
    ------
    UserError
        Where it cannot be written.
    """
    with open_book(book_place(shop), make=False) as book, book.reading():
        return (_to_json if target.suffix == ".json" else _to_csv)(book, target)


def _to_json(book: Book, target: Path) -> dict[str, int]:
    content, counts = _whole(book)
    try:
        write_atomically(target, content)
    except OSError as error:
        raise _unwritable(target, error) from error
    return counts


def book_json(shop: Path) -> bytes:
    """Give everything that a book holds as one JSON.

    Parameters
    ----------
    shop : Path
        The shop's folder.

    Returns
    -------
    bytes
        As `export_book` writes it.

    Raises
    ------
    NotThereError
        Where there is no book yet.
    """
    with open_book(book_place(shop), make=False) as book, book.reading():
        return _whole(book)[0]


def _whole(book: Book) -> tuple[bytes, dict[str, int]]:
    tables: dict[str, dict[str, list[Any]]] = {
        table: {
            "columns": [column.name for column in columns_of(book, table)],
            "rows": [[_plain(cell) for cell in row] for row in rows_of(book, table)],
        }
        for table in TABLES
    }
    whole = {
        "schema": f"{SCHEMA}/{MAJOR}.0",
        "version": book.version,
        "tables": tables,
        "sha256": _sum(tables),
    }
    return canonical_json(whole), {table: len(content["rows"]) for table, content in tables.items()}


def _sum(tables: Mapping[str, Any]) -> str:
    return hashlib.sha256(canonical_json(tables)).hexdigest()


def _plain(cell: Any) -> Any:
    return base64.b64encode(cell).decode() if isinstance(cell, bytes) else cell


def _to_csv(book: Book, target: Path) -> dict[str, int]:
    made: dict[str, bytes] = {}
    counts = {}
    for table in TABLES:
        rows = list(rows_of(book, table))
        names = [column.name for column in columns_of(book, table)]
        if table == "photos":
            made |= {f"{PHOTOS}/{row[0]!s}": bytes(row[2]) for row in rows}  # type: ignore[arg-type]
            names, rows = names[:2], [row[:2] for row in rows]
        made[f"{table}.csv"] = "".join(csv_lines(names, rows)).encode()  # type: ignore[arg-type]
        counts[table] = len(rows)
    sums = {name: hashlib.sha256(content).hexdigest() for name, content in made.items()}
    manifest = {"schema": f"{SCHEMA}/{MAJOR}.0", "version": book.version, "rows": counts, "sha256": sums}
    _FOLDER.write(target, {**made, MANIFEST: canonical_json(manifest)})
    return counts


def import_book(shop: Path, source: Path, *, edited: bool = False) -> dict[str, int]:
    """Take everything back into an empty book, or nothing.

    Parameters
    ----------
    shop : Path
        The folder whose book it goes into; it may hold nothing yet.
    source : Path
        What `export_book` has written.
    edited : bool
        The maker has changed it on purpose: its fingerprints are not compared.

    Returns
    -------
    dict
        Number of rows by table.

    Raises
    ------
    UserError
        For what is no such export, was changed or damaged, or comes from a newer version.
    ConflictError
        For a book that holds something.
    """
    book_file = book_place(shop)
    one_file, there = source.is_file(), book_file.exists()
    whole = _document(source if one_file else source / MANIFEST)
    try:
        with open_book(book_file) as book:
            _refuse_newer(book, whole, source)
            read = _from_json if one_file else _from_csv
            return fill_book(book, read(book, source, whole, edited=edited))
    except BaseException:
        if not there:
            book_file.unlink(missing_ok=True)
        raise


Tables = dict[str, tuple[Sequence[str], Iterable[Sequence[Any]]]]


def _refuse_newer(book: Book, whole: Mapping[str, Any], source: Path) -> None:
    version, ours = whole.get("version"), book.version
    if type(version) is not int or version > ours:
        raise UserError(
            f"this was written by a newer pourwright, for books of version {version}",
            where=str(source),
            allowed=f"up to {ours}",
            todo="bring pourwright up to date",
        )


def _from_json(book: Book, source: Path, whole: Mapping[str, Any], *, edited: bool) -> Tables:
    tables = whole.get("tables")
    if not isinstance(tables, dict) or not all(_is_table(each) for each in tables.values()):
        raise UserError("this is no book in JSON", where=str(source), todo=_AGAIN)
    if not edited and whole.get("sha256") != _sum(tables):
        raise _changed(str(source))
    blobs = {table: _blob_columns(book, table) for table in TABLES}
    return {name: (each["columns"], _blobs(name, each, blobs.get(name, ()))) for name, each in tables.items()}


def _blob_columns(book: Book, table: str) -> tuple[str, ...]:
    return tuple(column.name for column in columns_of(book, table) if column.type == "BLOB")


def _is_table(each: Any) -> bool:
    if not isinstance(each, dict) or not isinstance(each.get("rows"), list):
        return False
    columns = each.get("columns")
    return (
        isinstance(columns, list)
        and all(isinstance(name, str) for name in columns)
        and all(isinstance(row, list) for row in each["rows"])
        and len(each["rows"]) <= MOST_ROWS
    )


def _blobs(name: str, table: Mapping[str, Any], blobs: Sequence[str]) -> Iterator[list[Any]]:
    for number, row in enumerate(table["rows"], 1):
        try:
            yield [
                base64.b64decode(cell, validate=True) if column in blobs else cell
                for column, cell in zip(table["columns"], row, strict=True)
            ]
        except (binascii.Error, TypeError, ValueError):
            what = "this row is damaged"
            raise UserError(what, where=f"{name}, row {number}", todo=_AGAIN) from None


def _from_csv(book: Book, source: Path, whole: Mapping[str, Any], *, edited: bool) -> Tables:
    sums = whole.get("sha256")
    if not isinstance(sums, dict):
        raise UserError("this is no book in tables", where=str(source), todo=_AGAIN)
    if not edited:
        for name, sha256 in sums.items():
            if hashlib.sha256(_bytes(source, str(name))).hexdigest() != sha256:
                raise _changed(str(source / str(name)))
    return {table: _csv_table(book, source, table) for table in TABLES if f"{table}.csv" in sums}


def _bytes(source: Path, name: str) -> bytes:
    place = source / name
    # a name may not lead out of the folder
    if place.resolve().parent not in {source.resolve(), source.resolve() / PHOTOS} or not place.is_file():
        raise NotThereError(f"'{name}' is missing", where=str(source), todo=_AGAIN)
    return place.read_bytes()


def _csv_table(book: Book, source: Path, table: str) -> tuple[Sequence[str], Iterable[Sequence[Any]]]:
    where = f"{table}.csv"
    try:
        text = _bytes(source, where).decode("utf8").removeprefix("\ufeff")
    except UnicodeDecodeError:
        raise UserError("this is no text in UTF-8", where=where, todo=_AGAIN) from None
    records = read_csv(text, where, MOST_ROWS)
    names = [name or "" for name in next(records, [])]
    types = {column.name: column.type for column in columns_of(book, table)}
    rows = _typed(records, [_KINDS.get(types.get(name, "TEXT"), str) for name in names], where)
    if table != "photos":
        return names, rows
    return [*names, "content"], ([*row, _bytes(source, f"{PHOTOS}/{row[0]}")] for row in rows)


def _typed(
    records: Iterable[list[str | None]], kinds: Sequence[Callable[[str], Any]], where: str
) -> Iterator[list[Any]]:
    for number, record in enumerate(records, 1):
        if len(record) != len(kinds):
            what = f"{len(record)} fields where {len(kinds)} belong"
            raise UserError(what, where=f"{where}, row {number}", todo=_AGAIN)
        try:
            yield [None if cell is None else read(cell) for cell, read in zip(record, kinds, strict=True)]
        except ValueError as error:
            raise UserError(f"no number: {error}", where=f"{where}, row {number}", todo=_AGAIN) from None


_KINDS: dict[str, Callable[[str], Any]] = {"INTEGER": int, "REAL": float}


def _document(file: Path) -> dict[str, Any]:
    try:
        whole = json.loads(file.read_text("utf8"))
    except OSError as error:
        what = f"nothing can be read there: {error.strerror or error}"
        raise NotThereError(
            what, where=str(file), todo="name a file or folder of 'pourwright book export'"
        ) from None
    except (ValueError, RecursionError):
        raise UserError("this is cut short or damaged", where=str(file), todo=_AGAIN) from None
    schema = str(whole.get("schema")) if isinstance(whole, dict) else ""
    name, _, number = schema.partition("/")
    if name != SCHEMA:
        raise UserError("this is no book", where=str(file), allowed=f"{SCHEMA}/{MAJOR}.x", todo=_NAME)
    if number.partition(".")[0] != str(MAJOR):
        raise UserError(
            f"{schema} is newer than this program", where=str(file), todo="install a newer pourwright"
        )
    return dict(whole)


def _changed(where: str) -> UserError:
    return UserError(
        "this was changed or damaged since it was written",
        where=where,
        todo="take the copy as it was written; where you changed it on purpose, say --edited",
    )


def _unwritable(target: Path, error: OSError) -> UserError:
    what = f"cannot be written: {error.strerror or error}"
    return UserError(what, where=str(target), todo="make room there, or choose another place")
