"""One number that a shop has found, and what comes of several."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """One number that the shop found.

    Parameters
    ----------
    id : str
        By which it is set aside.
    quantity : str
        Key of `QUANTITIES`.
    subject : str
        Of what: a grade, a resin, a mold, a step.
    value : float
        In SI; of a rate, how many of ``trials`` failed.
    doubt : float
        Standard deviation of this reading alone [same unit]; 0 where only the scatter counts.
    trials : int
        Of a rate: among how many.
    at : str
        When, ISO 8601.
    aside : bool
        Set aside by the maker: it stays in the book and is not learnt from.
    """

    id: str
    quantity: str
    subject: str
    value: float
    doubt: float = 0.0
    trials: int = 1
    at: str = ""
    aside: bool = False


@dataclass(frozen=True, slots=True)
class Family:
    """What holds before the shop has records: value with a band that holds four of five shops."""

    value: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Suspect:
    """A record that looks wrong.

    Parameters
    ----------
    id : str
        Of the record.
    value : float
        What it says.
    chance : float
        That it is a bad one [-].
    """

    id: str
    value: float
    chance: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Learned:
    """What a shop's records make of one number.

    Parameters
    ----------
    quantity, subject : str
        As in the records.
    family : Family
        Where it began.
    value, low, high : float
        To be used: one in ten shops with such records lies below ``low``, one in ten above ``high``.
    records : int
        How many were learnt from.
    kept_family : bool
        True where the family's value is used all the same.
    why : str
        Why it is kept: "few" records, or "no better" when held out; empty where it is not.
    error, family_error : float or None
        Mean error of a record that was held out, by the others and by the family; None with fewer than two.
    scatter : float
        Of one record of this shop around its value, on the quantity's own scale.
    suspects : tuple of Suspect
        Records that look wrong.
    """

    quantity: str
    subject: str
    family: Family
    value: float
    low: float
    high: float
    records: int
    kept_family: bool
    why: str
    error: float | None
    family_error: float | None
    scatter: float
    suspects: tuple[Suspect, ...] = ()

    @property
    def mean(self) -> float:
        """As the book keeps it."""
        return self.value

    @property
    def deviation(self) -> float:
        """Half of the band in standard deviations, as the book keeps it."""
        return self.deviation_of(self.low, self.high)

    @staticmethod
    def deviation_of(low: float, high: float) -> float:
        """Standard deviation of a band that holds four of five."""
        return (high - low) / BAND


BAND = 2.0 * 1.2815515655446004
"""Standard deviations between the ends of a band that holds four of five."""
