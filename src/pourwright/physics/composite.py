"""Heat conduction of a resin filled with grains: published models and their bounds.

Every model takes the volume fraction of the grains first, then the conductivities of
the resin around them and of the grains themselves. `effective_medium` adds the models
for crowded mixes and the choice by name.
"""

from typing import Any

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real

FRACTION = Range(0.0, 1.0)
CONDUCTIVITY = Range(1e-3, 500.0, "W/(m K)")


@checked(particle_fraction=FRACTION, matrix=CONDUCTIVITY, particle=CONDUCTIVITY)
def wiener_series(particle_fraction: Real, matrix: float, particle: float) -> Real:
    """Lowest conductivity any two-phase mix can have: layers across the heat flow.

    Parameters
    ----------
    particle_fraction : volume of grains over volume of the mix [-], 0 to 1, float or array
    matrix : conductivity of the resin [W/(m K)]
    particle : conductivity of the grains [W/(m K)]

    Returns
    -------
    conductivity [W/(m K)]

    Raises
    ------
    RangeError : a fraction outside 0 to 1, or a conductivity outside 0.001 to 500

    Notes
    -----
    1/k = (1 - phi)/k_m + phi/k_p. A bound for any arrangement.

    References
    ----------
    Wiener, Abh. Saechs. Akad. Wiss. 32 (1912) 509 [wiener-1912].

    Examples
    --------
    >>> print(f"{wiener_series(0.55, 0.2, 1.0):.6f}")
    0.357143
    """
    return 1 / ((1 - particle_fraction) / matrix + particle_fraction / particle)


@checked(particle_fraction=FRACTION, matrix=CONDUCTIVITY, particle=CONDUCTIVITY)
def wiener_parallel(particle_fraction: Real, matrix: float, particle: float) -> Real:
    """Highest conductivity any two-phase mix can have: layers along the heat flow.

    Parameters
    ----------
    particle_fraction : volume of grains over volume of the mix [-], 0 to 1, float or array
    matrix : conductivity of the resin [W/(m K)]
    particle : conductivity of the grains [W/(m K)]

    Returns
    -------
    conductivity [W/(m K)]

    Raises
    ------
    RangeError : a fraction outside 0 to 1, or a conductivity outside 0.001 to 500

    Notes
    -----
    k = (1 - phi) k_m + phi k_p. A bound for any arrangement.

    References
    ----------
    Wiener, Abh. Saechs. Akad. Wiss. 32 (1912) 509 [wiener-1912].

    Examples
    --------
    >>> print(f"{wiener_parallel(0.55, 0.2, 1.0):.2f}")
    0.64
    """
    return (1 - particle_fraction) * matrix + particle_fraction * particle


@checked(particle_fraction=FRACTION, matrix=CONDUCTIVITY, particle=CONDUCTIVITY)
def geometric_mean(particle_fraction: Real, matrix: float, particle: float) -> Real:
    """Geometric mean of both conductivities, a rule of thumb between the bounds.

    Parameters
    ----------
    particle_fraction : volume of grains over volume of the mix [-], 0 to 1, float or array
    matrix : conductivity of the resin [W/(m K)]
    particle : conductivity of the grains [W/(m K)]

    Returns
    -------
    conductivity [W/(m K)]

    Raises
    ------
    RangeError : a fraction outside 0 to 1, or a conductivity outside 0.001 to 500

    Notes
    -----
    k = k_m^(1 - phi) k_p^phi. No derivation; close to measurements where the grains
    conduct less than some 20 times better than the resin (from memory).

    References
    ----------
    Lichtenecker, Phys. Z. 27 (1926) 115 [lichtenecker-1926]; from memory.

    Examples
    --------
    >>> print(f"{geometric_mean(0.55, 0.2, 1.0):.6f}")
    0.484689
    """
    power: Any = np.power(particle / matrix, particle_fraction)
    return matrix * power  # type: ignore[no-any-return]


@checked(particle_fraction=FRACTION, matrix=CONDUCTIVITY, particle=CONDUCTIVITY)
def maxwell_eucken(particle_fraction: Real, matrix: float, particle: float) -> Real:
    """Conductivity of a resin with spheres that do not touch.

    Parameters
    ----------
    particle_fraction : volume of grains over volume of the mix [-], 0 to 1, float or array
    matrix : conductivity of the resin [W/(m K)]
    particle : conductivity of the grains [W/(m K)]

    Returns
    -------
    conductivity [W/(m K)]

    Raises
    ------
    RangeError : a fraction outside 0 to 1, or a conductivity outside 0.001 to 500

    Notes
    -----
    k = k_m (2 k_m + k_p - 2 phi (k_m - k_p)) / (2 k_m + k_p + phi (k_m - k_p)). Exact for
    few grains. It is the lower Hashin-Shtrikman bound where the grains conduct better,
    and the upper one where they conduct worse.

    References
    ----------
    Maxwell 1873; Eucken 1940 [maxwell-eucken]; Hashin & Shtrikman, J. Appl. Phys. 33
    (1962) 3125 [hashin-shtrikman-1962].

    Examples
    --------
    >>> print(f"{maxwell_eucken(0.55, 0.2, 1.0):.4f}")
    0.4750
    """
    base, step = 2 * matrix + particle, particle_fraction * (matrix - particle)
    return matrix * (base - 2 * step) / (base + step)


@checked(particle_fraction=FRACTION, matrix=CONDUCTIVITY, particle=CONDUCTIVITY)
def hashin_shtrikman_lower(particle_fraction: Real, matrix: float, particle: float) -> Real:
    """Lowest conductivity of a mix that is alike in all directions.

    Parameters
    ----------
    particle_fraction : volume of grains over volume of the mix [-], 0 to 1, float or array
    matrix : conductivity of the resin [W/(m K)]
    particle : conductivity of the grains [W/(m K)]

    Returns
    -------
    conductivity [W/(m K)]

    Raises
    ------
    RangeError : a fraction outside 0 to 1, or a conductivity outside 0.001 to 500

    Notes
    -----
    The Maxwell-Eucken form with the poorer conductor around the better one.

    References
    ----------
    Hashin & Shtrikman, J. Appl. Phys. 33 (1962) 3125 [hashin-shtrikman-1962].

    Examples
    --------
    >>> print(f"{hashin_shtrikman_lower(0.55, 0.2, 1.0):.4f}")
    0.4750
    """
    if particle >= matrix:
        return maxwell_eucken(particle_fraction, matrix, particle)
    return maxwell_eucken(1 - particle_fraction, particle, matrix)


@checked(particle_fraction=FRACTION, matrix=CONDUCTIVITY, particle=CONDUCTIVITY)
def hashin_shtrikman_upper(particle_fraction: Real, matrix: float, particle: float) -> Real:
    """Highest conductivity of a mix that is alike in all directions.

    Parameters
    ----------
    particle_fraction : volume of grains over volume of the mix [-], 0 to 1, float or array
    matrix : conductivity of the resin [W/(m K)]
    particle : conductivity of the grains [W/(m K)]

    Returns
    -------
    conductivity [W/(m K)]

    Raises
    ------
    RangeError : a fraction outside 0 to 1, or a conductivity outside 0.001 to 500

    Notes
    -----
    The Maxwell-Eucken form with the better conductor around the poorer one.

    References
    ----------
    Hashin & Shtrikman, J. Appl. Phys. 33 (1962) 3125 [hashin-shtrikman-1962].

    Examples
    --------
    >>> print(f"{hashin_shtrikman_upper(0.55, 0.2, 1.0):.6f}")
    0.578125
    """
    if particle >= matrix:
        return maxwell_eucken(1 - particle_fraction, particle, matrix)
    return maxwell_eucken(particle_fraction, matrix, particle)
