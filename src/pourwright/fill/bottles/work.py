"""One person's hours at the bottles, and what they are worth against graded glass."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.fill.bottles.collecting import Collected


@dataclass(frozen=True)
class Pace:
    """Time that each kind of work takes.

    Parameters
    ----------
    label : float
        For one bottle [s].
    crushing, sieving : float
        For a kilogram of bottles [s/kg].
    washing, drying : float
        For a kilogram of glass that is wanted [s/kg]; drying without the wait.
    change : float
        For one colour [s].
    """

    label: float
    crushing: float
    sieving: float
    washing: float
    drying: float
    change: float


@dataclass(frozen=True)
class Work:
    """Hours of one colour [s]; ``crushing`` includes making clean for the next colour."""

    labels: float
    crushing: float
    sieving: float
    washing: float
    drying: float

    @property
    def total(self) -> float:
        """All of it [s]."""
        return self.labels + self.crushing + self.sieving + self.washing + self.drying


def work_at(found: Collected, pace: Pace) -> Work:
    """Reckon the work at the bottles of one colour.

    Parameters
    ----------
    found : Collected
        Its bottles.
    pace : Pace
        Of one person.

    Returns
    -------
    Work

    Examples
    --------
    >>> found = Collected("green", 20, 9.0, (), 0.0, 9.0)
    >>> work_at(found, Pace(60.0, 180.0, 120.0, 120.0, 60.0, 900.0)).total / 3600
    1.3333333333333333
    """
    return Work(
        labels=found.bottles * pace.label,
        crushing=found.crushed * pace.crushing + (pace.change if found.bottles else 0.0),
        sieving=found.crushed * pace.sieving,
        washing=found.wanted * pace.washing,
        drying=found.wanted * pace.drying,
    )


@dataclass(frozen=True)
class Worth:
    """Crushing against buying, for one colour.

    Parameters
    ----------
    work : float
        At the bottles [s].
    bought : float or None
        What the graded glass costs; None without a price.
    hour : float or None
        Price of a second of work [money/s]; None where none is given.
    """

    work: float
    bought: float | None
    hour: float | None

    @property
    def own(self) -> float | None:
        """What the work costs; None without a price of an hour."""
        return None if self.hour is None else self.work * self.hour

    @property
    def turns_at(self) -> float | None:
        """Price of a second of work at which both cost the same [money/s]."""
        return None if self.bought is None or self.work <= 0.0 else self.bought / self.work

    @property
    def buy(self) -> bool | None:
        """Whether to buy it; None where a price is missing."""
        return None if self.own is None or self.bought is None else self.bought < self.own
