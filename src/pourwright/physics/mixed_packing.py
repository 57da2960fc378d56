"""How closely grains of two and more sizes pack together."""

import math
from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.foundation.errors import UserError
from pourwright.physics.arrays import Array

SHARE = Range(0.0, 1.0)
SOLID = Range(0.0, 1.0, open_low=True, open_high=True)


@checked(size_ratio=SHARE)
def loosening(size_ratio: float) -> float:
    """How much fine grains push coarse ones apart.

    Parameters
    ----------
    size_ratio : fine over coarse diameter [-]

    Returns
    -------
    coefficient a [-]; 0 for grains that vanish in the gaps, 1 for equal sizes

    Raises
    ------
    RangeError : a ratio outside 0 to 1

    Notes
    -----
    a = sqrt(1 - (1 - d_fine/d_coarse)^1.02).

    References
    ----------
    de Larrard 1999, chapter 1 [de-larrard-1999] (citation from memory).

    Examples
    --------
    >>> print(f"{loosening(0.5):.4f}")
    0.7120
    """
    return math.sqrt(1 - (1 - size_ratio) ** 1.02)


@checked(size_ratio=SHARE)
def wall_effect(size_ratio: float) -> float:
    """How much a coarse grain disturbs the bed of fine ones around it.

    Parameters
    ----------
    size_ratio : fine over coarse diameter [-]

    Returns
    -------
    coefficient b [-]; 0 for very unequal, 1 for equal sizes

    Raises
    ------
    RangeError : a ratio outside 0 to 1

    Notes
    -----
    b = 1 - (1 - d_fine/d_coarse)^1.50.

    References
    ----------
    de Larrard 1999, chapter 1 [de-larrard-1999] (citation from memory).

    Examples
    --------
    >>> print(f"{wall_effect(0.5):.4f}")
    0.6464
    """
    return float(1 - (1 - size_ratio) ** 1.50)


@checked(size_ratio=SHARE)
def loosening_of_balls(size_ratio: float) -> float:
    """How much fine balls push coarse ones apart.

    Parameters
    ----------
    size_ratio : fine over coarse diameter [-]

    Returns
    -------
    coefficient a [-]; less than that of crushed grains

    Raises
    ------
    RangeError : a ratio outside 0 to 1

    Notes
    -----
    a = 1 - (1 - r)^3.3 - 2.8 r (1 - r)^2.7.

    References
    ----------
    Yu & Standish, Ind. Eng. Chem. Res. 30 (1991) 1372 [yu-standish-1991] (citation from memory).

    Examples
    --------
    >>> print(f"{loosening_of_balls(0.1):.4f}")
    0.0830
    """
    return float(1.0 - (1 - size_ratio) ** 3.3 - 2.8 * size_ratio * (1 - size_ratio) ** 2.7)


@checked(size_ratio=SHARE)
def wall_effect_of_balls(size_ratio: float) -> float:
    """How much a coarse ball disturbs the bed of fine ones around it.

    Parameters
    ----------
    size_ratio : fine over coarse diameter [-]

    Returns
    -------
    coefficient b [-]

    Raises
    ------
    RangeError : a ratio outside 0 to 1

    Notes
    -----
    b = 1 - (1 - r)^2.0 - 0.4 r (1 - r)^3.7.

    References
    ----------
    Yu & Standish, Ind. Eng. Chem. Res. 30 (1991) 1372 [yu-standish-1991] (citation from memory).

    Examples
    --------
    >>> print(f"{wall_effect_of_balls(0.1):.4f}")
    0.1629
    """
    return float(1.0 - (1 - size_ratio) ** 2.0 - 0.4 * size_ratio * (1 - size_ratio) ** 3.7)


class Interaction(NamedTuple):
    """How sizes disturb each other: what fine grains do to coarse ones, and coarse ones to fine."""

    loosening: Callable[[float], float]
    wall: Callable[[float], float]


CRUSHED = Interaction(loosening, wall_effect)
BALLS = Interaction(loosening_of_balls, wall_effect_of_balls)


def room_taken(sizes: Sequence[float], solids: Sequence[float], kind: Interaction = CRUSHED) -> Array:
    """Room that each size takes in a mixed bed, whichever size carries it.

    Parameters
    ----------
    sizes : diameters [m], coarsest first
    solids : solid fraction of each size alone [-]
    kind : how sizes disturb each other

    Returns
    -------
    array (n, n): volume of the bed per volume of grains [-]; row i is the bed that size i carries, column
    j what size j adds to it. The bed takes what the worst row needs: the greatest of rows times shares

    Raises
    ------
    UserError : sizes that do not fall, a solid fraction outside 0 to 1, lists of unequal length

    Notes
    -----
    1 / beta_i for the size itself; a(d_j / d_i) / beta_j for a finer one, which fills voids and pushes apart;
    1 + b(d_i / d_j) (1 / beta_j - 1) for a coarser one, which takes its own volume and disturbs.

    References
    ----------
    The linear packing model: de Larrard 1999, chapter 1 [de-larrard-1999]; Yu & Standish 1991
    [yu-standish-1991] (citations from memory).

    Examples
    --------
    Two sizes far apart: the coarse one carries, and the fine one is in its voids for nothing.

    >>> print(room_taken([1.0, 1e-9], [0.6, 0.6]).round(3))
    [[1.667 0.   ]
     [1.    1.667]]
    """
    _refuse_unlike(sizes, solids)
    count = len(sizes)
    taken = np.empty((count, count))
    for i in range(count):
        for j in range(count):
            if j == i:
                taken[i, j] = 1.0 / solids[i]
            elif j > i:
                taken[i, j] = kind.loosening(sizes[j] / sizes[i]) / solids[j]
            else:
                taken[i, j] = 1.0 + kind.wall(sizes[i] / sizes[j]) * (1.0 / solids[j] - 1.0)
    return taken


def mixed_solid_fraction(
    sizes: Sequence[float], shares: Sequence[float], solids: Sequence[float], kind: Interaction = CRUSHED
) -> float:
    """Solid fraction of a mixed bed of several sizes.

    Parameters
    ----------
    sizes : diameters [m], coarsest first
    shares : volume of each size over that of all grains [-]; they sum to 1
    solids : solid fraction of each size alone, as it is poured or tapped [-]
    kind : how sizes disturb each other

    Returns
    -------
    solid fraction [-]: a limit that a well mixed bed comes near to, not what a shovel gives

    Raises
    ------
    UserError : sizes that do not fall, shares that do not sum to 1, a solid fraction outside 0 to 1

    Notes
    -----
    See `room_taken`; a size with no grains carries nothing.

    References
    ----------
    de Larrard 1999, chapter 1 [de-larrard-1999]; Yu & Standish 1991 [yu-standish-1991] (from memory).

    Examples
    --------
    >>> print(f"{mixed_solid_fraction([9.0, 4.5, 2.0], [0.5, 0.2, 0.3], [0.55, 0.54, 0.52]):.3f}")
    0.657
    """
    _refuse_unlike(sizes, solids)
    if len(shares) != len(sizes) or abs(sum(shares) - 1.0) > 1e-9 or min(shares) < 0.0:
        told = ", ".join(f"{share:g}" for share in shares)
        raise UserError(f"shares of {told}", allowed="one for each size, which sum to 1", todo="mend them")
    needed = room_taken(sizes, solids, kind) @ np.asarray(shares, dtype=float)
    return 1.0 / float(max(each for each, share in zip(needed, shares, strict=True) if share > 0.0))


def _refuse_unlike(sizes: Sequence[float], solids: Sequence[float]) -> None:
    if len(sizes) != len(solids) or not sizes:
        raise UserError("sizes and solid fractions are not equally many", todo="give one of each")
    if any(fine >= coarse for coarse, fine in pairwise(sizes)) or sizes[-1] <= 0.0:
        raise UserError("sizes of grains that do not fall", todo="give the coarsest first")
    if not all(0.0 < solid < 1.0 for solid in solids):
        raise UserError("a solid fraction outside 0 to 1", todo="give that of each size alone")


@checked(fine_share=SHARE, size_ratio=SHARE, coarse_solid=SOLID, fine_solid=SOLID)
def binary_solid_fraction(
    fine_share: float, size_ratio: float, coarse_solid: float, fine_solid: float
) -> float:
    """Solid fraction of a mixed bed of two sizes, by the linear packing model.

    Parameters
    ----------
    fine_share : volume of fine grains over that of all grains [-]
    size_ratio : fine over coarse diameter [-]
    coarse_solid : solid fraction of the coarse grains alone [-]
    fine_solid : solid fraction of the fine grains alone [-]

    Returns
    -------
    solid fraction of the mixture [-]

    Raises
    ------
    RangeError : a share or fraction out of range

    Notes
    -----
    The smaller of coarse grains that carry, beta_c / (1 - (1 - a beta_c/beta_f) y_f), and fine
    grains that carry, beta_f / (1 - (1 - beta_f + b beta_f (1 - 1/beta_c)) y_c): `room_taken` for two
    sizes, which may be equal. It is a limit that a well mixed, well placed bed comes near to, not what
    a shovel gives.

    References
    ----------
    de Larrard 1999, chapter 1 [de-larrard-1999] (citation from memory).

    Examples
    --------
    >>> print(f"{binary_solid_fraction(0.3, 0.0, 0.6, 0.6):.4f}")
    0.8333
    """
    a, b = loosening(size_ratio), wall_effect(size_ratio)
    coarse_share = 1.0 - fine_share
    coarse_carries = coarse_share / coarse_solid + a * fine_share / fine_solid
    fine_carries = fine_share / fine_solid + coarse_share * (1.0 + b * (1.0 / coarse_solid - 1.0))
    return 1.0 / max(coarse_carries, fine_carries)
