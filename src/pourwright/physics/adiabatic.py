"""Cure that keeps all its heat: the middle of a deep pour, or a pail left standing."""

from collections.abc import Callable

from scipy.integrate import quad

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real

POSITIVE = Range(0.0, open_low=True)


@checked(
    conversion=Range(0.0, 1.0),
    heat_of_reaction=Range(0.0),
    heat_capacity=POSITIVE,
    filler_share=Range(0.0, 1.0, open_high=True),
    filler_heat_capacity=Range(0.0),
)
def adiabatic_rise(
    conversion: Real,
    heat_of_reaction: float,
    heat_capacity: float,
    *,
    filler_share: Real | float = 0.0,
    filler_heat_capacity: float = 0.0,
) -> Real:
    """Rise of temperature of a mix that loses no heat.

    Parameters
    ----------
    conversion : degree of cure gone through [-], 0 to 1, float or array
    heat_of_reaction : heat of full cure, per mass of the resin [J/kg]
    heat_capacity : specific heat capacity of the resin [J/(kg K)]
    filler_share : mass of grains stirred in over mass of the whole mix [-]; 0 for neat resin
    filler_heat_capacity : specific heat capacity of the grains [J/(kg K)]

    Returns
    -------
    rise [K]

    Raises
    ------
    RangeError : a share outside 0 to 1, or a heat capacity not above 0

    Notes
    -----
    dT = (1 - w) a H / ((1 - w) c + w c_f). The upper end of what a pour can reach: nothing is
    hotter than this.

    References
    ----------
    Energy balance with constant heat capacity [energy-balance].

    Examples
    --------
    The same resin neat, and with 70 % of its weight in glass.

    >>> print(f"{adiabatic_rise(1.0, 450e3, 1800.0):.1f} K")
    250.0 K
    >>> print(f"{adiabatic_rise(1.0, 450e3, 1800.0, filler_share=0.7, filler_heat_capacity=840.0):.1f} K")
    119.7 K
    """
    resin = 1.0 - filler_share
    held = resin * heat_capacity + filler_share * filler_heat_capacity
    return resin * conversion * heat_of_reaction / held


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
