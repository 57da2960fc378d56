"""What can be bought: whole kits at prices that fall with their number, and on what terms."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta
from decimal import Decimal

from pourwright.line.buying.stock import Need

NOTHING = Decimal(0)


@dataclass(frozen=True)
class Offer:
    """Kits of one size.

    Parameters
    ----------
    item : int
        Position of what it is a kit of.
    supplier : str
        Whose.
    kit : float
        What one holds, in the unit of its item; above 0.
    prices : tuple of (int, Decimal)
        From so many kits on each of them costs so much; the first from 1.
    fewest : int
        Kits that are sold at once.
    keeps : int or None
        Days that a kit keeps, from the day it comes; None for ever.
    delivery : int
        Days from the order until it is there.
    """

    item: int
    supplier: str
    kit: float
    prices: tuple[tuple[int, Decimal], ...]
    fewest: int = 1
    keeps: int | None = None
    delivery: int = 0

    def price(self, kits: int) -> Decimal:
        """Of one kit, when so many are bought at once."""
        return [each for start, each in self.prices if start <= max(kits, 1)][-1]

    def serves(self, comes: date, need: Need) -> bool:
        """Whether a kit that comes on a day can be used for a need."""
        return comes <= need.day and (self.keeps is None or need.until <= comes + timedelta(self.keeps))


@dataclass(frozen=True)
class Terms:
    """On what terms somebody sells.

    Parameters
    ----------
    least : Decimal
        An order comes to at least so much, what is sent for left out.
    fee : Decimal
        For sending an order.
    """

    least: Decimal = NOTHING
    fee: Decimal = NOTHING


@dataclass(frozen=True)
class Wanted:
    """All that is to be bought.

    Parameters
    ----------
    today : date
        Nothing is ordered before.
    needs : sequence of sequence of Need
        What is missing of every item.
    offers : sequence of Offer
        For them.
    terms : mapping
        Of those suppliers that have any.
    comes : tuple of date
        Days on which something may come, but for needs that they miss; every day of need where empty.
    """

    today: date
    needs: tuple[tuple[Need, ...], ...]
    offers: tuple[Offer, ...]
    terms: dict[str, Terms] = field(default_factory=dict)
    comes: tuple[date, ...] = ()


@dataclass(frozen=True)
class Bought:
    """Kits of one offer that come on one day.

    Parameters
    ----------
    offer : int
        Position of the offer.
    comes : date
        When they are there.
    kits : int
        How many.
    money : Decimal
        For all of them.
    used : float
        Of it, in the unit of its item.
    """

    offer: int
    comes: date
    kits: int
    money: Decimal
    used: float


@dataclass(frozen=True)
class Purchase:
    """What is bought.

    Parameters
    ----------
    bought : tuple of Bought
        In the order of days.
    sent : tuple of (str, date, Decimal)
        Supplier, day and fee of every order that is sent for.
    money : Decimal
        In all.
    proven : bool
        Whether nothing is cheaper.
    least : float
        Nothing costs less than this.
    """

    bought: tuple[Bought, ...]
    sent: tuple[tuple[str, date, Decimal], ...]
    money: Decimal
    proven: bool
    least: float
