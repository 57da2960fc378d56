"""Heat of concrete as it hardens, at one temperature."""

from typing import Any

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real

POSITIVE = Range(0.0, open_low=True)
SHARE = Range(0.0, 1.0)


@checked(water_ratio=Range(0.2, 1.0))
def ultimate_hydration(water_ratio: Real) -> Real:
    """Share of the cement that ever reacts.

    Parameters
    ----------
    water_ratio : mass of water over mass of cement [-], 0.2 to 1, float or array

    Returns
    -------
    ultimate degree of hydration [-]

    Raises
    ------
    RangeError : a ratio outside 0.2 to 1

    Notes
    -----
    a_u = 1.031 w / (0.194 + w), w the water ratio. Portland cement without fly ash or slag.

    References
    ----------
    Mills 1966; Schindler & Folliard, ACI Mater. J. 102 (2005) 24 [schindler-folliard-2005];
    authors from memory.

    Examples
    --------
    >>> print(f"{ultimate_hydration(0.42):.5f}")
    0.70524
    """
    return 1.031 * water_ratio / (0.194 + water_ratio)


@checked(time=POSITIVE, ultimate=SHARE, retardation=POSITIVE, slope=Range(0.0, 5.0, open_low=True))
def hydration(time: Real, ultimate: float, retardation: float, slope: float) -> Real:
    """Degree of hydration after a time at 20 degC.

    Parameters
    ----------
    time : time since water met cement [s], float or array
    ultimate : `ultimate_hydration` of the mix [-]
    retardation : time constant tau [s], some 10 to 30 h
    slope : exponent beta [-], some 0.7 to 1.2

    Returns
    -------
    degree of hydration [-], 0 to ``ultimate``

    Raises
    ------
    RangeError : a time, ultimate degree or coefficient out of range

    Notes
    -----
    a = a_u exp(-(tau / t)^beta). At other temperatures t is an equivalent age; that is not done here.

    References
    ----------
    Schindler & Folliard, ACI Mater. J. 102 (2005) 24 [schindler-folliard-2005]; authors from memory.

    Examples
    --------
    >>> print(f"{hydration(86400.0, 0.70524, 14 * 3600.0, 0.94):.4f} after a day")
    0.3861 after a day
    """
    share: Any = np.exp(-((retardation / time) ** slope))
    return ultimate * share  # type: ignore[no-any-return]


@checked(degree=SHARE, cement=Range(0.0, 2000.0, "kg/m3"), heat_of_cement=Range(0.0, 1e6, "J/kg"))
def hydration_heat(degree: Real, cement: float, heat_of_cement: float) -> Real:
    """Heat set free so far in a volume of concrete.

    Parameters
    ----------
    degree : degree of hydration [-], 0 to 1, float or array
    cement : cement in the concrete [kg/m3]
    heat_of_cement : heat of full hydration [J/kg of cement], some 380 to 500 kJ/kg

    Returns
    -------
    heat per volume of concrete [J/m3]

    Raises
    ------
    RangeError : a degree, amount or heat out of range

    Notes
    -----
    Q = a C H. A slab of 100 mm loses most of it as it comes; a block does not.

    References
    ----------
    Schindler & Folliard, ACI Mater. J. 102 (2005) 24 [schindler-folliard-2005]; authors from memory.

    Examples
    --------
    >>> print(f"{hydration_heat(0.38608, 437.0, 431e3) / 1e6:.2f} MJ/m3")
    72.72 MJ/m3
    """
    return degree * cement * heat_of_cement
