"""A strap or rope around something that it rubs on."""

import math

from pourwright.foundation.checks import Range, checked


@checked(friction=Range(0.0, 2.0), wrap=Range(0.0, 100.0, "rad"))
def capstan_ratio(friction: float, wrap: float) -> float:
    """Tension that a strap loses to friction around a corner.

    Parameters
    ----------
    friction : coefficient of friction [-]
    wrap : angle that it goes round [rad]

    Returns
    -------
    float
        T2/T1 = exp(mu phi): tension at the pulled end over that at the far end [-]

    Raises
    ------
    RangeError : a friction or an angle out of range

    Notes
    -----
    Thin strap without stiffness, on the point of slipping.

    References
    ----------
    [euler-eytelwein]

    Examples
    --------
    A band clamp loses more than half of its pull around half a turn of wood:

    >>> round(capstan_ratio(0.3, math.pi), 5)
    2.56633
    """
    return math.exp(friction * wrap)
