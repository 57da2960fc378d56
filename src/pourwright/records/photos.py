"""Photos: each once, known by the hash of its content."""

from __future__ import annotations

import hashlib

from pourwright.foundation.errors import NotThereError, TooMuchError, UserError
from pourwright.records.book import Book

LARGEST = 25_000_000
"""Bytes of one photo."""
_MARKS = ((b"\xff\xd8\xff", "image/jpeg"), (b"\x89PNG\r\n\x1a\n", "image/png"))


def media_type_of(content: bytes) -> str:
    """Tell what kind of photo this is, by its content and not by its name.

    Parameters
    ----------
    content : bytes
        Of the file.

    Returns
    -------
    str
        As ``image/jpeg``.

    Raises
    ------
    UserError
        For what is no photo.
    TooMuchError
        For one over 25 MB.

    Examples
    --------
    >>> media_type_of(bytes.fromhex("ffd8ffe000104a464946"))
    'image/jpeg'
    """
    if len(content) > LARGEST:
        allowed = f"{LARGEST // 1_000_000} MB"
        raise TooMuchError(
            "this photo is too large", where="photo", allowed=allowed, todo="take a smaller one"
        )
    for mark, media_type in _MARKS:
        if content.startswith(mark):
            return media_type
    if content[:4] == b"RIFF" and content[8:12] == b"WEBP":
        return "image/webp"
    if content[4:8] == b"ftyp" and content[8:12] in {b"heic", b"heix", b"mif1", b"avif"}:
        return "image/avif" if content[8:12] == b"avif" else "image/heic"
    raise UserError(
        "this is no photo", where="photo", allowed="JPEG, PNG, WebP, HEIC, AVIF", todo="choose another file"
    )


def keep_photo(book: Book, content: bytes) -> str:
    """Keep a photo; the same one again takes no more room.

    Parameters
    ----------
    book : Book
        Open.
    content : bytes
        Of the file.

    Returns
    -------
    str
        Its sha256, by which entries name it.

    Raises
    ------
    UserError
        For what is no photo, or too large a one.
    """
    media_type, sha256 = media_type_of(content), hashlib.sha256(content).hexdigest()
    with book.writing():
        book.change("INSERT OR IGNORE INTO photos VALUES (?,?,?)", (sha256, media_type, content))
    return sha256


def has_photo(book: Book, sha256: str) -> bool:
    """Tell whether a photo is in the book.

    Parameters
    ----------
    book : Book
        Open.
    sha256 : str
        Its hash.

    Returns
    -------
    bool
    """
    return book.row("SELECT 1 FROM photos WHERE hash = ?", (sha256,)) is not None


def photo_of(book: Book, sha256: str) -> tuple[str, bytes]:
    """Give a photo.

    Parameters
    ----------
    book : Book
        Open.
    sha256 : str
        Its hash.

    Returns
    -------
    tuple of str and bytes
        Its media type and content.

    Raises
    ------
    NotThereError
        Where there is none.
    """
    found = book.row("SELECT media_type, content FROM photos WHERE hash = ?", (sha256,))
    if found is None:
        raise NotThereError("no such photo is in the book", where="photo", todo="look at the log again")
    return found["media_type"], found["content"]
