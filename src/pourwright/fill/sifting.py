"""Fine grains that work their way down into coarse glass."""

from __future__ import annotations

import math

SQUARE_THROAT = math.sqrt(2.0) - 1.0


def sifts_through(fine: float, coarse: float) -> bool:
    """Say whether fine grains can work down into a bed of coarse ones.

    Parameters
    ----------
    fine : float
        Smallest grain of the fine grade [m].
    coarse : float
        Largest grain of the coarse grade [m].

    Returns
    -------
    bool
        True where the fine grain passes the gap between four touching equal spheres,
        sqrt(2) - 1 = 0.414 of their diameter.

    Examples
    --------
    >>> sifts_through(0.00315, 0.0125), sifts_through(0.0063, 0.0125)
    (True, False)
    """
    return fine < SQUARE_THROAT * coarse
