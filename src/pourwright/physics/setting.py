"""How gypsum and concrete set: a rate at any temperature whose integral at one temperature is closed."""

from __future__ import annotations

from math import exp, log
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from pourwright.foundation.checks import Range, checked
from pourwright.physics.constants import GAS_CONSTANT

POSITIVE = Range(0.0, open_low=True)
EARLY = 1e-3
"""Below this degree a straight line stands for the curve, whose rate at 0 is 0: it would never begin."""


class SettingLaw(NamedTuple):
    """Numbers of one law, in the order of its row.

    Parameters
    ----------
    retardation : tau [s] at the reference temperature
    slope : exponent beta [-]
    activation_energy : E [J/mol]; 0: as quick in the cold as in the warm
    reference : temperature that tau holds for [K]
    """

    retardation: float
    slope: float
    activation_energy: float
    reference: float

    @property
    def row(self) -> NDArray[np.float64]:
        """As the solver takes it."""
        return np.array(self, dtype=np.float64)


@checked(
    temperature=Range(200.0, 450.0, "K"),
    activation_energy=Range(0.0, 200e3, "J/mol"),
    reference=Range(200.0, 450.0, "K"),
)
def ageing(temperature: float, activation_energy: float, reference: float = 293.15) -> float:
    """How many times as fast as at the reference temperature it ages.

    Parameters
    ----------
    temperature : absolute temperature [K]
    activation_energy : [J/mol], some 33 to 46 kJ/mol for Portland cement
    reference : temperature at which it is 1 [K]

    Returns
    -------
    rate of equivalent age [-]

    Raises
    ------
    RangeError : a temperature or an energy out of range

    Notes
    -----
    exp(E/R (1/T_ref - 1/T)); an hour at T does what so many hours at the reference do.

    References
    ----------
    Freiesleben Hansen & Pedersen, Nordisk Betong 1 (1977) 21 [freiesleben-pedersen-1977]; from memory.

    Examples
    --------
    >>> print(f"{ageing(303.15, 40e3):.3f} at 30 degC")
    1.718 at 30 degC
    """
    return exp(activation_energy / GAS_CONSTANT * (1.0 / reference - 1.0 / temperature))


@checked(half=POSITIVE, slope=Range(0.0, 10.0, open_low=True))
def retardation_of(half: float, slope: float) -> float:
    """Time constant of a law by the time at which half of the heat is out.

    Parameters
    ----------
    half : time to half at the reference temperature [s]
    slope : exponent beta [-]

    Returns
    -------
    tau [s]

    Raises
    ------
    RangeError : a time or an exponent not above 0

    Notes
    -----
    exp(-(tau/t)^beta) = 1/2 at t = tau (ln 2)^(-1/beta).

    References
    ----------
    Schindler & Folliard, ACI Mater. J. 102 (2005) 24 [schindler-folliard-2005]; authors from memory.

    Examples
    --------
    >>> print(f"{retardation_of(20.676, 0.94):.2f} h")
    14.00 h
    """
    return float(half * log(2.0) ** (1.0 / slope))


def setting_rate(temperature: float, degree: float, parameters: Any) -> float:
    """Rate of setting, in plain Python; the solver compiles it.

    Parameters
    ----------
    temperature : absolute temperature [K]
    degree : share of all the heat that ever comes that is out [-]
    parameters : row (4,) of `SettingLaw`

    Returns
    -------
    rate [1/s]

    Notes
    -----
    x = exp(-(tau/t)^beta) solved for the age t and put into its derivative:
    dx/dt = x beta/tau L^(1 + 1/beta), L = ln(1/x), times `ageing`. Below a degree of 0.001 a straight line
    leads to the curve, so that it starts from 0 and is at 0.001 at its time.

    References
    ----------
    Schindler & Folliard, ACI Mater. J. 102 (2005) 24 [schindler-folliard-2005]; authors from memory. For
    gypsum the same curve, steeper: a smooth S through the time at which it is hard, no published law.

    Examples
    --------
    >>> law = SettingLaw(14 * 3600.0, 0.94, 40e3, 293.15)
    >>> print(f"{3600 * setting_rate(293.15, 0.5, law.row):.4f} per hour")
    0.0158 per hour
    """
    tau, beta, energy, reference = parameters
    ages = exp(energy / GAS_CONSTANT * (1.0 / reference - 1.0 / temperature))
    if degree >= 1.0:
        return 0.0
    if degree < EARLY:
        return float(ages * EARLY / tau * (-log(EARLY)) ** (1.0 / beta))
    left = -log(degree)
    return float(ages * degree * beta / tau * left ** (1.0 + 1.0 / beta))
