"""Files of cheap temperature loggers: text in, times and temperatures out, every fault with its line."""

from __future__ import annotations

import csv
import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from pourwright.calibration.clocks import ORDERS, Clock, UnreadableError, clocks_for
from pourwright.calibration.logger_titles import is_of_air, unit_of
from pourwright.foundation.errors import UserError
from pourwright.foundation.quantities import UNITS, Dimension

Array = NDArray[np.float64]
LARGEST = 300_000_000
LEAST_ROWS = 12
MOST_KEPT = 20_000
_SEARCHED = 200
_GAPS = frozenset(
    {"", "-", "--", "---", "nan", "na", "n/a", "null", "none", "err", "error", "ol", "open", "fault"}
)
_DATE_ONLY = re.compile(r"\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}$")
_TIME_ONLY = re.compile(r"\d{1,2}:\d{2}(:\d{2}([.,]\d+)?)?\s*([AaPp]\.?[Mm]\.?)?$")


@dataclass(frozen=True, eq=False)
class Reading:
    """What a logger saw.

    Parameters
    ----------
    file : str
        Its name, for messages.
    time : array (n,)
        Since the first row [s], never falling.
    cup : array (n,)
        Temperature in the cup, in the file's unit; NaN in a gap.
    air : array (n,) or None
        The same in the air, where the file has a second column.
    line : int array (n,)
        Line of each row in the file.
    unit : str or None
        "degC" or "degF", as the file says; None where it does not.
    """

    file: str
    time: Array
    cup: Array
    air: Array | None
    line: NDArray[np.int64]
    unit: str | None

    def where(self, index: int) -> str:
        """File and line of a row."""
        return f"{self.file}:{self.line[index]}"


def kelvin(values: Array, unit: str) -> Array:
    """Turn degC or degF into kelvin."""
    known = UNITS[Dimension.TEMPERATURE][unit]
    return values * float(known.factor) + float(known.offset)


def read_logger(path: Path, *, dates: str | None = None) -> Reading:
    """Read the file of a temperature logger.

    Parameters
    ----------
    path : Path
        Text with one row per reading: a time, a temperature, perhaps that of the air.
    dates : str, optional
        "day first" or "month first", where the file can be read both ways.

    Returns
    -------
    Reading
        All rows; gaps are NaN.

    Raises
    ------
    UserError
        With file and line, where it cannot be used.
    """
    table = read_table(text_of(file_bytes(path)), str(path), dates=dates)
    cup, air = _which(table.titles)
    return Reading(
        table.file, table.time - table.time[0], table.values[cup], None if air is None else table.values[air],
        table.line, unit_of(table.titles[cup]),
    )  # fmt: skip


@dataclass(frozen=True, eq=False)
class LoggerTable:
    """All that a logger's file holds.

    Parameters
    ----------
    file : str
        Its name, for messages.
    clock : str
        How its times are written, as `pourwright.calibration.clocks.Clock.name` says.
    stamp : str
        Time of the first row as it stands there.
    time : array (n,)
        As the clock counts [s], never falling.
    titles : list of str
        Of its temperatures; empty where the file has none.
    values : tuple of array (n,)
        Temperatures in the file's units; NaN in a gap.
    line : int array (n,)
        Line of each row in the file.
    """

    file: str
    clock: str
    stamp: str
    time: Array
    titles: list[str]
    values: tuple[Array, ...]
    line: NDArray[np.int64]

    def where(self, index: int) -> str:
        """File and line of a row."""
        return f"{self.file}:{self.line[index]}"


def read_table(text: str, file: str, *, dates: str | None = None, most: int | None = None) -> LoggerTable:
    """Read all columns of a logger's file.

    Parameters
    ----------
    text : str
        What it holds.
    file : str
        Its name, for messages.
    dates : str, optional
        "day first" or "month first", where the file can be read both ways.
    most : int, optional
        Rows that are read at most.

    Returns
    -------
    LoggerTable

    Raises
    ------
    UserError
        With file and line, where it cannot be used.
    """
    rows, lines, heading = _table(text, file, most)
    time_at, columns = _columns(rows[0], heading)
    if not columns:
        raise UserError("no temperature beside the time", where=f"{file}:{lines[0]}", todo=_SHAPE)
    _refuse_ragged(rows, lines, max(columns), file)
    stamps = [" ".join(row[i].strip() for i in time_at) for row in rows]
    clock, time = _times(stamps, " ".join(heading[i] for i in time_at), lines, file, dates)
    values = tuple(_numbers([row[column] for row in rows], lines, file) for column in columns)
    titles = [heading[column] for column in columns]
    return LoggerTable(file, clock, stamps[0], time, titles, values, np.array(lines))


_SHAPE = "export one row per reading: a time, a temperature, and perhaps that of the air, with a title line"


def file_bytes(path: Path) -> bytes:
    """Read the file of a logger, as it lies there.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    bytes

    Raises
    ------
    UserError
        Where it is not there, cannot be read, or is larger than such a file can be.
    """
    try:
        if path.stat().st_size > LARGEST:
            raise UserError("is larger than a logger's file can be", where=str(path), allowed="up to 300 MB")
        return path.read_bytes()
    except FileNotFoundError:
        raise UserError("no such file", where=str(path), todo="mend its name") from None
    except OSError as error:
        raise UserError(f"cannot be read: {error.strerror}", where=str(path)) from None


def text_of(raw: bytes) -> str:
    """Read the letters of a file, whatever the logger writes them in.

    Parameters
    ----------
    raw : bytes
        Of the file.

    Returns
    -------
    str
    """
    if raw[:2] in {b"\xff\xfe", b"\xfe\xff"}:
        return raw.decode("utf-16", errors="replace")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        return raw.decode("latin-1")


def _table(text: str, file: str, most: int | None = None) -> tuple[list[list[str]], list[int], list[str]]:
    """Rows of data, their lines, and the titles of their columns."""
    lines = text.splitlines()
    if not any(line.strip() for line in lines):
        raise UserError("is empty", where=file, todo="export the logger's readings again")
    separator = _separator(lines[:_SEARCHED])
    cells = _cells(lines[:_SEARCHED], separator, file)
    first = next((i for i, row in enumerate(cells) if _is_data(row, cells[:i])), None)
    if first is None:
        raise UserError("holds no row with a time and a temperature", where=f"{file}:1", todo=_SHAPE)
    heading = _heading(cells[:first], len(cells[first]))
    kept = [(i, line) for i, line in enumerate(lines[first:], first + 1) if any(c.isdigit() for c in line)]
    if most is not None and len(kept) > most:
        raise UserError(
            f"holds {len(kept):,} rows of readings", where=file, allowed=f"{most:,} or fewer",
            todo="cut it to the time of the pour, or export every tenth reading",
        )  # fmt: skip
    rows = _cells([line for _, line in kept], separator, file)
    if len(rows) < LEAST_ROWS:
        raise UserError(
            f"holds {len(rows)} row{'s' * (len(rows) != 1)} of readings", where=f"{file}:{first + 1}",
            allowed=f"{LEAST_ROWS} or more",
            todo="log at least every five minutes, until the cup is cold again",
        )  # fmt: skip
    return rows, [i for i, _ in kept], heading


def _cells(lines: Sequence[str], separator: str, file: str) -> list[list[str]]:
    """One row of cells per line; a quote that is never closed must not swallow the lines after it."""
    closed = [line.replace('"', "") if line.count('"') % 2 else line for line in lines]
    try:
        return list(csv.reader(closed, delimiter=separator))
    except csv.Error as error:
        raise UserError(f"is no table of readings: {error}", where=file, todo=_SHAPE) from None


def _separator(lines: Sequence[str]) -> str:
    filled = [line for line in lines if any(c.isdigit() for c in line)]
    counts = {mark: sum(line.count(mark) for line in filled) for mark in (";", "\t", ",")}
    return next((mark for mark in (";", "\t") if counts[mark] >= max(len(filled) // 2, 1)), ",")


def _is_data(row: Sequence[str], above: Sequence[Sequence[str]]) -> bool:
    heading = _heading(above, len(row))
    places, columns = _columns(row, heading)
    return bool(places) and bool(columns)


def _heading(above: Sequence[Sequence[str]], count: int) -> list[str]:
    titles = next((row for row in reversed(above) if len(row) == count), [])
    return list(titles) if titles else [""] * count


def _columns(row: Sequence[str], heading: Sequence[str]) -> tuple[tuple[int, ...], list[int]]:
    """Which columns hold the time, and which temperatures."""
    cells = [cell.strip() for cell in row]
    time_at: tuple[int, ...] = ()
    for i, cell in enumerate(cells[:4]):
        following = cells[i + 1] if i + 1 < len(cells) else ""
        if _DATE_ONLY.match(cell) and _TIME_ONLY.match(following):
            time_at = (i, i + 1)
            break
        if clocks_for(cell, heading[i]):
            time_at = (i,)
            break
    after = max(time_at, default=-1) + 1
    return time_at, [i for i in range(after, len(cells)) if _is_reading(cells[i], heading[i])]


def _is_reading(cell: str, heading: str) -> bool:
    if re.search(r"humid|rh\b|%|dew|batt|volt|serial|event|mark", heading, re.IGNORECASE):
        return False
    return _number(cell) is not None


def _number(cell: str) -> float | None:
    try:
        return float(re.sub(r"[°º]?\s?[CF]$", "", cell.strip()).replace(",", "."))
    except ValueError:
        return None


def _refuse_ragged(rows: list[list[str]], lines: list[int], last: int, file: str) -> None:
    short = next((i for i, row in enumerate(rows) if len(row) <= last), None)
    if short is None:
        return
    if short == len(rows) - 1:
        # the logger was stopped in the middle of its last row
        rows.pop()
        lines.pop()
        return
    raise UserError(
        f"a row of {len(rows[short])} columns among rows of {len(rows[0])}", where=f"{file}:{lines[short]}",
        todo="mend or remove this row",
    )  # fmt: skip


def _times(
    stamps: list[str], heading: str, lines: list[int], file: str, dates: str | None
) -> tuple[str, Array]:
    clocks = clocks_for(stamps[0], heading)
    read: list[tuple[Clock, Array]] = []
    worst = 0
    for clock in clocks:
        try:
            read.append((clock, clock.read(stamps)))
        except UnreadableError as error:
            worst = max(worst, error.index)
    if not read:
        raise UserError(
            f"'{stamps[worst]}' is another kind of time than '{stamps[0]}' in line {lines[0]}: "
            "two clocks in one file",
            where=f"{file}:{lines[worst]}", todo="keep the rows of one clock, or mend this row",
        )  # fmt: skip
    name, time = _one_reading(read, dates, f"{file}:{lines[0]}", stamps[0])
    back = np.flatnonzero(np.diff(time) < 0)
    if back.size:
        at = int(back[0]) + 1
        raise UserError(
            f"time goes back from '{stamps[at - 1]}' to '{stamps[at]}'", where=f"{file}:{lines[at]}",
            todo="keep one run only; where the clock was set back for winter, add an hour to what follows",
        )  # fmt: skip
    return name, time


def _one_reading(
    read: list[tuple[Clock, Array]], dates: str | None, where: str, first: str
) -> tuple[str, Array]:
    """The one way to read the times; where day and month may be swapped and it matters, ask."""
    if dates is not None:
        chosen = [(clock.name, time) for clock, time in read if clock.name.endswith(dates)]
        if not chosen:
            raise UserError(f"'{first}' cannot be read {dates}", where=where, allowed=", ".join(ORDERS))
        return chosen[0]
    rising = [(clock, time) for clock, time in read if not (np.diff(time) < 0).any()] or read[:1]
    spans = {round(float(time[-1] - time[0])) for _, time in rising}
    if len(spans) > 1:
        raise UserError(
            f"'{first}' may begin with the day or with the month", where=where,
            allowed="day first, month first", todo='say which: dates = "day first"',
        )  # fmt: skip
    clock, time = rising[0]
    return clock.name, time


def _numbers(texts: list[str], lines: list[int], file: str) -> Array:
    try:
        return np.array(texts, dtype=float)
    except ValueError:
        pass
    found = np.empty(len(texts))
    for i, text in enumerate(texts):
        value = _number(text)
        if value is None:
            if text.strip().lower() not in _GAPS:
                raise UserError(
                    f"'{text.strip()}' is no temperature",
                    where=f"{file}:{lines[i]}",
                    todo="mend or remove this row",
                )
            value = np.nan
        found[i] = value
    return found


def _which(titles: Sequence[str]) -> tuple[int, int | None]:
    """Which temperature is the cup's and which the air's."""
    air = next((i for i, title in enumerate(titles) if is_of_air(title)), None)
    if air is None:
        return 0, (1 if len(titles) > 1 else None)
    cup = next((i for i in range(len(titles)) if i != air), None)
    return (air, None) if cup is None else (cup, air)
