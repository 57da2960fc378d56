"""The piece that is under way: which casting of a job, which pour of it."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.app.booking.places import PlanOnDisk
from pourwright.records import Book, Entry, Plan, Pour, castings_in, entries_of, pours_of_job

GOES_IN = ("weigh_a", "weigh_b", "mixed", "poured")
WHOLE = 0
"""Number of the pour that stands for the piece as a whole."""
OF_WHOLE = (
    "demolded",
    "size",
    "water",
    "water_level",
    "crushed",
    "sieved",
    "rubber_a",
    "rubber_b",
    "mold_made",
)
"""Entries about the piece, its mold and its glass as a whole."""


@dataclass(frozen=True)
class Casting:
    """One piece that is cast by a job.

    Parameters
    ----------
    number : int
        Counts the pieces of this job and variant.
    logged : tuple of (Plan, Pour, tuple of Entry)
        Its pours so far with what stands in the log, in their order; each with the plan it was begun under.
    """

    number: int
    logged: tuple[tuple[Plan, Pour, tuple[Entry, ...]], ...]

    @property
    def is_over(self) -> bool:
        """Whether it has come out of its mold."""
        return any(entry.kind == "demolded" for _, _, entries in self.logged for entry in entries)

    def pour(self, number: int) -> Pour | None:
        """A pour that was begun."""
        return next((pour for _, pour, _ in self.logged if pour.number == number), None)

    def entries(self, number: int) -> tuple[Entry, ...]:
        """What stands in the log about a pour."""
        return next((entries for _, pour, entries in self.logged if pour.number == number), ())

    def pour_of(self, kind: str) -> int:
        """The pour that an entry belongs to where nobody says so: the last; once it has gelled, the next."""
        if kind in OF_WHOLE:
            return WHOLE
        last = max((pour.number for _, pour, _ in self.logged), default=WHOLE)
        gelled = any(entry.kind == "gel" for entry in self.entries(last))
        return max(last + (gelled and kind in GOES_IN), 1)


def casting_of(book: Book, plan: PlanOnDisk, kind: str, number: int | None = None) -> Casting:
    """Give the casting that is meant.

    Parameters
    ----------
    book : Book
        Open.
    plan : PlanOnDisk
        Of the job and variant.
    kind : str
        Of the entry: once a piece is out of its mold, what goes in begins the next one.
    number : int, optional
        Of the casting; else the last one, or the next.

    Returns
    -------
    Casting
        Empty where it has not begun.
    """
    if number is not None:
        return read_casting(book, plan.job, plan.variant, number)
    last = read_casting(
        book, plan.job, plan.variant, max(castings_in(book, plan.job, plan.variant), default=1)
    )
    return Casting(last.number + 1, ()) if last.is_over and kind in GOES_IN else last


def read_casting(book: Book, job: str, variant: str, number: int) -> Casting:
    """Read one casting of a job.

    Parameters
    ----------
    book : Book
        Open.
    job, variant : str
        Whose.
    number : int
        Which piece.

    Returns
    -------
    Casting
        Empty where it has not begun.
    """
    pours = pours_of_job(book, job, variant, number)
    return Casting(number, tuple((plan, pour, entries_of(book, pour.id)) for plan, pour in pours))


def castings_of(book: Book, job: str, variant: str) -> tuple[Casting, ...]:
    """Read every casting of a job; `castings_in` tells their numbers alone.

    Parameters
    ----------
    book : Book
        Open.
    job, variant : str
        Whose.

    Returns
    -------
    tuple of Casting
        In their order.
    """
    return tuple(read_casting(book, job, variant, number) for number in castings_in(book, job, variant))
