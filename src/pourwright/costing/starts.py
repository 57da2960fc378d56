"""How many castings must be begun for a number of good pieces, when some fail."""

from __future__ import annotations

from decimal import Decimal

from scipy.special import betainc

from pourwright.foundation.checks import Range, checked

YIELD = Range(0, 1, open_low=True)
_MOST = 1_000_000


@checked(good=YIELD)
def starts_per_good(good: Decimal) -> Decimal:
    """Castings begun for one good piece, on average.

    Parameters
    ----------
    good : Decimal
        Share of the castings that come out good [-].

    Returns
    -------
    Decimal
        [-]

    Examples
    --------
    >>> starts_per_good(Decimal("0.8"))
    Decimal('1.25')
    """
    return Decimal(1) / Decimal(good)


@checked(good=YIELD)
def chance_of(pieces: int, starts: int, good: float) -> float:
    """Chance that so many castings give at least so many good pieces.

    Parameters
    ----------
    pieces : int
        Good ones wanted, 1 or more.
    starts : int
        Castings begun.
    good : float
        Chance of each to come out good, one as the other [-].

    Returns
    -------
    float
        [-]

    Notes
    -----
    Binomial, as an incomplete beta function.

    Examples
    --------
    >>> round(chance_of(12, 14, 0.9), 5)
    0.84164
    """
    if starts < pieces:
        return 0.0
    return float(betainc(pieces, starts - pieces + 1, good))


@checked(good=YIELD, probability=Range(0, 1, open_low=True, open_high=True))
def starts_for(pieces: int, good: float, probability: float = 0.95) -> int:
    """Castings to plan for, so that enough good pieces come with this probability.

    Parameters
    ----------
    pieces : int
        Good ones wanted, 1 or more.
    good : float
        Chance of each to come out good [-].
    probability : float
        Wanted [-].

    Returns
    -------
    int
        As many as that may be.

    Examples
    --------
    >>> starts_for(12, 0.9)
    16
    """
    low, high = pieces, 2 * pieces
    while chance_of(pieces, high, good) < probability and high < _MOST * pieces:
        low, high = high, 2 * high
    while low < high:
        middle = (low + high) // 2
        if chance_of(pieces, middle, good) < probability:
            low = middle + 1
        else:
            high = middle
    return low
