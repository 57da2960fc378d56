"""Days and times of day as a shop reads them, the same in every locale."""

from datetime import datetime

from pourwright.foundation.notation.formats import System, UnitSystem

DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def format_day(moment: datetime) -> str:
    """Write the day of the week and of the month.

    Parameters
    ----------
    moment : datetime
        On the shop's own clock.

    Returns
    -------
    str

    Examples
    --------
    >>> format_day(datetime(2026, 12, 1, 9, 0))
    'Tue 1 Dec'
    """
    return f"{DAYS[moment.weekday()]} {moment.day} {MONTHS[moment.month - 1]}"


def format_clock(moment: datetime, system: System) -> str:
    """Write the time of day.

    Parameters
    ----------
    moment : datetime
        On the shop's own clock.
    system : UnitSystem
        A US shop reads am and pm.

    Returns
    -------
    str

    Examples
    --------
    >>> afternoon = datetime(2026, 12, 1, 14, 30)
    >>> format_clock(afternoon, "metric"), format_clock(afternoon, "us")
    ('14:30', '2:30 pm')
    """
    if UnitSystem(system) is UnitSystem.METRIC:
        return f"{moment:%H:%M}"
    return f"{moment.hour % 12 or 12}:{moment:%M} {'am' if moment.hour < 12 else 'pm'}"


def format_moment(moment: datetime, system: System) -> str:
    """Write day and time of day.

    Parameters
    ----------
    moment : datetime
        On the shop's own clock.
    system : UnitSystem
        A US shop reads am and pm.

    Returns
    -------
    str

    Examples
    --------
    >>> format_moment(datetime(2026, 12, 1, 9, 0), "metric")
    'Tue 1 Dec, 09:00'
    """
    return f"{format_day(moment)}, {format_clock(moment, system)}"
