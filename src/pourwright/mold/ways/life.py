"""How many casts a mold gives."""

from __future__ import annotations

from typing import Literal

from pourwright.mold.ways.defaults import LIFE
from pourwright.mold.ways.way import Band

Cast = Literal["resin", "gypsum", "concrete"]


def life_of(cast: Cast, stretched: float, bears: float, *, skin: bool) -> Band:
    """Tell how many casts a mold gives.

    Parameters
    ----------
    cast : str
        Kind of the casting material.
    stretched : float
        Lengthening of the rubber at every opening; 0 where it is cut open or parts.
    bears : float
        What the rubber bears in use.
    skin : bool
        Whether it is a skin in a shell.

    Returns
    -------
    tuple of float
        Low, likely, high.

    Notes
    -----
    From memory and common practice, no source: a rubber stretched as far as it bears lasts half as long.
    Heat is not in it: a peak near the rubber's limit takes life, and no heat run is made here.

    Examples
    --------
    >>> life_of("resin", 0.0, 1.5, skin=False)
    (20.0, 30.0, 50.0)
    >>> life_of("resin", 1.5, 1.5, skin=False)
    (10.0, 15.0, 25.0)
    """
    base, thin = LIFE[cast], LIFE["skin"]
    worn = 1.0 / (1.0 + min(stretched / bears, 1.0))
    shares = (thin.low or 1.0, thin.value, thin.high or 1.0) if skin else (1.0, 1.0, 1.0)
    numbers = (base.low or base.value, base.value, base.high or base.value)
    low, likely, high = (number * share * worn for number, share in zip(numbers, shares, strict=True))
    return low, likely, high
