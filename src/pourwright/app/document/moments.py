"""Moments as the plan document writes them."""

from __future__ import annotations

from datetime import datetime


def iso(moment: datetime) -> str:
    """Write a moment in ISO 8601 with its offset, to the second.

    Parameters
    ----------
    moment : datetime
        Aware.

    Returns
    -------
    str
        The one form of every moment in the document.

    Examples
    --------
    >>> from datetime import UTC
    >>> iso(datetime(2026, 12, 1, 9, 30, 15, 999, tzinfo=UTC))
    '2026-12-01T09:30:15+00:00'
    """
    return moment.isoformat(timespec="seconds")
