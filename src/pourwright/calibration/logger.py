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
_AIR = re.compile(r"\b(air|ambient|room|shop|luft|outside|internal|int)", re.IGNORECASE)
_CELSIUS = re.compile(r"(°|deg\.? ?|º|�|\(|\[|_)\s?c\b|celsius", re.IGNORECASE)
_FAHRENHEIT = re.compile(r"(°|deg\.? ?|º|�|\(|\[|_)\s?f\b|fahrenheit", re.IGNORECASE)
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
    text = _text(path)
    rows, lines, heading = _table(text, path)
    time_at, columns = _columns(rows[0], heading)
    if not columns:
        raise UserError("no temperature beside the time", where=f"{path}:{lines[0]}", todo=_SHAPE)
    _refuse_ragged(rows, lines, max(columns), path)
    stamps = [" ".join(row[i].strip() for i in time_at) for row in rows]
    time = _times(stamps, " ".join(heading[i] for i in time_at), lines, path, dates)
    values = [_numbers([row[column] for row in rows], lines, path) for column in columns]
    titles = [heading[column] for column in columns]
    cup, air = _which(titles)
    return Reading(
        str(path), time, values[cup], None if air is None else values[air], np.array(lines),
        _unit(titles, cup),
    )  # fmt: skip


_SHAPE = "export one row per reading: a time, a temperature, and perhaps that of the air, with a title line"


def _text(path: Path) -> str:
    try:
        if path.stat().st_size > LARGEST:
            raise UserError("is larger than a logger's file can be", where=str(path), allowed="up to 300 MB")
        raw = path.read_bytes()
    except FileNotFoundError:
        raise UserError("no such file", where=str(path), todo="mend its name") from None
    except OSError as error:
        raise UserError(f"cannot be read: {error.strerror}", where=str(path)) from None
    if raw[:2] in {b"\xff\xfe", b"\xfe\xff"}:
        return raw.decode("utf-16", errors="replace")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        return raw.decode("latin-1")


def _table(text: str, path: Path) -> tuple[list[list[str]], list[int], list[str]]:
    """Rows of data, their lines, and the titles of their columns."""
    lines = text.splitlines()
    if not any(line.strip() for line in lines):
        raise UserError("is empty", where=str(path), todo="export the logger's readings again")
    separator = _separator(lines[:_SEARCHED])
    cells = _cells(lines[:_SEARCHED], separator, path)
    first = next((i for i, row in enumerate(cells) if _is_data(row, cells[:i])), None)
    if first is None:
        raise UserError("holds no row with a time and a temperature", where=f"{path}:1", todo=_SHAPE)
    heading = _heading(cells[:first], len(cells[first]))
    kept = [(i, line) for i, line in enumerate(lines[first:], first + 1) if any(c.isdigit() for c in line)]
    rows = _cells([line for _, line in kept], separator, path)
    if len(rows) < LEAST_ROWS:
        raise UserError(
            f"holds {len(rows)} row{'s' * (len(rows) != 1)} of readings", where=f"{path}:{first + 1}",
            allowed=f"{LEAST_ROWS} or more",
            todo="log at least every five minutes, until the cup is cold again",
        )  # fmt: skip
    return rows, [i for i, _ in kept], heading


def _cells(lines: Sequence[str], separator: str, path: Path) -> list[list[str]]:
    """One row of cells per line; a quote that is never closed must not swallow the lines after it."""
    closed = [line.replace('"', "") if line.count('"') % 2 else line for line in lines]
    try:
        return list(csv.reader(closed, delimiter=separator))
    except csv.Error as error:
        raise UserError(f"is no table of readings: {error}", where=str(path), todo=_SHAPE) from None


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


def _refuse_ragged(rows: list[list[str]], lines: list[int], last: int, path: Path) -> None:
    short = next((i for i, row in enumerate(rows) if len(row) <= last), None)
    if short is None:
        return
    if short == len(rows) - 1:
        # the logger was stopped in the middle of its last row
        rows.pop()
        lines.pop()
        return
    raise UserError(
        f"a row of {len(rows[short])} columns among rows of {len(rows[0])}", where=f"{path}:{lines[short]}",
        todo="mend or remove this row",
    )  # fmt: skip


def _times(stamps: list[str], heading: str, lines: list[int], path: Path, dates: str | None) -> Array:
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
            where=f"{path}:{lines[worst]}", todo="keep the rows of one clock, or mend this row",
        )  # fmt: skip
    time = _one_reading(read, dates, f"{path}:{lines[0]}", stamps[0])
    back = np.flatnonzero(np.diff(time) < 0)
    if back.size:
        at = int(back[0]) + 1
        raise UserError(
            f"time goes back from '{stamps[at - 1]}' to '{stamps[at]}'", where=f"{path}:{lines[at]}",
            todo="keep one run only; where the clock was set back for winter, add an hour to what follows",
        )  # fmt: skip
    since: Array = time - time[0]
    return since


def _one_reading(read: list[tuple[Clock, Array]], dates: str | None, where: str, first: str) -> Array:
    """The one way to read the times; where day and month may be swapped and it matters, ask."""
    if dates is not None:
        chosen = [time for clock, time in read if clock.name.endswith(dates)]
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
    return rising[0][1]


def _numbers(texts: list[str], lines: list[int], path: Path) -> Array:
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
                    where=f"{path}:{lines[i]}",
                    todo="mend or remove this row",
                )
            value = np.nan
        found[i] = value
    return found


def _which(titles: Sequence[str]) -> tuple[int, int | None]:
    """Which temperature is the cup's and which the air's."""
    air = next((i for i, title in enumerate(titles) if _AIR.search(title)), None)
    if air is None:
        return 0, (1 if len(titles) > 1 else None)
    cup = next((i for i in range(len(titles)) if i != air), None)
    return (air, None) if cup is None else (cup, air)


def _unit(titles: Sequence[str], cup: int) -> str | None:
    title = titles[cup]
    if _FAHRENHEIT.search(title):
        return "degF"
    return "degC" if _CELSIUS.search(title) else None
