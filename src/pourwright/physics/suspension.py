"""How thick a liquid gets when grains are stirred into it."""

from __future__ import annotations

from pourwright.foundation.checks import Range, checked

SHARE = Range(0.0, 1.0, open_high=True)
PACKED = Range(0.0, 1.0, open_low=True, open_high=True)
EXPONENT = Range(1.0, 4.0)


@checked(solid=SHARE, packed=PACKED, exponent=EXPONENT)
def times_as_thick(solid: float, packed: float, *, exponent: float = 2.0) -> float:
    """How many times as thick as its liquid a mix of liquid and grains is.

    Parameters
    ----------
    solid : volume of the grains over that of the mix [-]
    packed : the same where the grains jam [-]
    exponent : intrinsic viscosity times ``packed`` [-]; about 2 for grains of many shapes

    Returns
    -------
    viscosity of the mix over that of the liquid [-]; infinite where the grains jam

    Raises
    ------
    RangeError : a share or an exponent out of range

    Notes
    -----
    (1 - phi / phi_m)^-([eta] phi_m). For slow stirring; grains that rub jam at about what they pack to
    when they are poured loosely.

    References
    ----------
    Krieger & Dougherty, Trans. Soc. Rheol. 3 (1959) 137 [krieger-dougherty-1959]; an exponent of 2 as
    Maron & Pierce, J. Colloid Sci. 11 (1956) 80 [maron-pierce-1956]. Citations from memory.

    Examples
    --------
    >>> print(f"{times_as_thick(0.44, 0.55):.1f}")
    25.0
    """
    if solid >= packed:
        return float("inf")
    return float((1.0 - solid / packed) ** -exponent)


@checked(thicker=Range(0.0, open_low=True), packed=PACKED, exponent=EXPONENT)
def most_solid(thicker: float, packed: float, *, exponent: float = 2.0) -> float:
    """Most grains that may be in a mix so that it is not too thick.

    Parameters
    ----------
    thicker : thickest that the mix may be over how thick its liquid is [-]
    packed : share of the volume at which the grains jam [-]
    exponent : as in `times_as_thick` [-]

    Returns
    -------
    volume of the grains over that of the mix [-]; 0 where the liquid alone is too thick

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    phi = phi_m (1 - thicker^(-1 / exponent)).

    References
    ----------
    Krieger & Dougherty 1959 [krieger-dougherty-1959] (citation from memory).

    Examples
    --------
    >>> print(f"{most_solid(25.0, 0.55):.2f}", most_solid(0.8, 0.55))
    0.44 0.0
    """
    if thicker <= 1.0:
        return 0.0
    return float(packed * (1.0 - thicker ** (-1.0 / exponent)))
