"""Moments as the book writes them: UTC, ISO 8601, milliseconds, so that their text sorts as they do."""

from __future__ import annotations

from datetime import UTC, datetime


def now() -> datetime:
    """Tell the present moment, to the millisecond that the book keeps.

    Returns
    -------
    datetime
        UTC.
    """
    return datetime.fromisoformat(written(datetime.now(UTC)))


def written(moment: datetime) -> str:
    """Write a moment for the book.

    Parameters
    ----------
    moment : datetime
        With its zone.

    Returns
    -------
    str
        As ``2026-12-01T09:00:00.000Z``.

    Examples
    --------
    >>> written(datetime.fromisoformat("2026-12-01T10:00+01:00"))
    '2026-12-01T09:00:00.000Z'
    """
    if moment.tzinfo is None:
        message = "a moment without a zone has no place in the book"
        raise ValueError(message)
    return moment.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def read(text: str) -> datetime:
    """Read a moment of the book.

    Parameters
    ----------
    text : str
        As written there.

    Returns
    -------
    datetime
        UTC.
    """
    return datetime.fromisoformat(text)


def read_maybe(text: str | None) -> datetime | None:
    """Read a moment that may be missing.

    Parameters
    ----------
    text : str or None
        As written there.

    Returns
    -------
    datetime or None
    """
    return None if text is None else read(text)


def written_maybe(moment: datetime | None) -> str | None:
    """Write a moment that may be missing.

    Parameters
    ----------
    moment : datetime or None
        With its zone.

    Returns
    -------
    str or None
    """
    return None if moment is None else written(moment)
