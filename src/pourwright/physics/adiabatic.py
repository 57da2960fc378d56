"""Cure that keeps all its heat: the middle of a deep pour, or a pail left standing."""

from collections.abc import Callable

from scipy.integrate import quad

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real

POSITIVE = Range(0.0, open_low=True)


@checked(conversion=Range(0.0, 1.0), heat_of_reaction=Range(0.0), heat_capacity=POSITIVE)
def adiabatic_rise(conversion: Real, heat_of_reaction: float, heat_capacity: float) -> Real:
    """Rise of temperature of a mix that loses no heat.

    Parameters
    ----------
    conversion : degree of cure gone through [-], 0 to 1, float or array
    heat_of_reaction : heat of full cure, per mass of the whole mix [J/kg]
    heat_capacity : specific heat capacity of the whole mix [J/(kg K)]

    Returns
    -------
    rise [K]

    Raises
    ------
    RangeError : a conversion outside 0 to 1, or a heat capacity not above 0

    Notes
    -----
    dT = a H / c. The upper end of what a pour can reach: nothing is hotter than this.

    References
    ----------
    Energy balance with constant heat capacity [energy-balance].

    Examples
    --------
    >>> print(f"{adiabatic_rise(1.0, 250e3, 1200.0):.1f} K")
    208.3 K
    """
    return conversion * heat_of_reaction / heat_capacity


@checked(
    conversion=Range(0.0, 1.0, open_high=True),
    start_temperature=Range(150.0, 600.0, "K"),
    full_rise=Range(0.0, 1000.0, "K"),
    start_conversion=Range(0.0, 1.0),
)
def adiabatic_time(
    conversion: float,
    rate: Callable[[float, float], float],
    start_temperature: float,
    full_rise: float,
    *,
    start_conversion: float = 0.0,
) -> float:
    """Time a mix that loses no heat takes to reach a degree of cure.

    Parameters
    ----------
    conversion : degree of cure to reach [-], below 1
    rate : rate of cure [1/s] at a temperature [K] and a conversion [-]
    start_temperature : temperature at the start [K]
    full_rise : rise at full cure, `adiabatic_rise` at 1 [K]
    start_conversion : conversion at the start [-]

    Returns
    -------
    time [s]

    Raises
    ------
    RangeError : a conversion, temperature or rise out of range

    Notes
    -----
    t = integral of da / rate(T0 + (a - a0) dT, a) by adaptive quadrature. The rate must
    be above 0 at the start.

    References
    ----------
    Energy balance with constant heat capacity [energy-balance].

    Examples
    --------
    >>> from pourwright.physics.cure import arrhenius
    >>> second_order = lambda t, a: arrhenius(t, 1e5, 55e3) * (1 - a) ** 2
    >>> print(f"{adiabatic_time(0.5, second_order, 298.15, 250e3 / 1200.0):.0f} s")
    3703 s
    """

    def slowness(at: float) -> float:
        return 1 / rate(start_temperature + (at - start_conversion) * full_rise, at)

    return float(quad(slowness, start_conversion, conversion, epsrel=1e-9, limit=200)[0])
