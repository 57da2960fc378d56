"""Text formats as bytes: places in them, told as lines."""

from typing import TypeAlias

import numpy as np
import numpy.typing as npt

Bytes: TypeAlias = npt.NDArray[np.uint8]


def as_bytes(content: bytes) -> Bytes:
    """View a text as numbers, for compiled loops.

    Parameters
    ----------
    content : bytes
        The text.

    Returns
    -------
    array
        One number a letter; cannot be written to.
    """
    return np.frombuffer(content, dtype=np.uint8)


def no_number(content: bytes, at: int) -> ValueError:
    r"""Say that a word is no number, and on which line it stands.

    Parameters
    ----------
    content : bytes
        The text.
    at : int
        Where the word begins.

    Returns
    -------
    ValueError
        To be raised.

    Examples
    --------
    >>> str(no_number(b"v 0 0 0\nv 1,5 0 0", 10))
    "line 2: '1,5' is no number; it is written with a comma, where a point is needed"
    """
    rest = content[at : at + 100].split(maxsplit=1)
    word = "".join(c for c in rest[0].decode("ascii", "replace")[:24] if c.isprintable()) if rest else ""
    ends = content[at : at + 1] in {b"", b"\r", b"\n"}
    what = f"'{word}' is no number" if word and not ends else "a number is missing"
    comma = "; it is written with a comma, where a point is needed" if "," in word and not ends else ""
    return ValueError(f"line {line_of(content, at)}: {what}{comma}")


def line_of(content: bytes, at: int) -> int:
    """Give the line of a place in a text, counted from 1.

    Parameters
    ----------
    content : bytes
        The text.
    at : int
        A place in it.

    Returns
    -------
    int
    """
    return content.count(b"\n", 0, at) + 1
