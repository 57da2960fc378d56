"""How thick a resin is, by temperature and by how far it has cured."""

from typing import Any

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real
from pourwright.physics.constants import GAS_CONSTANT

POSITIVE = Range(0.0, open_low=True)


@checked(
    temperature=Range(230.0, 500.0, "K"),
    reference_viscosity=POSITIVE,
    activation_energy=Range(0.0, 2e5, "J/mol"),
    reference_temperature=Range(230.0, 500.0, "K"),
)
def arrhenius_viscosity(
    temperature: Real,
    reference_viscosity: float,
    activation_energy: float,
    *,
    reference_temperature: float = 298.15,
) -> Real:
    """Viscosity of a liquid that has not begun to cure.

    Parameters
    ----------
    temperature : absolute temperature [K], float or array
    reference_viscosity : viscosity at the reference temperature [Pa s]
    activation_energy : activation energy of flow [J/mol], 40 to 70 kJ/mol for epoxies
        (from memory)
    reference_temperature : where the viscosity was measured [K]

    Returns
    -------
    viscosity [Pa s]

    Raises
    ------
    RangeError : a temperature, viscosity or energy out of range

    Notes
    -----
    eta = eta_r exp(E / R (1/T - 1/T_r)). Valid some 30 K around the reference; colder,
    the viscosity climbs faster than this.

    References
    ----------
    Andrade, Nature 125 (1930) 309 [andrade-1930]; from memory.

    Examples
    --------
    Warmed from 25 to 35 degC, a resin of 50 kJ/mol is nearly half as thick.

    >>> print(f"{arrhenius_viscosity(308.15, 0.6, 50e3):.3f} Pa s")
    0.312 Pa s
    """
    inverse = 1 / temperature - 1 / reference_temperature
    factor: Any = np.exp(activation_energy / GAS_CONSTANT * inverse)
    return reference_viscosity * factor  # type: ignore[no-any-return]


@checked(
    conversion=Range(0.0, 1.0),
    fresh_viscosity=POSITIVE,
    gel_conversion=Range(0.0, 1.0, open_low=True),
    a=Range(0.0, 10.0),
    b=Range(-10.0, 10.0),
)
def castro_macosko(
    conversion: Real, fresh_viscosity: Real, gel_conversion: float, a: float, b: float
) -> Real:
    """Viscosity of a curing resin, rising without bound at its gel point.

    Parameters
    ----------
    conversion : degree of cure [-], 0 to 1, float or array
    fresh_viscosity : viscosity of the uncured mix at its temperature [Pa s]
    gel_conversion : conversion at the gel point [-]
    a, b : exponents of the fit [-]

    Returns
    -------
    viscosity [Pa s]; infinite at the gel point and beyond

    Raises
    ------
    RangeError : a conversion, viscosity or exponent out of range

    Notes
    -----
    eta = eta0 (a_g / (a_g - a))^(A + B a). Valid up to a little before the gel point.

    References
    ----------
    Castro & Macosko, AIChE J. 28 (1982) 250 [castro-macosko-1982].

    Examples
    --------
    >>> print(f"{castro_macosko(0.4, 0.6, 0.577, 1.5, 1.0):.5f} Pa s")
    5.66547 Pa s
    """
    left: Any = np.maximum(gel_conversion - conversion, 0.0)
    # infinite beyond the gel point is the answer, not an accident
    with np.errstate(divide="ignore"):
        rise = np.power(np.divide(gel_conversion, left), a + b * conversion)
    return fresh_viscosity * rise  # type: ignore[no-any-return]


@checked(
    temperature=Range(230.0, 600.0, "K"),
    conversion=Range(0.0, 1.0),
    frequency=POSITIVE,
    activation_energy=Range(0.0, 2e5, "J/mol"),
    slope=Range(0.0, 100.0),
)
def lee_loos_springer_viscosity(
    temperature: Real, conversion: Real, frequency: float, activation_energy: float, slope: float
) -> Real:
    """Viscosity of a curing prepreg resin, for comparison with `castro_macosko`.

    Parameters
    ----------
    temperature : absolute temperature [K], float or array
    conversion : degree of cure [-], 0 to 1, same shape
    frequency : viscosity at infinite temperature, uncured [Pa s]
    activation_energy : activation energy of flow [J/mol]
    slope : how steeply its logarithm rises with cure [-]

    Returns
    -------
    viscosity [Pa s]; finite at every cure, since this law has no gel point

    Raises
    ------
    RangeError : a temperature, conversion or coefficient out of range

    Notes
    -----
    mu = mu_inf exp(U / (R T) + K a). Valid well before gel, for the resin it was fitted to
    (TGDDM/DDS); its mu_inf is 7.93e-14 Pa s, from memory. Copies with 7.93e-4 slip.

    References
    ----------
    Lee, Loos & Springer, J. Compos. Mater. 16 (1982) 510 [lee-loos-springer-1982].

    Examples
    --------
    >>> print(f"{lee_loos_springer_viscosity(389.15, 0.2, 7.93e-14, 90800.0, 14.1):.4f} Pa s")
    2.0493 Pa s
    """
    exponent: Any = activation_energy / (GAS_CONSTANT * temperature) + slope * conversion
    return frequency * np.exp(exponent)  # type: ignore[no-any-return]
