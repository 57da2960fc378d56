"""Photos of a job: a file beside its journal, until the book has them too."""

from __future__ import annotations

import hashlib
from pathlib import Path

from pourwright.foundation.errors import NotThereError, UserError
from pourwright.foundation.files import write_atomically
from pourwright.records import LARGEST_PHOTO, Book, has_photo, keep_photo, media_type_of

__all__ = ["LARGEST_PHOTO", "keep_photo_file", "keep_photo_named", "refuse_no_photo", "take_photo"]
FOLDER = "photos"


def keep_photo_file(folder: Path, content: bytes) -> str:
    """Keep a photo beside a job's journal, once.

    Parameters
    ----------
    folder : Path
        Of the job.
    content : bytes
        Of the photo.

    Returns
    -------
    str
        Its sha256.

    Raises
    ------
    UserError
        For what is no photo, and where the disk does not take it.
    """
    ending = media_type_of(content).rpartition("/")[2]
    sha256 = hashlib.sha256(content).hexdigest()
    place = folder / FOLDER / f"{sha256}.{ending}"
    try:
        if not place.exists():
            write_atomically(place, content)
    except OSError as error:
        what = f"the photo cannot be written: {error.strerror or error}"
        raise UserError(what, where=str(place), todo="make room, then do it again") from error
    return sha256


def take_photo(book: Book, folder: Path, sha256: str) -> None:
    """Take a photo of a job into the book.

    Parameters
    ----------
    book : Book
        Open.
    folder : Path
        Of the job.
    sha256 : str
        As an entry names it.

    Raises
    ------
    NotThereError
        Where neither the job's folder nor the book has it.
    """
    if has_photo(book, sha256):
        return
    found = next((folder / FOLDER).glob(f"{sha256}.*"), None)
    content = b"" if found is None else found.read_bytes()
    if hashlib.sha256(content).hexdigest() != sha256:
        raise _missing(folder, sha256)
    keep_photo(book, content)


def refuse_no_photo(book: Book | None, folder: Path, sha256: str) -> None:
    """Refuse a photo that is neither beside the journal nor in the book.

    Parameters
    ----------
    book : Book or None
        Open; None while it cannot be.
    folder : Path
        Of the job.
    sha256 : str
        As an entry names it.

    Raises
    ------
    NotThereError
        Where there is none.
    """
    lies_there = len(sha256) == 64 and sha256.isalnum() and any((folder / FOLDER).glob(f"{sha256}.*"))
    if not lies_there and not (book and has_photo(book, sha256)):
        raise _missing(folder, sha256)


def keep_photo_named(folder: Path, sha256: str, content: bytes) -> None:
    """Keep a photo under the hash that it was announced by.

    Parameters
    ----------
    folder : Path
        Of the job.
    sha256 : str
        As an entry names it.
    content : bytes
        Of the photo.

    Raises
    ------
    UserError
        For other content than was announced, for what is no photo, and where the disk does not take it.
    """
    if hashlib.sha256(content).hexdigest() != sha256:
        raise UserError(
            "this is not the photo that was announced", where="photo", todo="send it again: some was lost"
        )
    keep_photo_file(folder, content)


def _missing(folder: Path, sha256: str) -> NotThereError:
    return NotThereError(
        f"the photo {sha256[:8]} is not there", where=str(folder / FOLDER), todo="put its file back"
    )
