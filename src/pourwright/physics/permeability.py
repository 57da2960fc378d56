"""How easily a liquid runs through a bed of grains."""

from collections.abc import Callable, Mapping
from math import log
from types import MappingProxyType

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real

LENGTH = Range(0.0, 1.0, "m", open_low=True)
VOIDS = Range(0.0, 1.0, open_low=True, open_high=True)
SPHERICITY = Range(0.1, 1.0)
NOT_NEGATIVE = Range(0.0)
POSITIVE = Range(0.0, open_low=True)


@checked(sieve_from=LENGTH, sieve_to=LENGTH)
def mean_grain(sieve_from: float, sieve_to: float) -> float:
    """Size of grains that have together as much surface as what lies between two sieves.

    Parameters
    ----------
    sieve_from : opening of the sieve they stay on [m]
    sieve_to : opening of the sieve they pass, not smaller [m]

    Returns
    -------
    diameter [m]

    Raises
    ------
    RangeError : an opening out of range

    Notes
    -----
    d = ln(b / a) / (1 / a - 1 / b): mass spread evenly over the logarithm of the size, mean by
    surface (Sauter), which is what resists a flow.

    References
    ----------
    Definition of the surface mean diameter; Kunii & Levenspiel, Fluidization Engineering
    [kunii-levenspiel-1991].

    Examples
    --------
    >>> print(f"{1e3 * mean_grain(0.00315, 0.0063):.3f} mm")
    4.367 mm
    """
    if sieve_to <= sieve_from:
        return sieve_from
    return log(sieve_to / sieve_from) / (1.0 / sieve_from - 1.0 / sieve_to)


@checked(diameter=LENGTH, void_fraction=VOIDS, sphericity=SPHERICITY, constant=Range(100.0, 400.0))
def kozeny_carman(
    diameter: float, void_fraction: Real, *, sphericity: float = 1.0, constant: float = 180.0
) -> Real:
    """Permeability of a bed of grains.

    Parameters
    ----------
    diameter : size of the grains [m]
    void_fraction : volume between the grains over volume of the bed [-], float or array
    sphericity : surface of a ball of the grain's volume over the grain's own [-]
    constant : of the law [-]; 180 for spheres and sand

    Returns
    -------
    permeability [m2]

    Raises
    ------
    RangeError : a size, void fraction or shape out of range

    Notes
    -----
    k = (f d)^2 e^3 / (C (1 - e)^2), f the sphericity. For creeping flow through grains
    of about one size; within some 30 % for sands, a factor of 2 for flat splinters.

    References
    ----------
    Carman, Trans. Inst. Chem. Eng. 15 (1937) 150 [carman-1937]; Kozeny 1927.

    Examples
    --------
    >>> print(f"{kozeny_carman(0.003, 0.45):.4e} m2")
    1.5062e-08 m2
    """
    return (sphericity * diameter) ** 2 * void_fraction**3 / (constant * (1 - void_fraction) ** 2)


@checked(diameter=LENGTH, void_fraction=VOIDS, sphericity=SPHERICITY)
def ergun_permeability(diameter: float, void_fraction: Real, *, sphericity: float = 1.0) -> Real:
    """Permeability by the slow end of Ergun's law, a fifth above `kozeny_carman`.

    Parameters
    ----------
    diameter : size of the grains [m]
    void_fraction : volume between the grains over volume of the bed [-], float or array
    sphericity : surface of a ball of the grain's volume over the grain's own [-]

    Returns
    -------
    permeability [m2]

    Raises
    ------
    RangeError : a size, void fraction or shape out of range

    Notes
    -----
    k = (f d)^2 e^3 / (150 (1 - e)^2).

    References
    ----------
    Ergun, Chem. Eng. Prog. 48 (1952) 89 [ergun-1952].

    Examples
    --------
    >>> print(f"{ergun_permeability(0.003, 0.45):.4e} m2")
    1.8074e-08 m2
    """
    return kozeny_carman(diameter, void_fraction, sphericity=sphericity, constant=150.0)


@checked(
    velocity=NOT_NEGATIVE,
    length=NOT_NEGATIVE,
    diameter=LENGTH,
    void_fraction=VOIDS,
    density=POSITIVE,
    viscosity=POSITIVE,
    sphericity=SPHERICITY,
)
def ergun_pressure_drop(
    velocity: Real,
    length: float,
    diameter: float,
    void_fraction: float,
    density: float,
    viscosity: float,
    *,
    sphericity: float = 1.0,
) -> Real:
    """Pressure that drives a liquid through a bed, also where it no longer creeps.

    Parameters
    ----------
    velocity : volume flow over the whole cross-section [m/s], float or array
    length : of the bed [m]
    diameter : size of the grains [m]
    void_fraction : volume between the grains over volume of the bed [-]
    density : of the liquid [kg/m3]
    viscosity : of the liquid [Pa s]
    sphericity : surface of a ball of the grain's volume over the grain's own [-]

    Returns
    -------
    pressure drop [Pa]

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    p / L = 150 mu v (1 - e)^2 / (e^3 d^2) + 1.75 rho v^2 (1 - e) / (e^3 d), d times the sphericity.

    References
    ----------
    Ergun, Chem. Eng. Prog. 48 (1952) 89 [ergun-1952].

    Examples
    --------
    Resin creeps: of its pressure a ten-thousandth goes into speeding up.

    >>> print(f"{ergun_pressure_drop(0.001, 0.05, 0.003, 0.45, 1100.0, 0.6):.1f} Pa")
    1660.0 Pa
    """
    creeping = viscosity * velocity / ergun_permeability(diameter, void_fraction, sphericity=sphericity)
    rest = 1.75 * density * (1 - void_fraction) / (void_fraction**3 * sphericity * diameter)
    return length * (creeping + rest * velocity**2)


Permeability = Callable[..., float]
PERMEABILITIES: Mapping[str, Permeability] = MappingProxyType(
    {"kozeny-carman": kozeny_carman, "ergun": ergun_permeability}
)
"""Laws by name; each takes diameter, void fraction and sphericity."""
