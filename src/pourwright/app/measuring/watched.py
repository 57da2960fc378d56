"""The pour that a logger watched: when it really went in, and when the next one did."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from math import inf

from pourwright.app.booking.casting import WHOLE, Casting
from pourwright.app.booking.settling import document
from pourwright.foundation.errors import NotThereError
from pourwright.jobs.plan import PlanDocument, Pour as PlannedPour
from pourwright.records import Book, Entry, Plan, Pour

HOUR = 3600.0
_IN = "in the mold"
_WENT_IN = ("mixed", "poured")


@dataclass(frozen=True)
class Watched:
    """One pour of a casting that was begun.

    Parameters
    ----------
    kept : Plan
        The plan it was begun under, in the book.
    plan : PlanDocument
        The same, read.
    pour : Pour
        In the book.
    planned : PlannedPour
        Of the plan.
    begun : datetime
        When resin first went in.
    following : datetime, optional
        When the next pour did.
    """

    kept: Plan
    plan: PlanDocument
    pour: Pour
    planned: PlannedPour
    begun: datetime
    following: datetime | None

    @property
    def until(self) -> float:
        """Hours from this pour to the next."""
        return inf if self.following is None else (self.following - self.begun).total_seconds() / HOUR


def watched_pours(book: Book, casting: Casting) -> tuple[Watched, ...]:
    """List the pours of a casting that have begun.

    Parameters
    ----------
    book : Book
        Open.
    casting : Casting
        The piece.

    Returns
    -------
    tuple of Watched
        In their order.
    """
    found = []
    for kept, pour, entries in casting.logged:
        at = _went_in(pour, entries)
        if pour.number == WHOLE or at is None:
            continue
        plan = document(book, kept.id)
        planned = next((one for one in plan.pours if one.number == pour.number), None)
        if planned is not None:
            found.append(Watched(kept, plan, pour, planned, at, _following(casting, pour.number)))
    return tuple(found)


def watched_pour(book: Book, casting: Casting, number: int | None) -> Watched:
    """Give one pour of a casting that has begun.

    Parameters
    ----------
    book : Book
        Open.
    casting : Casting
        The piece.
    number : int, optional
        Which; else the last.

    Returns
    -------
    Watched

    Raises
    ------
    NotThereError
        Where it has not begun.
    """
    begun = watched_pours(book, casting)
    wanted = [one for one in begun if number in {None, one.pour.number}]
    if wanted:
        return wanted[-1]
    raise NotThereError(
        "no pour has begun" if number is None else f"pour {number} has not begun",
        where="--pour",
        allowed=", ".join(str(one.pour.number) for one in begun) or "none yet",
        todo="log what went in first: a logger belongs to a pour by its real start",
    )


def _went_in(pour: Pour, entries: Iterable[Entry]) -> datetime | None:
    """When resin first went in: as soon as a batch was mixed; else when the first was weighed."""
    times = [one.at for one in entries if one.kind in _WENT_IN or one.text.startswith(_IN)]
    return min(times, default=pour.begun)


def _following(casting: Casting, number: int) -> datetime | None:
    later = [_went_in(pour, entries) for _, pour, entries in casting.logged if pour.number > number]
    return min((each for each in later if each is not None), default=None)
