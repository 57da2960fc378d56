"""How closely equal balls lie, ordered or poured, and how far finer ones fill what they leave."""

from __future__ import annotations

from collections.abc import Mapping
from math import pi, sqrt
from types import MappingProxyType

from pourwright.foundation.checks import Range, checked
from pourwright.foundation.sources import Kind, Sourced

SOLID = Range(0.0, 1.0, open_low=True, open_high=True)
ORDERED: Mapping[str, float] = MappingProxyType(
    {"simple cubic": pi / 6, "body-centred": pi * sqrt(3) / 8, "face-centred": pi / (3 * sqrt(2))}
)
"""Share of space that equal balls fill, by their order; closed forms [conway-sloane]."""
RANDOM: Mapping[str, Sourced] = MappingProxyType(
    {
        "shaken": Sourced(0.637, "", 0.634, 0.640, Kind.MEMORY, "scott-kilgour-1969", "shaken down for long"),
        "poured": Sourced(0.60, "", 0.59, 0.61, Kind.MEMORY, "scott-1960", "poured, not shaken"),
        "loosest": Sourced(
            0.555, "", 0.550, 0.560, Kind.MEMORY, "onoda-liniger-1990", "the loosest that stays where it is"
        ),
    }
)
"""Share of space that equal balls fill without order."""


@checked(single=SOLID, sizes=Range(1, 20))
def furnas_limit(single: float, sizes: int) -> float:
    """Solid fraction of balls of so many sizes, each far finer than the one before.

    Parameters
    ----------
    single : solid fraction of one size alone [-]
    sizes : how many sizes

    Returns
    -------
    solid fraction [-]; nothing that is poured gets there

    Raises
    ------
    RangeError : a fraction outside 0 to 1, or no size

    Notes
    -----
    1 - (1 - phi)^n: each size fills the voids of the coarser ones as closely as it lies alone.

    References
    ----------
    Furnas, Ind. Eng. Chem. 23 (1931) 1052 [furnas-1931].

    Examples
    --------
    >>> [round(furnas_limit(0.64, n), 4) for n in (1, 2, 3)]
    [0.64, 0.8704, 0.9533]
    """
    return float(1.0 - (1.0 - single) ** sizes)


@checked(single=SOLID)
def furnas_coarse_share(single: float) -> float:
    """Share of the coarse size in two sizes that lie as closely as two can.

    Parameters
    ----------
    single : solid fraction of one size alone [-]

    Returns
    -------
    volume of the coarse grains over that of all grains [-]

    Raises
    ------
    RangeError : a fraction outside 0 to 1

    Notes
    -----
    phi / (phi + (1 - phi) phi) = 1 / (2 - phi): the fine grains fill what the coarse ones leave.

    References
    ----------
    Furnas, Ind. Eng. Chem. 23 (1931) 1052 [furnas-1931].

    Examples
    --------
    >>> print(f"{furnas_coarse_share(0.64):.4f}")
    0.7353
    """
    return 1.0 / (2.0 - single)
