"""Fine grains that work their way down into coarse glass."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np

from pourwright.fill.parts import Voids
from pourwright.materials.records import Grade
from pourwright.physics.mixed_packing import binary_solid_fraction

SQUARE_THROAT = math.sqrt(2.0) - 1.0
_SHARES = np.linspace(0.0, 1.0, 101)


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


def sifted_void_fraction(coarse: Grade, fine: Grade) -> Voids:
    """Void fraction of a coarse grade after a fine one has sifted into it.

    Parameters
    ----------
    coarse, fine : Grade
        The two grades.

    Returns
    -------
    Voids
        Value: middle sizes, mixed as closely as they pack. Low: their most unequal grains and
        closest beds. High: the coarse grade alone, into which nothing has sifted.
    """
    low_coarse, low_fine = (grade.void_fraction.low or grade.void_fraction.value for grade in (coarse, fine))
    value = _closest(_middle(fine) / _middle(coarse), coarse.void_fraction.value, fine.void_fraction.value)
    low = _closest(fine.sieve_from.value / coarse.sieve_to.value, low_coarse, low_fine)
    return Voids(value, low, coarse.void_fraction.value, "linear packing model, two sizes mixed")


def _middle(grade: Grade) -> float:
    return math.sqrt(grade.sieve_from.value * grade.sieve_to.value)


@lru_cache(maxsize=64)
def _closest(size_ratio: float, coarse_void: float, fine_void: float) -> float:
    solids = (
        binary_solid_fraction(float(share), size_ratio, 1 - coarse_void, 1 - fine_void) for share in _SHARES
    )
    return 1 - max(solids)
