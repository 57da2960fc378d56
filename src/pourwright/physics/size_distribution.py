"""How the sizes of crushed grains are spread."""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, log
from typing import NamedTuple

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.foundation.errors import UserError

POSITIVE = Range(0.0, open_low=True)
LEAST_SPREAD = 0.02
"""Sizes over hundreds of powers of ten: no such glass, but sieves with nothing between them."""


class RosinRammler(NamedTuple):
    """63.2 % of the grains are finer than ``size`` [m]; the more alike they are, the greater ``spread``."""

    size: float
    spread: float


@checked(opening=Range(0.0, unit="m"), size=POSITIVE, spread=POSITIVE)
def passing(opening: float, size: float, spread: float) -> float:
    """Share of crushed grains that passes a sieve.

    Parameters
    ----------
    opening : of the sieve [m]
    size : that 63.2 % of the mass is finer than [m]
    spread : exponent n [-]

    Returns
    -------
    share of the mass [-]

    Raises
    ------
    RangeError : a size not above 0

    Notes
    -----
    1 - exp(-(d / d')^n). As 1 - exp(-k d^n) it is k = d'^-n. It has no greatest grain: a bottle does.

    References
    ----------
    Rosin & Rammler, J. Inst. Fuel 7 (1933) 29 [rosin-rammler-1933] (citation from memory).

    Examples
    --------
    >>> [round(passing(d, 4.0, 1.4), 4) for d in (1.0, 4.0, 8.0)]
    [0.1338, 0.6321, 0.9286]
    """
    return 1.0 - exp(-((opening / size) ** spread))


def fit_sizes(openings: Sequence[float], passed: Sequence[float]) -> RosinRammler:
    """Find the sizes of crushed grains from what passed two or more sieves.

    Parameters
    ----------
    openings : of the sieves [m]
    passed : share of the mass that passed each [-]

    Returns
    -------
    RosinRammler; exact for two sieves, a least-squares line through more

    Raises
    ------
    UserError : fewer than two sieves that tell anything, or a finer sieve that passed as much

    Notes
    -----
    ln(-ln(1 - F)) is a straight line over ln d. Sieves that all or nothing passed tell nothing.

    References
    ----------
    Rosin & Rammler, J. Inst. Fuel 7 (1933) 29 [rosin-rammler-1933] (citation from memory).

    Examples
    --------
    >>> found = fit_sizes([0.001, 0.008], [passing(0.001, 0.004, 1.4), passing(0.008, 0.004, 1.4)])
    >>> print(f"{1000 * found.size:.3f} mm, n {found.spread:.3f}")
    4.000 mm, n 1.400
    """
    told = sorted((d, share) for d, share in zip(openings, passed, strict=True) if 0.0 < share < 1.0)
    if len({d for d, _ in told}) < 2:
        what = "fewer than two sieves that part of the glass passed"
        raise UserError(what, todo="weigh what stays on two sieves or more")
    x = np.array([log(d) for d, _ in told])
    y = np.array([log(-log(1.0 - share)) for _, share in told])
    spread, start = np.polyfit(x, y, 1)
    if spread < LEAST_SPREAD:
        raise UserError(
            "a finer sieve passed as much as a coarser one, or more", todo="look through the weights"
        )
    return RosinRammler(exp(-start / spread), float(spread))
