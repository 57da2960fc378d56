"""A day and time of day, as an option gives it."""

from datetime import datetime

from pourwright.foundation.errors import UserError


def read_moment(text: str | None) -> datetime | None:
    """Read a wall-clock time without a zone, which is the shop's own.

    Parameters
    ----------
    text : str or None
        As ``2026-12-01 09:00``; None where the option is missing.

    Returns
    -------
    datetime or None

    Raises
    ------
    UserError
        When it is no such time, or names a zone, or lies far off.

    Examples
    --------
    >>> read_moment("2026-12-01 09:00")
    datetime.datetime(2026, 12, 1, 9, 0)
    """
    if text is None:
        return None
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        moment = None
    if moment is None or moment.tzinfo is not None or len(text) < len("2026-12-01 09:00"):
        allowed = "YYYY-MM-DD HH:MM on the shop's own clock"
        raise UserError(
            f"{text!r} is no day and time", where="--start", allowed=allowed, todo='as "2026-12-01 09:00"'
        )
    return moment
