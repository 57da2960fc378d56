"""Grains that sink side by side, and slow each other down."""

from __future__ import annotations

from pourwright.foundation.checks import Range, checked

SLOW = 4.65


@checked(solid=Range(0.0, 1.0), exponent=Range(2.0, 6.0))
def hindrance(solid: float, exponent: float = SLOW) -> float:
    """How much slower grains sink in a crowd than alone.

    Parameters
    ----------
    solid : volume of the grains over that of the mix [-]
    exponent : n [-]; 4.65 where the liquid is thick (Reynolds number of a grain below 0.2)

    Returns
    -------
    speed in the crowd over that of a grain alone [-]

    Raises
    ------
    RangeError : a share outside 0 to 1, an exponent outside 2 to 6

    Notes
    -----
    (1 - phi)^n, for grains of one size that do not touch; a bed stops sinking where its grains do.

    References
    ----------
    Richardson & Zaki, Trans. Inst. Chem. Eng. 32 (1954) 35 [richardson-zaki-1954] (citation from memory).

    Examples
    --------
    >>> print(f"{hindrance(0.3):.4f}")
    0.1904
    """
    return float((1.0 - solid) ** exponent)
