"""What is kept on stock for pieces that are to be cast, as the page tells and changes it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from pourwright.app.booking.clock import shown_day
from pourwright.app.booking.places import book_place
from pourwright.records import Book, free, open_book, plan_by_id, reservations_of
from pourwright.records.moments import written


def kept_told(book: Book, zone: str) -> list[dict[str, Any]]:
    """List the pieces that something is kept for.

    Parameters
    ----------
    book : Book
        Open.
    zone : str
        Of the shop's clock.

    Returns
    -------
    list of dict
        Each with the plan that says how much, and the casting.
    """
    kept = [(one, plan_by_id(book, one.plan_id)) for one in reservations_of(book)]
    return [
        {
            "plan": plan.id,
            "job": plan.job,
            "variant": plan.variant,
            "title": plan.title,
            "casting": one.casting,
            "made": written(one.made),
            "day": shown_day(one.made, zone),
        }
        for one, plan in kept
    ]


def keep_no_more(shop: Path, plan: int, casting: int) -> None:
    """Keep nothing for a piece any more.

    Parameters
    ----------
    shop : Path
        Its folder.
    plan : int
        The plan in the book.
    casting : int
        Which piece.

    Raises
    ------
    NotThereError
        Where there is no such plan.
    """
    with open_book(book_place(shop), make=False) as book, book.writing():
        free(book, plan_by_id(book, plan).id, casting)
