"""A book that comes in through the page."""

from __future__ import annotations

import tempfile
from pathlib import Path

from pourwright.app.booking.carrying import import_book
from pourwright.foundation.errors import UserError

LARGEST_BOOK = 200_000_000
"""Bytes; a larger one is taken in at the terminal."""
_NAME = "book.json"


def take_in_book(shop: Path, content: bytes) -> dict[str, int]:
    """Take a book that was written as one JSON into an empty one, all of it or nothing.

    Parameters
    ----------
    shop : Path
        The shop's folder.
    content : bytes
        Of the file.

    Returns
    -------
    dict
        Number of rows by table.

    Raises
    ------
    UserError
        As `pourwright.app.booking.carrying.import_book`.
    """
    with tempfile.TemporaryDirectory(prefix="pourwright-book-") as folder:
        file = Path(folder, _NAME)
        file.write_bytes(content)
        try:
            return import_book(shop, file)
        except UserError as error:
            # where it lay meanwhile is nobody's business
            where = error.where.replace(str(file), _NAME)
            raise type(error)(error.what, where=where, allowed=error.allowed, todo=error.todo) from error
