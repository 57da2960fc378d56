"""Attach the file of a logger to the pour that it watched, and take it back."""

from __future__ import annotations

import hashlib
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from pourwright.app.booking.casting import casting_of, read_casting
from pourwright.app.booking.checks import AHEAD
from pourwright.app.booking.clock import shown_when
from pourwright.app.booking.intake import take_in_journal
from pourwright.app.booking.places import book_place, plan_on_disk
from pourwright.app.measuring.logger_file import LoggerTold, Sensor, sensors_in
from pourwright.app.measuring.measured import casting_of_series, expected, report
from pourwright.app.measuring.watched import Watched, watched_pour
from pourwright.foundation.errors import UserError
from pourwright.records import Book, Series, keep_series, open_book, take_back_series
from pourwright.records.moments import now

LEAST_WATCHED = 24.0
"""A logger that begins so long after a pour may still belong to it [h]."""


def attach_logger(
    folder: Path,
    content: bytes,
    file: str,
    told: LoggerTold,
    *,
    variant: str | None = None,
    casting: int | None = None,
    pour: int | None = None,
) -> dict[str, Any]:
    """Attach the file of a logger to a pour; the same file again is there once.

    Parameters
    ----------
    folder : Path
        Of the job.
    content : bytes
        The file.
    file : str
        Its name, for messages.
    told : LoggerTold
        Where its sensors were, and what the file does not say.
    variant : str, optional
        Needed where the job has plans of several.
    casting, pour : int, optional
        Which piece and which pour; else what is under way.

    Returns
    -------
    dict
        As `measured_of`, with ``attached``, the numbers of its series.

    Raises
    ------
    UserError
        For what cannot be read, a pour that has not begun, readings of another time.
    """
    plan = plan_on_disk(folder, variant)
    with open_book(book_place(folder)) as book:
        take_in_journal(book, folder)
        watched = watched_pour(book, casting_of(book, plan, "note", casting), pour)
        zone = watched.plan.job.time_zone
        sensors = sensors_in(content, file, told, zone, watched.begun)
        for sensor in sensors:
            _refuse_other_time(sensor, watched, file)
            # a place where nothing is cast is told before anything is kept
            expected(plan, watched, sensor.place)
        with book.writing():
            kept = [_keep(book, watched, sensor, hashlib.sha256(content).hexdigest()) for sensor in sensors]
        answer = report(book, plan, read_casting(book, plan.job, plan.variant, watched.pour.casting))
    return answer | {"attached": [one.id for one in kept]}


def _keep(book: Book, watched: Watched, sensor: Sensor, sha256: str) -> Series:
    moments = (datetime.fromtimestamp(seconds, UTC) for seconds in sensor.seconds.tolist())
    readings = zip(moments, sensor.degC.tolist(), strict=True)
    return keep_series(book, watched.pour.id, sensor.name, sha256, readings, place=sensor.place)


def _refuse_other_time(sensor: Sensor, watched: Watched, file: str) -> None:
    first, last = (datetime.fromtimestamp(sensor.seconds[end], UTC) for end in (0, -1))
    job, number = watched.plan.job, watched.pour.number
    begun, read = (shown_when(each, job.time_zone, job.units) for each in (watched.begun, first))
    todo = "name the pour it watched; where its clock was wrong, say when the first row was read with --at"
    if last > now() + AHEAD:
        until = shown_when(last, job.time_zone, job.units)
        raise UserError(f"its last reading, {until}, is still to come", where=file, todo=todo)
    if last <= watched.begun:
        ended = shown_when(last, job.time_zone, job.units)
        raise UserError(f"it ends {ended}, before pour {number} went in at {begun}", where=file, todo=todo)
    if first >= watched.begun + timedelta(hours=min(watched.until, _planned_hours(watched))):
        raise UserError(
            f"it begins {read}, long after pour {number} went in at {begun}", where=file, todo=todo
        )


def _planned_hours(watched: Watched) -> float:
    times = watched.planned.history.time_h
    return max(times[-1] - times[0], LEAST_WATCHED)


def take_logger_back(folder: Path, number: int) -> dict[str, Any]:
    """Take a series back: it watched another pour. Its readings stay in the book.

    Parameters
    ----------
    folder : Path
        Of the job.
    number : int
        Of the series.

    Returns
    -------
    dict
        As `measured_of`.

    Raises
    ------
    NotThereError
        Where the job has no such series.
    """
    with open_book(book_place(folder), make=False) as book:
        _, kept, casting = casting_of_series(book, folder, number)
        take_back_series(book, number, now())
        return report(book, plan_on_disk(folder, kept.variant), casting)
