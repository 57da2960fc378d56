"""Heat radiated between a face and the room around it."""

from typing import Any

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real
from pourwright.physics.constants import STEFAN_BOLTZMANN

TEMPERATURE = Range(0.0, 2000.0, "K", open_low=True)
EMISSIVITY = Range(0.0, 1.0)


@checked(surface=TEMPERATURE, surroundings=TEMPERATURE, emissivity=EMISSIVITY)
def radiation_coefficient(surface: Real, surroundings: Real | float, emissivity: float) -> Real:
    """Radiation of a face to a large room, written as a film coefficient (exact).

    Parameters
    ----------
    surface : absolute temperature of the face [K], float or array
    surroundings : absolute temperature of the walls around [K]
    emissivity : emissivity of the face [-], 0 to 1

    Returns
    -------
    film coefficient by radiation [W/(m2 K)]

    Raises
    ------
    RangeError : a temperature not above 0 K, or an emissivity outside 0 to 1

    Notes
    -----
    h = eps sigma (Ts + Tw) (Ts^2 + Tw^2), so that h (Ts - Tw) is the exact flux. Valid for
    a small grey face in large surroundings.

    References
    ----------
    Incropera & DeWitt eq. 1.9 [incropera-dewitt]; sigma of CODATA 2018 [codata-2018].

    Examples
    --------
    >>> print(f"{radiation_coefficient(313.15, 293.15, 0.9):.4f} W/(m2 K)")
    5.6932 W/(m2 K)
    """
    squares: Any = surface**2 + surroundings**2
    return emissivity * STEFAN_BOLTZMANN * (surface + surroundings) * squares  # type: ignore[no-any-return]


@checked(mean=TEMPERATURE, emissivity=EMISSIVITY)
def radiation_coefficient_linear(mean: Real, emissivity: float) -> Real:
    """Radiation of a face as a film coefficient at one mean temperature.

    Parameters
    ----------
    mean : mean of face and surroundings, absolute [K], float or array
    emissivity : emissivity of the face [-], 0 to 1

    Returns
    -------
    film coefficient by radiation [W/(m2 K)]

    Raises
    ------
    RangeError : a temperature not above 0 K, or an emissivity outside 0 to 1

    Notes
    -----
    h = 4 eps sigma Tm^3. Low by (dT / 2 Tm)^2: 0.1 % for 20 K at room temperature.

    References
    ----------
    Incropera & DeWitt ch. 1 [incropera-dewitt]; sigma of CODATA 2018 [codata-2018].

    Examples
    --------
    >>> print(f"{radiation_coefficient_linear(303.15, 0.9):.4f} W/(m2 K)")
    5.6870 W/(m2 K)
    """
    cube: Any = mean**3
    return 4 * emissivity * STEFAN_BOLTZMANN * cube  # type: ignore[no-any-return]
