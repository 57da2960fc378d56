"""What the times of a pour's entries say of how long the shop takes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime

from pourwright.app.benching.step import GOES_IN, STEP
from pourwright.app.benching.steps import BEGUN, IN_MOLD, READY
from pourwright.app.defaults import DEFAULTS
from pourwright.app.learnt.paces import GETTING_READY, POURING
from pourwright.app.work_lengths import laying_time, pouring_time
from pourwright.calibration.learning.record import Record
from pourwright.jobs.plan import Pour
from pourwright.materials.batches import Batch
from pourwright.records import Entry

FARTHEST = 6.0
"""What took so many times longer or shorter than is usual was not one go, or was entered afterwards."""


def hours_of(pour: Pour, entries: Sequence[Entry], pour_id: str) -> Iterator[Record]:
    """Compare what a pour's steps took with what they usually take; one record for each.

    Parameters
    ----------
    pour : Pour
        As planned.
    entries : sequence of Entry
        What stands in the log about it, in its order.
    pour_id : str
        By which its records are named.

    Yields
    ------
    Record
        The time of a step over the usual one; nothing where begin or end was not entered as it happened.
    """
    usual = {POURING: pouring_time(_batches(pour)), GETTING_READY: _ready_time(pour)}
    for step, times in ((POURING, _pouring(pour, entries)), (GETTING_READY, _getting_ready(entries))):
        if times is None or not usual[step]:
            continue
        pace = (times[1] - times[0]).total_seconds() / usual[step]
        if 1.0 / FARTHEST < pace < FARTHEST:
            yield Record(id=f"{pour_id}:hours {step}", quantity="hours", subject=step, value=pace)


def _batches(pour: Pour) -> list[Batch]:
    return [Batch(b.number, b.mass_kg, b.part_a_kg, b.part_b_kg, b.ratio_error) for b in pour.batches]


def _ready_time(pour: Pour) -> float:
    """Of laying the glass, and before the first pour of the list that is gone through [s]."""
    check = DEFAULTS["go_no_go"].value if pour.number == 1 else 0.0
    return laying_time(sum(each.mass_kg for each in pour.glass)) + check


def _pouring(pour: Pour, entries: Sequence[Entry]) -> tuple[datetime, datetime] | None:
    """From the first weight to the last batch that is in the mold."""
    begun = [entry.at for entry in entries if entry.kind in ("weigh_a", "weigh_b")]
    went_in = [entry.at for entry in entries if entry.kind == "poured" or _says(entry, IN_MOLD)]
    if not begun or len(went_in) < len(pour.batches):
        return None
    return min(begun), max(went_in)


def _getting_ready(entries: Sequence[Entry]) -> tuple[datetime, datetime] | None:
    begun = [entry.at for entry in entries if _says(entry, BEGUN)]
    ready = [entry.at for entry in entries if _says(entry, READY)]
    first = min((entry.at for entry in entries if entry.kind in GOES_IN), default=None)
    if not begun or not ready or (first is not None and begun[-1] > first):
        return None
    return begun[-1], min(ready)


def _says(entry: Entry, words: str) -> bool:
    return entry.kind == STEP and entry.text.startswith(words)
