"""Times as loggers write them, each kind read by its own small reader."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
DAY = 86400.0
_CLOCK = re.compile(r"(\d{1,2}):(\d{2})(?::(\d{2}(?:[.,]\d+)?))?\s*([AaPp]\.?[Mm]\.?)?$")
_LONG = re.compile(r"(\d+):(\d{2}):(\d{2}(?:[.,]\d+)?)$")
_DATES = {
    "year first": re.compile(r"(?P<y>\d{4})[-/.](?P<m>\d{1,2})[-/.](?P<d>\d{1,2})$"),
    "day first": re.compile(r"(?P<d>\d{1,2})[-/.](?P<m>\d{1,2})[-/.](?P<y>\d{4}|\d{2})$"),
    "month first": re.compile(r"(?P<m>\d{1,2})[-/](?P<d>\d{1,2})[-/](?P<y>\d{4}|\d{2})$"),
}
_ZONE = re.compile(r"(?:Z|[+-]\d{2}:?\d{2})$")
_UNITS = {"ms": 1e-3, "s": 1.0, "sec": 1.0, "second": 1.0, "seconds": 1.0, "min": 60.0, "minute": 60.0,
          "minutes": 60.0, "h": 3600.0, "hr": 3600.0, "hour": 3600.0, "hours": 3600.0,
          "day": DAY, "days": DAY}  # fmt: skip
_EPOCH = 1e9
DATED, SINCE_1970 = "date, ", "seconds since 1970"
"""Names, or how they begin, of the ways of writing time that know which day it was."""
ORDERS = ("year first", "day first", "month first")


class UnreadableError(Exception):
    """A text that is not a time of the kind expected; which of the texts it is."""

    def __init__(self, index: int) -> None:
        super().__init__(index)
        self.index = index


class _Memo(dict[str, float]):
    """Remembers what a text meant: a million rows have few different days and clock times."""

    def __init__(self, read: Callable[[str], float]) -> None:
        super().__init__()
        self._read = read

    def __missing__(self, text: str) -> float:
        value = self[text] = self._read(text)
        return value


@dataclass(frozen=True)
class Clock:
    """One way of writing time.

    Parameters
    ----------
    name : str
        For messages.
    read : callable
        From texts to seconds [s]; raises `UnreadableError`.
    """

    name: str
    read: Callable[[Sequence[str]], Array]


def _each(read: Callable[[str], float]) -> Callable[[Sequence[str]], Array]:
    memo = _Memo(read)

    def all_of(texts: Sequence[str]) -> Array:
        found = np.empty(len(texts))
        for index, text in enumerate(texts):
            try:
                found[index] = memo[text]
            except (ValueError, OverflowError):
                raise UnreadableError(index) from None
        return found

    return all_of


def _clock_seconds(text: str) -> float:
    found = _CLOCK.match(text.strip())
    if not found:
        raise ValueError(text)
    hours, minutes = int(found[1]), int(found[2])
    if found[4]:
        hours = hours % 12 + (12 if found[4][0] in "pP" else 0)
    if hours > 23 or minutes > 59:
        raise ValueError(text)
    return hours * 3600.0 + minutes * 60.0 + float((found[3] or "0").replace(",", "."))


def _elapsed(text: str) -> float:
    found = _LONG.match(text.strip())
    if not found:
        raise ValueError(text)
    return int(found[1]) * 3600.0 + int(found[2]) * 60.0 + float(found[3].replace(",", "."))


def _days(order: str) -> Callable[[str], float]:
    pattern = _DATES[order]

    def read(text: str) -> float:
        found = pattern.match(text)
        if not found:
            raise ValueError(text)
        year = int(found["y"])
        return date(year + (2000 if year < 100 else 0), int(found["m"]), int(found["d"])).toordinal() * DAY

    return read


def _dated(order: str) -> Callable[[Sequence[str]], Array]:
    days, clocks, zones = _Memo(_days(order)), _Memo(_clock_seconds), _Memo(_zone)

    def read(texts: Sequence[str]) -> Array:
        found = np.empty(len(texts))
        for index, text in enumerate(texts):
            zone = _ZONE.search(text.strip())
            bare = text.strip()[: zone.start()] if zone else text.strip()
            day, _, clock = bare.replace("T", " ").partition(" ")
            try:
                found[index] = days[day] + clocks[clock.strip()] - (zones[zone.group()] if zone else 0.0)
            except (ValueError, OverflowError):
                raise UnreadableError(index) from None
        return found

    return read


def _zone(text: str) -> float:
    """Seconds that a zone, as +01:00, is ahead of UTC."""
    if text == "Z":
        return 0.0
    hours, minutes = int(text[1:3]), int(text[-2:])
    return (-1.0 if text[0] == "-" else 1.0) * (3600.0 * hours + 60.0 * minutes)


def has_zone(text: str) -> bool:
    """Tell whether a time says its zone.

    Parameters
    ----------
    text : str
        The time as it was written.

    Returns
    -------
    bool

    Examples
    --------
    >>> has_zone("2026-12-01T09:00:00+01:00"), has_zone("2026-12-01 09:00")
    (True, False)
    """
    return _ZONE.search(text.strip()) is not None


def _number(unit: float) -> Callable[[str], float]:
    return lambda text: float(text.replace(",", ".")) * unit


def clocks_for(first: str, heading: str) -> list[Clock]:
    """List the ways of writing time that a first text may be read by.

    Parameters
    ----------
    first : str
        Time of the first row.
    heading : str
        Title of its column, for the unit of plain numbers.

    Returns
    -------
    list of Clock
        Several where day and month can be read either way; empty where it is no time.
    """
    candidates = [Clock(f"{DATED}{order}", _dated(order)) for order in ORDERS]
    candidates.append(Clock("hours, minutes and seconds", _each(_elapsed)))
    candidates += [Clock(SINCE_1970, _each(_number(1.0)))] * _is_epoch(first)
    unit = unit_in(heading)
    if unit is not None:
        candidates.append(Clock("counted time", _each(_number(unit))))
    return [clock for clock in candidates if _reads(clock, first)]


def _is_epoch(text: str) -> bool:
    try:
        return float(text) > _EPOCH
    except ValueError:
        return False


def unit_in(heading: str) -> float | None:
    """Find a unit of time in a column's title, in seconds.

    Examples
    --------
    >>> unit_in("Elapsed (min)")
    60.0
    """
    words = re.findall(r"[a-z]+", heading.lower())
    return next((_UNITS[word] for word in reversed(words) if word in _UNITS), None)


def _reads(clock: Clock, text: str) -> bool:
    try:
        clock.read([text])
    except UnreadableError:
        return False
    return True
