"""The shop's own clock, with the hour that comes twice and the one that is left out."""

from __future__ import annotations

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import System, format_day, format_moment
from pourwright.records.moments import now

_SHAPE = "2026-12-01 09:00"


def read_when(text: str | None, time_zone: str) -> datetime:
    """Read when something happened.

    Parameters
    ----------
    text : str or None
        On the shop's clock, as ``2026-12-01 09:00``, or with its offset from UTC, as
        ``2026-12-01 09:00+01:00``; None is now.
    time_zone : str
        IANA name of the shop's zone.

    Returns
    -------
    datetime
        UTC.

    Raises
    ------
    UserError
        For what is no time, a time that the shop's clock left out, and one that it showed twice.

    Examples
    --------
    >>> read_when("2026-07-01 09:00", "Europe/Berlin").isoformat()
    '2026-07-01T07:00:00+00:00'
    """
    if text is None:
        return now()
    try:
        moment = datetime.fromisoformat(text) if len(text) >= len(_SHAPE) else None
    except ValueError:
        moment = None
    if moment is None:
        raise UserError(
            f"{text!r} is no day and time",
            where="--at",
            allowed="YYYY-MM-DD HH:MM on the shop's own clock",
            todo=f'as "{_SHAPE}"',
        )
    return moment.astimezone(UTC) if moment.tzinfo else _of_the_wall(moment, ZoneInfo(time_zone))


def _of_the_wall(moment: datetime, zone: ZoneInfo) -> datetime:
    first, second = (moment.replace(tzinfo=zone, fold=fold).astimezone(UTC) for fold in (0, 1))
    if first.astimezone(zone).replace(tzinfo=None) != moment:
        before, after = (f"{each.astimezone(zone):%H:%M}" for each in (second, first))
        raise UserError(
            f"the clocks went forward: there was no {moment:%H:%M} on {moment:%Y-%m-%d}",
            where="--at",
            allowed=f"times before or after, as {before} or {after}",
            todo="look at the clock again",
        )
    if first != second:
        one, other = (f"{moment:%Y-%m-%d %H:%M}{_offset(each, zone)}" for each in (first, second))
        raise UserError(
            f"the clocks went back: {moment:%H:%M} came twice on {moment:%Y-%m-%d}",
            where="--at",
            allowed=f'"{one}" for the first, "{other}" for the second',
            todo="say which",
        )
    return first


def _offset(moment: datetime, zone: ZoneInfo) -> str:
    return moment.astimezone(zone).isoformat()[-6:]


def shown_when(moment: datetime, time_zone: str, system: System) -> str:
    """Write a moment on the shop's clock.

    Parameters
    ----------
    moment : datetime
        With its zone.
    time_zone : str
        IANA name of the shop's zone.
    system : UnitSystem
        Of the words.

    Returns
    -------
    str
        With the name of the zone's time in an hour that comes twice.

    Examples
    --------
    >>> shown_when(datetime(2026, 10, 25, 1, 10, tzinfo=UTC), "Europe/Berlin", "metric")
    'Sun 25 Oct, 02:10 CET'
    >>> shown_when(datetime(2026, 10, 25, 2, 10, tzinfo=UTC), "Europe/Berlin", "metric")
    'Sun 25 Oct, 03:10'
    """
    local = moment.astimezone(ZoneInfo(time_zone))
    twice = local.replace(fold=0).utcoffset() != local.replace(fold=1).utcoffset()
    return format_moment(local, system) + (f" {local.tzname()}" if twice else "")


def shown_day(moment: datetime | None, time_zone: str) -> str:
    """Write a day of the shop's clock with its year.

    Parameters
    ----------
    moment : datetime or None
        With its zone.
    time_zone : str
        IANA name of the shop's zone.

    Returns
    -------
    str
        Empty where there is none.

    Examples
    --------
    >>> shown_day(datetime(2026, 12, 31, 23, 30, tzinfo=UTC), "Europe/Berlin")
    'Fri 1 Jan 2027'
    """
    if moment is None:
        return ""
    local = moment.astimezone(ZoneInfo(time_zone))
    return f"{format_day(local)} {local.year}"
