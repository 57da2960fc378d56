"""Heat that spreads into a body from a small place on its face."""

from __future__ import annotations

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real

POSITIVE = Range(0.0, open_low=True)
NOT_NEGATIVE = Range(0.0)


@checked(diameter=POSITIVE, conductivity=POSITIVE, warmer=NOT_NEGATIVE)
def heat_from_disc(diameter: Real, conductivity: float, warmer: float) -> Real:
    """Heat that a round place on the face of a large body takes in once nothing changes any more.

    Parameters
    ----------
    diameter : diameter of the place [m], float or array
    conductivity : conductivity of the body [W/(m K)]
    warmer : the place is so much warmer than the body far away [K]

    Returns
    -------
    heat flow [W]

    Raises
    ------
    RangeError : a diameter or conductivity not above 0, or a negative difference

    Notes
    -----
    q = S k dT with the shape factor S = 2 D of an isothermal disc on a half space. What leaves from the
    disc's other side comes on top; a small body warms through and takes less.

    References
    ----------
    Incropera & DeWitt, table of conduction shape factors [incropera-dewitt].

    Examples
    --------
    >>> print(f"{heat_from_disc(0.04, 0.2, 20.0):.2f} W")
    0.32 W
    """
    return 2.0 * diameter * conductivity * warmer
