"""Paper of the book, written to files."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from pourwright.app.booking.cards import piece_pdf
from pourwright.app.booking.labelling import labels_of
from pourwright.foundation.errors import UserError
from pourwright.foundation.files import write_atomically


def write_card(shop: Path, number: int, target: Path) -> Path:
    """Write the card of a finished piece.

    Parameters
    ----------
    shop : Path
        Its folder.
    number : int
        Of the piece.
    target : Path
        The PDF file.

    Returns
    -------
    Path
        Where it lies.

    Raises
    ------
    UserError
        Where there is no such piece, and where it cannot be written.
    """
    return _write(target, piece_pdf(shop, number))


def write_labels(shop: Path, lots: Sequence[int], target: Path) -> Path:
    """Write labels for lots.

    Parameters
    ----------
    shop : Path
        Its folder.
    lots : sequence of int
        Their numbers; else all that hold something.
    target : Path
        The PDF file.

    Returns
    -------
    Path
        Where it lies.

    Raises
    ------
    UserError
        Where there is no such lot, and where it cannot be written.
    """
    return _write(target, labels_of(shop, lots))


def _write(target: Path, content: bytes) -> Path:
    try:
        write_atomically(target, content)
    except OSError as error:
        what = f"cannot be written: {error.strerror or error}"
        raise UserError(what, where=str(target), todo="make room there, or choose another place") from error
    return target
