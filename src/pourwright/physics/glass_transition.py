"""Glass transition of a resin as far as it has cured, and the cure at which it sets in."""

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real

TEMPERATURE = Range(150.0, 1000.0, "K")
LAMBDA = Range(0.01, 1.0)


@checked(conversion=Range(0.0, 1.0), uncured=TEMPERATURE, cured=TEMPERATURE, ratio=LAMBDA)
def dibenedetto(conversion: Real, uncured: float, cured: float, ratio: float) -> Real:
    """Glass transition at a degree of cure.

    Parameters
    ----------
    conversion : degree of cure [-], 0 to 1, float or array
    uncured : glass transition of the fresh mix [K]
    cured : glass transition of the fully cured resin [K], above ``uncured``
    ratio : lambda [-], the ratio of the changes of heat capacity, 0 to 1

    Returns
    -------
    glass transition [K]

    Raises
    ------
    RangeError : a conversion, temperature or ratio out of range

    Notes
    -----
    (Tg - Tg0) / (Tg1 - Tg0) = L a / (1 - (1 - L) a). Valid for one-step networks.

    References
    ----------
    DiBenedetto, J. Polym. Sci. B 25 (1987) 1949 [dibenedetto-1987];
    Pascault & Williams, J. Polym. Sci. B 28 (1990) 85 [pascault-williams-1990].

    Examples
    --------
    >>> print(f"{dibenedetto(0.5, 253.15, 493.15, 0.5) - 273.15:.2f} degC")
    60.00 degC
    """
    return uncured + (cured - uncured) * ratio * conversion / (1 - (1 - ratio) * conversion)


@checked(glass_transition=TEMPERATURE, uncured=TEMPERATURE, cured=TEMPERATURE, ratio=LAMBDA)
def dibenedetto_conversion(glass_transition: Real, uncured: float, cured: float, ratio: float) -> Real:
    """Degree of cure that brings the glass transition to a temperature.

    Parameters
    ----------
    glass_transition : glass transition asked for [K], float or array
    uncured : glass transition of the fresh mix [K]
    cured : glass transition of the fully cured resin [K], above ``uncured``
    ratio : lambda [-], 0 to 1

    Returns
    -------
    conversion [-]; above 1 where full cure does not reach the temperature asked for,
    below 0 where the fresh mix is already glassy there

    Raises
    ------
    RangeError : a temperature or ratio out of range

    Notes
    -----
    a = y / (L + (1 - L) y) with y = (Tg - Tg0) / (Tg1 - Tg0): the inverse of
    `dibenedetto`. At the temperature of the shop it is the cure at which the resin
    vitrifies and stalls. Use it for y above -L / (1 - L), its pole.

    References
    ----------
    DiBenedetto 1987 [dibenedetto-1987], solved for the conversion.

    Examples
    --------
    A slow casting resin in a shop at 25 degC stalls a little beyond half cure.

    >>> print(f"{dibenedetto_conversion(298.15, 253.15, 393.15, 0.4):.6f}")
    0.542169
    """
    share = (glass_transition - uncured) / (cured - uncured)
    return share / (ratio + (1 - ratio) * share)
