"""Practice: each time the count doubles, the hours of a piece fall by the same share."""

from __future__ import annotations

import math
from decimal import Decimal

from pourwright.foundation.checks import Range, checked


@checked(number=Range(1), rate=Range(0.5, 1))
def unit_factor(number: float, rate: float) -> float:
    """Hours of one piece over those of the first.

    Parameters
    ----------
    number : float
        Which piece it is, counted from 1 [-].
    rate : float
        Hours of the 2n-th piece over those of the n-th [-].

    Returns
    -------
    float
        [-]

    Notes
    -----
    ``number ** log2(rate)``: Wright's law as Crawford read it, of the single unit, not of the mean of all so
    far. [wright-1936]

    Examples
    --------
    >>> unit_factor(4, 0.8)
    0.64
    """
    return float(round(number ** math.log2(rate), 12))


def total_factor(count: int, rate: float, begins: int = 1) -> float:
    """Hours of a run over those of the very first piece.

    Parameters
    ----------
    count : int
        Pieces of the run.
    rate : float
        As for `unit_factor`.
    begins : int
        Which piece of its kind the first of the run is.

    Returns
    -------
    float
        [-]

    Examples
    --------
    >>> round(total_factor(2, 0.8), 3)
    1.8
    """
    return math.fsum(unit_factor(number, rate) for number in range(begins, begins + count))


def mean_factor(count: int, rate: Decimal, begins: int = 1) -> Decimal:
    """Mean hours over a run, over those of its first piece, which were planned.

    Parameters
    ----------
    count : int
        Pieces of the run.
    rate : Decimal
        As for `unit_factor`.
    begins : int
        Which piece of its kind the first of the run is.

    Returns
    -------
    Decimal
        [-]

    Examples
    --------
    >>> mean_factor(2, Decimal("0.8"))
    Decimal('0.9')
    """
    first = unit_factor(begins, float(rate))
    return Decimal(repr(round(total_factor(count, float(rate), begins) / first / count, 12)))
