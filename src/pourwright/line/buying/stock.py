"""Stock first, and of it what expires first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

LEAST = 1e-9


@dataclass(frozen=True, slots=True)
class Lot:
    """What lies on the shelf.

    Parameters
    ----------
    amount : float
        Left of it.
    expires : date or None
        Last day on which it may be used.
    name : str
        What stands on it.
    """

    amount: float
    expires: date | None = None
    name: str = ""


@dataclass(frozen=True, slots=True)
class Need:
    """So much on a day.

    Parameters
    ----------
    day : date
        From then on it has to be there.
    amount : float
        In the unit of its item.
    last : date or None
        It has to keep until then; the same day where left out.
    """

    day: date
    amount: float
    last: date | None = None

    @property
    def until(self) -> date:
        """The last day on which it is used."""
        return self.last or self.day


@dataclass(frozen=True, slots=True)
class Taken:
    """So much of a lot for a need, by their positions."""

    lot: int
    need: int
    amount: float


def from_stock(lots: Sequence[Lot], needs: Sequence[Need]) -> tuple[list[Taken], list[Need]]:
    """Give each need its share of the stock, in the order of days.

    Parameters
    ----------
    lots : sequence of Lot
        On the shelf.
    needs : sequence of Need
        In any order.

    Returns
    -------
    tuple of (list of Taken, list of Need)
        What is taken, and what is missing, by day.

    Notes
    -----
    Of the lots that are still good the first to expire goes first: a need that comes later can use every lot
    that keeps longer, so that no other way leaves less missing.
    """
    order = sorted(range(len(lots)), key=lambda at: (lots[at].expires or date.max, at))
    left = [lot.amount for lot in lots]
    taken: list[Taken] = []
    short: list[Need] = []
    for number in sorted(range(len(needs)), key=lambda at: needs[at].day):
        need, missing = needs[number], needs[number].amount
        for at in order:
            if (lots[at].expires or date.max) < need.day or missing <= LEAST or left[at] <= LEAST:
                continue
            part = min(missing, left[at])
            left[at], missing = left[at] - part, missing - part
            taken.append(Taken(at, number, part))
        if missing > LEAST:
            short.append(Need(need.day, missing))
    return taken, short
