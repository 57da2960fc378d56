"""What the loggers of a casting saw, against what its plan said."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, dataclass
from functools import lru_cache
from itertools import chain
from pathlib import Path
from typing import Any

import numpy as np

from pourwright.app.booking.casting import Casting, read_casting
from pourwright.app.booking.clock import shown_when
from pourwright.app.booking.intake import take_in_journal
from pourwright.app.booking.places import PlanOnDisk, book_place, plan_on_disk, plans_on_disk
from pourwright.app.measuring.compared import Compared, compare
from pourwright.app.measuring.places import AIR
from pourwright.app.measuring.predicted import Floats, Predicted, predicted
from pourwright.app.measuring.watched import HOUR, Watched, watched_pour, watched_pours
from pourwright.app.measuring.words import measured_words
from pourwright.foundation.errors import NotThereError
from pourwright.records import (
    Book,
    Plan,
    Series,
    castings_in,
    curve_of,
    open_book,
    plan_by_id,
    pour_by_id,
    series_by_id,
    series_of,
)
from pourwright.records.moments import written, written_maybe
from pourwright.sheets.wording import Wording

SCHEMA = "pourwright-measured/1.0"
KEPT = 16
"""Series kept ready: a page asks for each of them twice."""


@dataclass(frozen=True, eq=False)
class Measured:
    """One sensor of a pour with what the plan said of its place.

    Parameters
    ----------
    series : Series
        In the book.
    watched : Watched
        Its pour.
    hours, degC : array (n,)
        Readings after the pour went in.
    plan : Predicted
        What was planned.
    found : Compared or None
        None where none of it was read while this pour was the last.
    """

    series: Series
    watched: Watched
    hours: Floats
    degC: Floats
    plan: Predicted
    found: Compared | None

    @property
    def words(self) -> list[str]:
        """What it says, with what to do."""
        if self.found is None:
            return ["Nothing was read between this pour and the next."]
        note = [f"Mind: {self.plan.note}."] if self.plan.note else []
        told = measured_words(self.found, self.plan, self.watched.planned, Wording(self.watched.plan.job))
        return [*told, *note]


def measured_of(folder: Path, variant: str | None = None, casting: int | None = None) -> dict[str, Any]:
    """Say what the loggers of a casting saw, against its plan.

    Parameters
    ----------
    folder : Path
        Of the job.
    variant : str, optional
        Else the first that has a plan.
    casting : int, optional
        Which piece; else the last.

    Returns
    -------
    dict
        ``pourwright-measured/1.0``: the numbers of all ``castings``; the ``pours`` of this one, each with its
        ``series``, their numbers in degC and h and their ``words``; those that were taken back too.

    Raises
    ------
    NotThereError
        Where there is no plan.
    """
    plan = _plan(folder, variant)
    with open_book(book_place(folder)) as book:
        if not book.read_only:
            take_in_journal(book, folder)
        return report(book, plan, _asked(book, plan, casting))


def _plan(folder: Path, variant: str | None) -> PlanOnDisk:
    found = plans_on_disk(folder) if variant is None else ()
    return found[0] if found else plan_on_disk(folder, variant)


def _asked(book: Book, plan: PlanOnDisk, casting: int | None) -> Casting | None:
    numbers = castings_in(book, plan.job, plan.variant)
    if casting is not None and casting not in numbers:
        allowed = ", ".join(map(str, numbers)) or "none yet"
        raise NotThereError(
            f"no casting {casting}", where="casting", allowed=allowed, todo="name one of these"
        )
    number = casting or max(numbers, default=0)
    return read_casting(book, plan.job, plan.variant, number) if number else None


def report(book: Book, plan: PlanOnDisk, casting: Casting | None) -> dict[str, Any]:
    """Write the answer of `measured_of` for one casting.

    Parameters
    ----------
    book : Book
        Open.
    plan : PlanOnDisk
        The job's latest plan.
    casting : Casting or None
        The piece; None before anything was cast.

    Returns
    -------
    dict
    """
    pours = [] if casting is None else list(_pours(book, plan, casting))
    return {
        "schema": SCHEMA,
        "job": plan.plan.job.model_dump(mode="json"),
        "name": plan.job,
        "variant": plan.variant,
        "casting": casting.number if casting else None,
        "castings": list(castings_in(book, plan.job, plan.variant)),
        "pours": pours,
    }


def _pours(book: Book, plan: PlanOnDisk, casting: Casting) -> Iterator[dict[str, Any]]:
    for watched in watched_pours(book, casting):
        job = watched.plan.job
        series = series_of(book, watched.pour.id, taken_back=True)
        yield {
            "pour": watched.pour.number,
            "begun": written(watched.begun),
            "when": shown_when(watched.begun, job.time_zone, job.units),
            "plan": watched.kept.hash,
            "series": [_told(_measured(book, plan, watched, one)) for one in series],
        }


def _told(one: Measured) -> dict[str, Any]:
    found = one.found
    numbers = {} if found is None else asdict(found) | {"warmer_K": found.warmer, "later_h": found.later}
    return {
        "id": one.series.id,
        "name": one.series.name,
        "place": one.series.place,
        "compared_with": one.plan.place.words,
        "file": one.series.file_hash,
        "readings": int(one.hours.size),
        "taken_back": written_maybe(one.series.taken_back),
        "words": one.words,
        "numbers": numbers,
    }


def expected(plan: PlanOnDisk, watched: Watched, place: str) -> Predicted:
    """Say what the plan of a pour expected of a place.

    Parameters
    ----------
    plan : PlanOnDisk
        The job's latest plan, whose heat file knows single places.
    watched : Watched
        The pour.
    place : str
        As `Sensor.place`.

    Returns
    -------
    Predicted
    """
    return predicted(watched.plan, watched.planned, place, plan.place, watched.kept.hash)


def _measured(book: Book, plan: PlanOnDisk, watched: Watched, series: Series) -> Measured:
    seconds, degrees = _curve(book.path, series.id, series.file_hash)
    hours = (seconds - watched.begun.timestamp()) / HOUR
    place = expected(plan, watched, series.place)
    limit = None if place.place.told == AIR else watched.planned.peak_limit_degC
    there = bool(((hours >= 0.0) & (hours <= watched.until)).any())
    found = compare(hours, degrees, place, limit, watched.until) if there else None
    return Measured(series, watched, hours, degrees, place, found)


@lru_cache(maxsize=KEPT)
def _curve(path: Path, number: int, file_hash: str) -> tuple[Floats, Floats]:
    """Readings of a series, which never change: seconds since 1970 and degC."""
    del file_hash  # only tells a book from another that lay at its place before
    with open_book(path, make=False) as book:
        rows = np.fromiter(chain.from_iterable(curve_of(book, number)), dtype=float).reshape(-1, 2)
    return rows[:, 0], rows[:, 1]


def one_measured(folder: Path, number: int) -> Measured:
    """Give one series of a job with what the plan said of it.

    Parameters
    ----------
    folder : Path
        Of the job.
    number : int
        Of the series.

    Returns
    -------
    Measured

    Raises
    ------
    NotThereError
        Where the job has no such series.
    """
    with open_book(book_place(folder), make=False) as book:
        series, kept, casting = casting_of_series(book, folder, number)
        plan = plan_on_disk(folder, kept.variant)
        pour = next(pour for _, pour, _ in casting.logged if pour.id == series.pour_id)
        return _measured(book, plan, watched_pour(book, casting, pour.number), series)


def casting_of_series(book: Book, folder: Path, number: int) -> tuple[Series, Plan, Casting]:
    """Find the casting that a series of a job belongs to.

    Parameters
    ----------
    book : Book
        Open.
    folder : Path
        Of the job.
    number : int
        Of the series.

    Returns
    -------
    tuple of (Series, Plan, Casting)
        With the plan that its pour was begun under.

    Raises
    ------
    NotThereError
        Where the job has no such series.
    """
    series = series_by_id(book, number)
    pour = pour_by_id(book, series.pour_id)
    kept = plan_by_id(book, pour.plan_id)
    if kept.job != folder.resolve().name:
        raise NotThereError(f"this job has no series {number}", where="series", todo="look at the list")
    return series, kept, read_casting(book, kept.job, kept.variant, pour.casting)
