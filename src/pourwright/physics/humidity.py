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


@checked(
    temperature=Range(228.15, 333.15, "K"),
    held_at=Range(228.15, 333.15, "K"),
    relative_humidity=Range(0.0, 1.0, open_low=True),
)
def humidity_elsewhere(temperature: Real, *, held_at: float, relative_humidity: float) -> Real:
    """Relative humidity of the same air at another temperature: the water in it stays.

    Parameters
    ----------
    temperature : absolute temperature the air has come to [K], float or array
    held_at : absolute temperature it was measured at [K]
    relative_humidity : relative humidity measured there [-], above 0 to 1

    Returns
    -------
    relative humidity [-]; above 1 where some of the water falls out as dew

    Raises
    ------
    RangeError : a temperature outside -45 to 60 degC, or a humidity outside 0 to 1

    Notes
    -----
    RH = RH0 e(T0) / e(T): at constant pressure the share of vapour does not change with temperature.
    Holds for air that is neither aired nor dried, on nothing that gives off or takes up water.

    References
    ----------
    Magnus form with the coefficients of Sonntag 1990 [sonntag-1990]; from memory.

    Examples
    --------
    Air of 23 degC and 60 % in a shop that cools to 15 degC by night is damp.

    >>> print(f"{humidity_elsewhere(288.15, held_at=296.15, relative_humidity=0.6):.2f}")
    0.99
    """
    water: Any = relative_humidity * saturation_pressure(held_at)
    return water / saturation_pressure(temperature)  # type: ignore[no-any-return]


@checked(surface=Range(228.15, 333.15, "K"), air=Range(228.15, 333.15, "K"), margin=Range(0.0, 50.0, "K"))
def dampest_air(surface: Real, air: Real, margin: float, most: float) -> Real:
    """Vapour pressure up to which a surface counts as dry.

    Parameters
    ----------
    surface : absolute temperature of the surface [K], float or array
    air : absolute temperature of the air [K], same shape
    margin : kelvin the surface must be above the dew point [K]
    most : highest relative humidity of the air [-]

    Returns
    -------
    vapour pressure [Pa]

    Raises
    ------
    RangeError : a temperature outside -45 to 60 degC

    Notes
    -----
    The lower of e(surface - margin) and most e(air).

    References
    ----------
    3 K above the dew point as in ISO 8502-4, below 85 % relative humidity as in ISO 12944-7, both as
    quoted on secondary pages [iso-8502-4].

    Examples
    --------
    >>> print(f"{dampest_air(288.15, 296.15, 3.0, 0.85):.0f} Pa")
    1400 Pa
    """
    near, around = saturation_pressure(surface - margin), saturation_pressure(air)
    return np.minimum(near, most * around)  # type: ignore[no-any-return]
