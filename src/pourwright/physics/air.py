"""Properties of dry air as the shop has it, from the US Standard Atmosphere 1976."""

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real
from pourwright.physics.constants import GAS_CONSTANT, STANDARD_PRESSURE

MOLAR_MASS = 0.0289644  # kg/mol
SPECIFIC_HEAT_CAPACITY = 3.5 * GAS_CONSTANT / MOLAR_MASS  # J/(kg K), ratio of capacities 1.4
TEMPERATURE = Range(200.0, 600.0, "K")
PRESSURE = Range(5e4, 1.1e5, "Pa")


@checked(temperature=TEMPERATURE, pressure=PRESSURE)
def air_density(temperature: Real, *, pressure: float = STANDARD_PRESSURE) -> Real:
    """Density of dry air.

    Parameters
    ----------
    temperature : absolute temperature [K], float or array
    pressure : absolute pressure [Pa]

    Returns
    -------
    density [kg/m3]

    Raises
    ------
    RangeError : a temperature outside 200 to 600 K, or a pressure outside 50 to 110 kPa

    Notes
    -----
    rho = p M / (R T). Within 0.1 % at room conditions; damp air is up to 1 % lighter.

    References
    ----------
    U.S. Standard Atmosphere 1976, NOAA-S/T 76-1562 [us-standard-atmosphere-1976].

    Examples
    --------
    >>> print(f"{air_density(293.15):.3f} kg/m3")
    1.204 kg/m3
    """
    return pressure * MOLAR_MASS / (GAS_CONSTANT * temperature)


@checked(temperature=TEMPERATURE)
def air_viscosity(temperature: Real) -> Real:
    """Dynamic viscosity of air.

    Parameters
    ----------
    temperature : absolute temperature [K], float or array

    Returns
    -------
    dynamic viscosity [Pa s]

    Raises
    ------
    RangeError : a temperature outside 200 to 600 K

    Notes
    -----
    mu = 1.458e-6 T^1.5 / (T + 110.4) (Sutherland). Within 1 % at 250 to 500 K.

    References
    ----------
    U.S. Standard Atmosphere 1976, eq. 51 [us-standard-atmosphere-1976].

    Examples
    --------
    >>> print(f"{air_viscosity(293.15):.3e} Pa s")
    1.813e-05 Pa s
    """
    return 1.458e-6 * temperature**1.5 / (temperature + 110.4)  # type: ignore[no-any-return]


@checked(temperature=TEMPERATURE)
def air_conductivity(temperature: Real) -> Real:
    """Thermal conductivity of air.

    Parameters
    ----------
    temperature : absolute temperature [K], float or array

    Returns
    -------
    conductivity [W/(m K)]

    Raises
    ------
    RangeError : a temperature outside 200 to 600 K

    Notes
    -----
    k = 2.64638e-3 T^1.5 / (T + 245.4 10^(-12/T)). Within 1 % at 250 to 400 K.

    References
    ----------
    U.S. Standard Atmosphere 1976, eq. 53 [us-standard-atmosphere-1976].

    Examples
    --------
    >>> print(f"{air_conductivity(293.15):.5f} W/(m K)")
    0.02572 W/(m K)
    """
    return (  # type: ignore[no-any-return]
        2.64638e-3 * temperature**1.5 / (temperature + 245.4 * np.power(10.0, -12.0 / temperature))
    )


@checked(temperature=TEMPERATURE)
def air_prandtl(temperature: Real) -> Real:
    """Prandtl number of air.

    Parameters
    ----------
    temperature : absolute temperature [K], float or array

    Returns
    -------
    viscosity over thermal diffusivity [-]

    Raises
    ------
    RangeError : a temperature outside 200 to 600 K

    Notes
    -----
    Pr = mu c_p / k with c_p = 7/2 R/M, which is 1005 J/(kg K). Within 1 % at 250 to 400 K.

    References
    ----------
    U.S. Standard Atmosphere 1976 [us-standard-atmosphere-1976].

    Examples
    --------
    >>> print(f"{air_prandtl(303.15):.3f}")
    0.706
    """
    return air_viscosity(temperature) * SPECIFIC_HEAT_CAPACITY / air_conductivity(temperature)


@checked(temperature=TEMPERATURE, pressure=PRESSURE)
def air_kinematic_viscosity(temperature: Real, *, pressure: float = STANDARD_PRESSURE) -> Real:
    """Kinematic viscosity of air.

    Parameters
    ----------
    temperature : absolute temperature [K], float or array
    pressure : absolute pressure [Pa]

    Returns
    -------
    viscosity over density [m2/s]

    Raises
    ------
    RangeError : a temperature outside 200 to 600 K, or a pressure outside 50 to 110 kPa

    Notes
    -----
    nu = mu / rho, of `air_viscosity` and `air_density`.

    References
    ----------
    U.S. Standard Atmosphere 1976 [us-standard-atmosphere-1976].

    Examples
    --------
    >>> print(f"{air_kinematic_viscosity(303.15):.3e} m2/s")
    1.598e-05 m2/s
    """
    return air_viscosity(temperature) / air_density(temperature, pressure=pressure)
