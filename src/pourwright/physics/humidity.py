"""Damp: at which temperature the air of the shop begins to wet a surface."""

from typing import Any

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real
from pourwright.physics.constants import ZERO_CELSIUS

SLOPE, OFFSET, BASE = 17.62, 243.12, 611.2  # -, K, Pa: over water, -45 to 60 degC


@checked(temperature=Range(228.15, 333.15, "K"))
def saturation_pressure(temperature: Real) -> Real:
    """Pressure of water vapour that air can hold, over water.

    Parameters
    ----------
    temperature : absolute temperature [K], float or array

    Returns
    -------
    vapour pressure [Pa]

    Raises
    ------
    RangeError : a temperature outside -45 to 60 degC

    Notes
    -----
    e = 611.2 exp(17.62 t / (243.12 + t)), t in degC. Within 0.5 %.

    References
    ----------
    Sonntag, Z. Meteorol. 40 (1990) 340 [sonntag-1990]; coefficients from memory.

    Examples
    --------
    >>> print(f"{saturation_pressure(293.15):.0f} Pa")
    2333 Pa
    """
    warmth: Any = temperature - ZERO_CELSIUS
    return BASE * np.exp(SLOPE * warmth / (OFFSET + warmth))  # type: ignore[no-any-return]


@checked(
    temperature=Range(228.15, 333.15, "K"),
    relative_humidity=Range(0.0, 1.0, open_low=True),
)
def dew_point(temperature: Real, relative_humidity: Real | float) -> Real:
    """Temperature of a surface at which the air begins to wet it.

    Parameters
    ----------
    temperature : absolute temperature of the air [K], float or array
    relative_humidity : relative humidity of the air [-], above 0 to 1

    Returns
    -------
    dew point [K]

    Raises
    ------
    RangeError : a temperature outside -45 to 60 degC, or a humidity outside 0 to 1

    Notes
    -----
    t_d = 243.12 g / (17.62 - g), g = ln(RH) + 17.62 t/(243.12 + t), t in degC. Within 0.4 K.

    References
    ----------
    Magnus form with the coefficients of Sonntag 1990 [sonntag-1990]; from memory.

    Examples
    --------
    >>> print(f"{dew_point(293.15, 0.6) - 273.15:.1f} degC")
    12.0 degC
    """
    warmth: Any = temperature - ZERO_CELSIUS
    share: Any = np.log(relative_humidity) + SLOPE * warmth / (OFFSET + warmth)
    return ZERO_CELSIUS + OFFSET * share / (SLOPE - share)  # type: ignore[no-any-return]
