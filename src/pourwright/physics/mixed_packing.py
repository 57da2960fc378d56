"""How closely two sizes of grains pack together."""

import math

from pourwright.foundation.checks import Range, checked

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
    grains that carry, beta_f / (1 - (1 - beta_f + b beta_f (1 - 1/beta_c)) y_c). It is a limit
    that a well mixed, well placed bed comes near to, not what a shovel gives.

    References
    ----------
    de Larrard 1999, chapter 1 [de-larrard-1999] (citation from memory).

    Examples
    --------
    >>> print(f"{binary_solid_fraction(0.3, 0.0, 0.6, 0.6):.4f}")
    0.8333
    """
    a, b = loosening(size_ratio), wall_effect(size_ratio)
    coarse_carry = coarse_solid / (1 - (1 - a * coarse_solid / fine_solid) * fine_share)
    disturbed = 1 - fine_solid + b * fine_solid * (1 - 1 / coarse_solid)
    fine_carry = fine_solid / (1 - disturbed * (1 - fine_share))
    return min(coarse_carry, fine_carry)
