"""What the shop's book holds for learning: its pours, pieces that failed, records that were set aside."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from pourwright.app.benching.steps import FAILED
from pourwright.app.booking.batches import is_measured
from pourwright.app.booking.casting import WHOLE
from pourwright.app.booking.heights import is_out_of_sight
from pourwright.app.booking.went_in import went_in
from pourwright.app.leaking.of_log import of_entries
from pourwright.app.learning.from_clock import hours_of
from pourwright.app.learning.from_cooling import heat_film_of
from pourwright.app.learning.from_glass import yields_of
from pourwright.app.learning.from_pours import PourLogged, records_of
from pourwright.app.learning.from_size import shrinkage_of
from pourwright.app.learning.from_water import cavity_of
from pourwright.calibration.learning.record import Record
from pourwright.foundation.errors import UserError
from pourwright.jobs import read_plan
from pourwright.jobs.plan import PlanDocument
from pourwright.materials import Materials
from pourwright.records import (
    Book,
    Entry,
    Learned,
    Plan,
    Pour,
    document_of,
    entries_of,
    learned_ever,
    learned_now,
    plans_of,
    pours_of,
    readings_of,
    series_of,
)

ASIDE, BACK = "not learnt from:", "learnt from again:"
"""Notes by which the maker sets one record of a pour aside, and takes it back."""
FAILURES = ("scrap", FAILED, "broken")
"""Words with which the note of a demolded piece begins that is none."""
SOON = timedelta(hours=1)
"""A level that was read so soon after the pour is that of all that went in."""
WARMED = 3.0
"""A logger that saw so much warming saw a peak [K]."""


def records_in_book(book: Book, materials: Materials) -> list[Record]:
    """All records that the book's pours give; those set aside say so.

    Voids are told by volumes of the mold as the water test has found it, where that is learnt and holds.
    """
    found: list[Record] = []
    for plan in plans_of(book):
        document = _document(book, plan)
        if document is not None:
            found += _of_plan(book, plan, document, materials)
    return found


def _document(book: Book, plan: Plan) -> PlanDocument | None:
    try:
        return read_plan(json.loads(document_of(book, plan.id)))
    except UserError:
        # of a newer version or torn: its pours teach nothing, the others do
        return None


def _of_plan(book: Book, plan: Plan, document: PlanDocument, materials: Materials) -> Iterator[Record]:
    holds = next((row.mean for row in learned_now(book, "cavity", plan.job)), 1.0)
    assumed = _Assumed(document, learned_ever(book), plan.made, holds)
    for pour in pours_of(book, plan.id):
        entries = entries_of(book, pour.id)
        if pour.number == WHOLE:
            found = _of_piece(plan, document, pour, entries, materials, assumed)
        else:
            found = _of_pour(book, plan, document, pour, entries, materials, assumed)
        for record in found:
            yield replace(record, aside=_is_aside(entries, key_of(record)))


def key_of(record: Record) -> str:
    """Name a record within its pour, as the notes do that set it aside."""
    return record.id.partition(":")[2]


@dataclass(frozen=True)
class _Assumed:
    """What a plan was made with, so that a shop does not learn twice what it has learnt."""

    document: PlanDocument
    ever: Sequence[Learned]
    made: datetime
    holds: float

    def value(self, quantity: str, subject: str, usual: float = 1.0) -> float:
        for one in self.document.learnt:
            if (one.quantity, one.subject) == (quantity, subject):
                return one.value
        return usual

    def cure_rate(self) -> float:
        """A plan older than its list of what was learnt: by the time it was made."""
        resin = self.document.piece.casting_material
        known = [row for row in self.ever if (row.quantity, row.subject) == ("cure_rate", resin)]
        before = [row for row in known if row.made is not None and row.made <= self.made]
        return self.value("cure_rate", resin, before[-1].mean if before else 1.0)


def _of_piece(
    plan: Plan,
    document: PlanDocument,
    pour: Pour,
    entries: Sequence[Entry],
    materials: Materials,
    assumed: _Assumed,
) -> Iterator[Record]:
    """Of the piece and its mold as a whole."""
    name, resin = str(pour.id), materials.resin.get(document.piece.casting_material)
    yield from _piece(pour, entries)
    yield from cavity_of(document, entries, name, plan.job, assumed.value("cavity", plan.job))
    yield from yields_of(entries, name)
    if resin is not None:
        shrinks = assumed.value("shrinkage", resin.id, resin.cure_shrinkage.value)
        yield from shrinkage_of(document, entries, name, shrinks)


def _of_pour(
    book: Book,
    plan: Plan,
    document: PlanDocument,
    pour: Pour,
    entries: Sequence[Entry],
    materials: Materials,
    assumed: _Assumed,
) -> Iterator[Record]:
    resin = materials.resin.get(document.piece.casting_material)
    planned = next((each for each in document.pours if each.number == pour.number), None)
    if resin is None or planned is None:
        return
    wider = assumed.holds / assumed.value("cavity", plan.job)
    logged = replace(_logged(book, plan, pour, entries), cavity=wider)
    yield from records_of(document, [logged], resin.density.value, assumed.cure_rate())
    at = logged.begun.isoformat()
    yield from (replace(each, at=at) for each in hours_of(planned, entries, logged.id))
    film, hottest = assumed.value("heat_film", plan.job), _hottest_series(book, pour)
    cooled = heat_film_of(document, planned, logged.begun, hottest, materials, logged.id, plan.job, film)
    yield from () if cooled is None else (cooled,)


def _piece(pour: Pour, entries: Sequence[Entry]) -> Iterator[Record]:
    """One piece that came out of its mold, whole or not."""
    out = [entry for entry in entries if entry.kind == "demolded"]
    if out:
        failed = out[-1].text.strip().lower().startswith(FAILURES)
        yield Record(
            id=f"{pour.id}:scrap_rate",
            quantity="scrap_rate",
            subject="pieces",
            value=float(failed),
            at=out[-1].at.isoformat(),
        )


def _logged(book: Book, plan: Plan, pour: Pour, entries: Sequence[Entry]) -> PourLogged:
    read = of_entries(entries)
    begun = pour.begun or min((entry.at for entry in entries), default=plan.made)
    caught = bool(read.caught)
    first = next((each for each in entries if each.kind == "level" and is_measured(each)), None)
    # a level hours later may be that of a leak nobody has seen
    soon = first is not None and first.at - begun < SOON
    mixed, poured = went_in(entries).mixed_and_poured
    return PourLogged(
        id=str(pour.id),
        number=pour.number,
        begun=begun,
        mixed=mixed,
        poured=poured,
        clung=sum(entry.value or 0.0 for entry in entries if entry.kind == "clung") or None,
        level=first.value if first is not None and soon else None,
        leaked=caught or any(is_out_of_sight(each) or each.kind == "topped_up" for each in entries),
        gelled=read.gelled,
        peak_at=_peak(book, pour),
    )


def _peak(book: Book, pour: Pour) -> datetime | None:
    """When the warmest logger of a pour was warmest."""
    hottest = _hottest(_hottest_series(book, pour))
    return None if hottest is None else hottest[1]


def _hottest_series(book: Book, pour: Pour) -> Sequence[tuple[datetime, float]]:
    """Readings of the logger that saw the most; none where there was none."""
    series = [readings_of(book, each.id) for each in series_of(book, pour.id)]
    return max(
        (each for each in series if each), key=lambda each: max(value for _, value in each), default=()
    )


def _hottest(readings: Sequence[tuple[datetime, float]]) -> tuple[float, datetime] | None:
    if len(readings) < 3:
        return None
    at, value = max(readings, key=lambda reading: reading[1])
    # still rising at the end is no peak
    return (value, at) if value - readings[0][1] > WARMED and at < readings[-1][0] else None


def _is_aside(entries: Sequence[Entry], key: str) -> bool:
    """By the latest note about it."""
    notes = [entry.text for entry in entries if entry.kind == "note"]
    about = [text for text in notes if text in (f"{ASIDE} {key}", f"{BACK} {key}")]
    return bool(about) and about[-1].startswith(ASIDE)
