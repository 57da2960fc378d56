"""Chemical cure rate of a reacting resin, before diffusion slows it down."""

from typing import Any

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real
from pourwright.physics.constants import GAS_CONSTANT

TEMPERATURE = Range(150.0, 1000.0, "K")
CONVERSION = Range(0.0, 1.0)
ENERGY = Range(0.0, 5e5, "J/mol")
ORDER = Range(0.0, 5.0)
NOT_NEGATIVE = Range(0.0)


@checked(temperature=TEMPERATURE, activation_energy=ENERGY)
def arrhenius(temperature: Real, pre_exponential: float, activation_energy: float) -> Real:
    """Rate constant that grows with temperature.

    Parameters
    ----------
    temperature : absolute temperature [K], float or array
    pre_exponential : rate constant at infinite temperature [1/s]; may be negative where
        a published fit says so
    activation_energy : activation energy [J/mol]

    Returns
    -------
    rate constant [1/s], shaped like ``temperature``

    Raises
    ------
    RangeError : temperature outside 150 to 1000 K, or a negative activation energy

    Notes
    -----
    k = A exp(-E / (R T)). Valid as far as one reaction path dominates: extrapolate by
    no more than some 20 K beyond the temperatures it was fitted to.

    References
    ----------
    Arrhenius, Z. Phys. Chem. 4 (1889) 226 [arrhenius-1889].

    Examples
    --------
    From 20 to 30 degC a path of 50 kJ/mol is 1.97 times as fast.

    >>> print(f"{arrhenius(303.15, 1.0, 50e3) / arrhenius(293.15, 1.0, 50e3):.4f}")
    1.9674
    """
    factor: Any = np.exp(-activation_energy / (GAS_CONSTANT * temperature))
    return pre_exponential * factor  # type: ignore[no-any-return]


@checked(
    temperature=TEMPERATURE,
    conversion=CONVERSION,
    a1=NOT_NEGATIVE,
    e1=ENERGY,
    a2=NOT_NEGATIVE,
    e2=ENERGY,
    m=ORDER,
    n=ORDER,
)
def kamal_sourour_rate(
    temperature: Real,
    conversion: Real,
    a1: float,
    e1: float,
    a2: float,
    e2: float,
    m: float,
    n: float,
) -> Real:
    """Rate of an autocatalytic cure with an uncatalysed path beside it.

    Parameters
    ----------
    temperature : absolute temperature [K], float or array
    conversion : degree of cure [-], 0 to 1, same shape
    a1, e1 : pre-exponential [1/s] and activation energy [J/mol] of the uncatalysed path
    a2, e2 : the same of the autocatalytic path
    m, n : orders of the autocatalysis and of the depletion [-]

    Returns
    -------
    rate of conversion [1/s]

    Raises
    ------
    RangeError : a temperature, conversion, energy or order out of range

    Notes
    -----
    da/dt = (k1 + k2 a^m) (1 - a)^n with k_i = A_i exp(-E_i / (R T)). Valid until the
    glass transition of the mix comes near its temperature; then see `diffusion`.

    References
    ----------
    Kamal & Sourour, Polym. Eng. Sci. 13 (1973) 59 [kamal-sourour-1973].

    Examples
    --------
    >>> rate = kamal_sourour_rate(296.15, 0.3, 3e4, 6e4, 1.1e5, 5.5e4, 0.6, 1.8)
    >>> print(f"{rate * 3600:.4f} per hour")
    0.0216 per hour
    """
    catalysed = arrhenius(temperature, a2, e2) * conversion**m
    left: Any = (1 - conversion) ** n
    return (arrhenius(temperature, a1, e1) + catalysed) * left  # type: ignore[no-any-return]


@checked(time=NOT_NEGATIVE, k1=Range(0.0, unit="1/s", open_low=True), k2=NOT_NEGATIVE)
def kamal_sourour_unit_orders(time: Real, k1: float, k2: float) -> Real:
    """Conversion after a time at constant temperature, for m = n = 1 (exact).

    Parameters
    ----------
    time : time since the mix, at conversion 0 [s], float or array
    k1 : rate constant of the uncatalysed path [1/s], above 0
    k2 : rate constant of the autocatalytic path [1/s]

    Returns
    -------
    conversion [-]

    Raises
    ------
    RangeError : a negative time, or k1 not above 0

    Notes
    -----
    a = k1 (E - 1) / (k2 + k1 E) with E = exp((k1 + k2) t), written with exp(-..) so that
    long times do not overflow. Valid for constant temperature only.

    References
    ----------
    Rate law of Kamal & Sourour 1973 [kamal-sourour-1973]; integrated here.

    Examples
    --------
    >>> print(f"{kamal_sourour_unit_orders(1800.0, 1e-4, 1.2e-3):.6f}")
    0.419156
    """
    # the exponent falls with time, so that a long time cannot overflow
    decay: Any = np.exp(-(k1 + k2) * time)
    return k1 * (1 - decay) / (k1 + k2 * decay)  # type: ignore[no-any-return]


@checked(time=NOT_NEGATIVE, rate_constant=NOT_NEGATIVE, order=ORDER)
def nth_order_conversion(time: Real, rate_constant: float, order: float) -> Real:
    """Conversion after a time at constant temperature, for a reaction of order n.

    Parameters
    ----------
    time : time since conversion 0 [s], float or array
    rate_constant : rate constant [1/s]
    order : order of the reaction [-]

    Returns
    -------
    conversion [-]; 1 once a reaction of order below 1 has run out

    Raises
    ------
    RangeError : a negative time or rate constant, or an order outside 0 to 5

    Notes
    -----
    da/dt = k (1 - a)^n gives a = 1 - exp(-k t) for n = 1, and otherwise
    a = 1 - (1 + (n - 1) k t)^(1 / (1 - n)). Valid for constant temperature only.

    References
    ----------
    Closed form of the rate law of any text on chemical kinetics [rate-laws].

    Examples
    --------
    >>> print(f"{nth_order_conversion(3600.0, 5e-4, 2.0):.6f}")
    0.642857
    """
    reach = rate_constant * time
    if order == 1.0:
        gone: Any = np.expm1(-reach)
        return -gone  # type: ignore[no-any-return]
    base: Any = np.maximum(1 + (order - 1) * reach, 0.0)
    left: Any = base ** (1 / (1 - order))
    return 1 - left  # type: ignore[no-any-return]


@checked(temperature=TEMPERATURE, conversion=CONVERSION, e1=ENERGY, e2=ENERGY, e3=ENERGY)
def lee_loos_springer_rate(
    temperature: Real,
    conversion: Real,
    a1: float,
    e1: float,
    a2: float,
    e2: float,
    a3: float,
    e3: float,
    *,
    limit: float = 0.47,
    switch: float = 0.3,
) -> Real:
    """Two-branch cure rate of an aerospace epoxy, kept as a published test of the solver.

    Parameters
    ----------
    temperature : absolute temperature [K], float or array
    conversion : degree of cure [-], 0 to 1
    a1, e1, a2, e2, a3, e3 : pre-exponentials [1/s] (a2 is negative in the published
        fit) and activation energies [J/mol] of the three rate constants
    limit : the constant B of the first branch [-]
    switch : conversion where the second branch takes over [-]

    Returns
    -------
    rate of conversion [1/s]

    Raises
    ------
    RangeError : a temperature, conversion or energy out of range

    Notes
    -----
    da/dt = (K1 + K2 a) (1 - a) (B - a) up to the switch, K3 (1 - a) beyond it; the two
    branches do not meet. Valid for the resin it was fitted to (TGDDM/DDS), which is not
    a casting resin.

    References
    ----------
    Lee, Loos & Springer, J. Compos. Mater. 16 (1982) 510 [lee-loos-springer-1982].

    Examples
    --------
    >>> rate = lee_loos_springer_rate(
    ...     450.15, 0.5, 3.502e7, 8.07e4, -3.357e7, 7.78e4, 3267.0, 5.66e4
    ... )
    >>> print(f"{rate * 60:.4f} per minute")
    0.0265 per minute
    """
    k1, k2, k3 = (arrhenius(temperature, a, e) for a, e in ((a1, e1), (a2, e2), (a3, e3)))
    first = (k1 + k2 * conversion) * (1 - conversion) * (limit - conversion)
    chosen: Any = np.where(conversion <= switch, first, k3 * (1 - conversion))[()]
    return chosen  # type: ignore[no-any-return]
