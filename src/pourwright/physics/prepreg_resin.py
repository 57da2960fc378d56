"""A published aerospace resin, whole: kinetics, heat and flow from one paper, to test a solver with."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PrepregResin:
    """What one publication measured on one resin.

    Parameters
    ----------
    kinetics : coefficients for `cure.lee_loos_springer_rate`, in its order [1/s, J/mol]
    heat_of_reaction : of full cure, per mass of resin [J/kg]
    flow : coefficients for `viscosity.lee_loos_springer_viscosity`, in its order [Pa s, J/mol, -]
    """

    kinetics: tuple[float, float, float, float, float, float]
    heat_of_reaction: float
    flow: tuple[float, float, float]


def lee_loos_springer_1982() -> PrepregResin:
    """Resin of TGDDM and DDS as published: no casting resin, and not cured in a shop.

    Parameters
    ----------
    none : a fresh set each time

    Returns
    -------
    kinetics [1/s, J/mol], heat of reaction [J/kg] and flow [Pa s, J/mol, -]

    Notes
    -----
    The paper has the pre-exponentials per minute. Heat 473.6 kJ/kg (+-5.4, from memory), per mass
    of resin, not of laminate. The viscosity at infinite temperature is from memory.

    References
    ----------
    Lee, Loos & Springer, J. Compos. Mater. 16 (1982) 510 [lee-loos-springer-1982].

    Examples
    --------
    Kept in without loss, it would warm itself by more than 300 K.

    >>> from pourwright.physics.adiabatic import adiabatic_rise
    >>> print(f"{adiabatic_rise(1.0, lee_loos_springer_1982().heat_of_reaction, 1260.0):.0f} K")
    376 K
    """
    minute = 60.0
    kinetics = 2.101e9 / minute, 80700.0, -2.014e9 / minute, 77800.0, 1.96e5 / minute, 56600.0
    return PrepregResin(kinetics, 473.6e3, (7.93e-14, 90800.0, 14.1))
