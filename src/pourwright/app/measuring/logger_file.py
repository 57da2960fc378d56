"""The file of a logger that watched a pour: each of its sensors, in degC, at its real moments."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import numpy as np
from numpy.typing import NDArray

from pourwright.app.booking.checks import COLDEST, HOTTEST
from pourwright.app.booking.clock import read_when
from pourwright.app.measuring.places import AIR, LEFT_OUT, read_place
from pourwright.calibration.clocks import DATED, SINCE_1970, has_zone
from pourwright.calibration.logger import LoggerTable, kelvin, read_table, text_of
from pourwright.calibration.logger_titles import is_of_air, name_of, unit_of
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import ZERO_CELSIUS

Floats = NDArray[np.float64]
MOST_ROWS = 1_000_000
UNITS = ("degC", "degF")
DATES = ("day first", "month first")
_DAY = 86400.0
_UNIX_DAYS = date(1970, 1, 1).toordinal()
_ZERO_WITHIN = 60.0
"""A counted time that begins so near to nothing counts from when the pour went in [s]."""


@dataclass(frozen=True)
class LoggerTold:
    """What the maker says of a logger's file besides.

    Parameters
    ----------
    probes : mapping
        Place of a sensor by its name; ``none`` leaves it out.
    unit : str, optional
        "degC" or "degF", where the titles do not say it.
    dates : str, optional
        "day first" or "month first", where the file can be read both ways.
    at : str, optional
        When its first row was read, on the shop's clock; else as the file says.
    """

    probes: Mapping[str, str] = field(default_factory=dict)
    unit: str | None = None
    dates: str | None = None
    at: str | None = None


@dataclass(frozen=True, eq=False)
class Sensor:
    """What one sensor saw.

    Parameters
    ----------
    name : str
        As the file calls it.
    place : str
        Where it was, in the words of `read_place`; empty where nobody says.
    seconds : array (n,)
        Since 1970, UTC [s]; never falling.
    degC : array (n,)
        Without gaps.
    """

    name: str
    place: str
    seconds: Floats
    degC: Floats


def sensors_in(
    content: bytes, file: str, told: LoggerTold, time_zone: str, begun: datetime
) -> tuple[Sensor, ...]:
    """Read the file of a logger.

    Parameters
    ----------
    content : bytes
        The file.
    file : str
        Its name, for messages.
    told : LoggerTold
        What is said besides.
    time_zone : str
        IANA name of the shop's zone, in which a time without one is.
    begun : datetime
        When the pour went in: from there times are counted that only count.

    Returns
    -------
    tuple of Sensor
        In the order of the file.

    Raises
    ------
    UserError
        With file and line, for what cannot be read; for a sensor that the file does not have.
    """
    _refuse_words(told)
    table = read_table(text_of(content), file, dates=told.dates, most=MOST_ROWS)
    names = names_in(table.titles)
    places = _places(names, told.probes)
    seconds = table.time + _ahead(table, told.at, time_zone, begun)
    wanted = [number for number, place in enumerate(places) if place != LEFT_OUT]
    if not wanted:
        raise UserError("no sensor is left", where="--probe", todo="leave one in at least")
    found = [_sensor(table, number, names[number], places[number], seconds, told.unit) for number in wanted]
    return tuple(found)


def _refuse_words(told: LoggerTold) -> None:
    for where, said, allowed in (("--unit", told.unit, UNITS), ("--dates", told.dates, DATES)):
        if said is not None and said not in allowed:
            raise UserError(f"'{said}' is not known", where=where, allowed=", ".join(allowed))


def names_in(titles: Sequence[str]) -> list[str]:
    """Name the sensors of a file by the titles of their columns, each once.

    Parameters
    ----------
    titles : sequence of str
        Of its columns of temperatures.

    Returns
    -------
    list of str
        One for each.

    Examples
    --------
    >>> names_in(["Core [°C]", "", "Core [°C]"])
    ['Core', 'sensor 2', 'Core 3']
    """
    found: list[str] = []
    for number, title in enumerate(titles, 1):
        name = name_of(title) or f"sensor {number}"
        found.append(name if name not in found else f"{name} {number}")
    return found


def _places(names: Sequence[str], probes: Mapping[str, str]) -> list[str]:
    known = {name.casefold(): name for name in names}
    told: dict[str, str] = {}
    for name, place in probes.items():
        if name.casefold() not in known:
            raise UserError(
                f"the file has no sensor '{name}'",
                where="--probe",
                allowed=", ".join(names),
                todo="name one of its columns",
            )
        told[known[name.casefold()]] = read_place(place).told
    return [told.get(name, AIR if is_of_air(name) else "") for name in names]


def _ahead(table: LoggerTable, at: str | None, time_zone: str, begun: datetime) -> float:
    """What is added to the file's times, so that they count from 1970."""
    first = float(table.time[0])
    if at is not None:
        return read_when(at, time_zone).timestamp() - first
    if table.clock == SINCE_1970:
        return 0.0
    if table.clock.startswith(DATED):
        since = first - _DAY * _UNIX_DAYS
        return (since if has_zone(table.stamp) else _of_the_shop(since, time_zone)) - first
    if first > _ZERO_WITHIN:
        raise UserError(
            f"'{table.stamp}' does not say on which day it was",
            where=table.where(0),
            allowed="times with their day, or counted from 0",
            todo='say when the first row was read: --at "2026-12-01 09:00"',
        )
    return begun.timestamp()


def _of_the_shop(wall: float, time_zone: str) -> float:
    """A time on the shop's wall, as it was when the logger was started: nobody sets a logger's clock."""
    local = datetime(1970, 1, 1, tzinfo=UTC) + timedelta(seconds=wall)
    return local.replace(tzinfo=ZoneInfo(time_zone)).timestamp()


def _sensor(
    table: LoggerTable, number: int, name: str, place: str, seconds: Floats, unit: str | None
) -> Sensor:
    degrees = kelvin(table.values[number], _unit(table, number, unit)) - ZERO_CELSIUS
    there = np.isfinite(degrees)
    if not there.any():
        raise UserError(
            f"the sensor '{name}' has no reading at all",
            where=table.file,
            todo=f'leave it out: --probe "{name}=none"',
        )
    _refuse_broken(table, name, np.where(there, degrees, 0.0))
    return Sensor(name, place, seconds[there], degrees[there])


def _unit(table: LoggerTable, number: int, told: str | None) -> str:
    own = unit_of(table.titles[number])
    if own is None and told is None:
        raise UserError(
            "the file does not say whether its temperatures are in °C or °F",
            where=table.where(0),
            allowed=", ".join(UNITS),
            todo="say it with --unit degC, or in the title of the column",
        )
    if own is not None and told not in {None, own}:
        what = f"the title '{table.titles[number]}' says {own}, you say {told}"
        raise UserError(what, where=table.file, todo="leave --unit out, or mend the title")
    return own or told or ""


def _refuse_broken(table: LoggerTable, name: str, degrees: Floats) -> None:
    wrong = np.flatnonzero((degrees < COLDEST) | (degrees > HOTTEST))
    if wrong.size:
        raise UserError(
            f"{degrees[wrong[0]]:.0f} °C: the sensor '{name}' was broken or not plugged in",
            where=table.where(int(wrong[0])),
            todo=f'remove these rows, or leave it out: --probe "{name}=none"',
        )
