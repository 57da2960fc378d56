"""Photos out of the book, by their hash."""

from __future__ import annotations

from pathlib import Path

from pourwright.app.booking.places import book_place
from pourwright.records import open_book, photo_of


def photo_told(shop: Path, sha256: str) -> tuple[str, bytes]:
    """Give a photo.

    Parameters
    ----------
    shop : Path
        Its folder.
    sha256 : str
        As an entry names it.

    Returns
    -------
    tuple of str and bytes
        Its media type, by what it holds, and its content.

    Raises
    ------
    NotThereError
        Where there is none.
    """
    with open_book(book_place(shop), make=False) as book:
        return photo_of(book, sha256)
